"""What the history takes from a walk folder, as the walk stands after its edits."""

import math
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from saycheck import walkfolder
from saycheck.history import quick
from saycheck.history.decisions import decided
from saycheck.history.names import storable
from saycheck.history.records import BAD, Measured, Said, Walked
from saycheck.history.renewed import renewed
from saycheck.models import walk as whole
from saycheck.models.walk import Walk

Clean = Callable[[str], str]
Finding = whole.Finding | quick.Finding
Measurement = whole.Measurement | quick.Measurement

HOURS_MOST = 1e7
"""No hour meter reads more; it is a slip."""
QUOTE = 160
"""So many characters of a finding's words are kept."""


def take(folder: Path, name: str = "") -> Walked:
    """The walk of a folder; ``name`` is what the folder is called, else its own path.

    Raises:
        SaycheckError: the walk or its edits cannot be read.
    """
    if not (folder / walkfolder.EDITS).exists():
        walk, odd = quick.read(folder)
        return taken(walk, folder, name, odd=odd)
    return _edited(folder, name) or _standing(folder, name)


def _edited(folder: Path, name: str) -> Walked | None:
    """A walk after its edits, quickly; None where that cannot be told quickly."""
    from saycheck.history.edited import edited, edits_of

    heard, odd = quick.read(folder)
    edits = edits_of(folder)
    if odd or edits is None or not isinstance(heard, quick.QuickWalk):
        return None
    walk = edited(heard, edits, folder)
    return taken(walk, folder, name, walk.edits, walk.answered, odd=False) if walk else None


def _standing(folder: Path, name: str) -> Walked:
    """A walk after its edits, by way of the whole of it."""
    from saycheck.review.replay import stacks
    from saycheck.standing import standing

    now = standing(folder)
    counting = set(stacks(now.edits).done)
    answered = {one.question for one in now.edits if one.id in counting and one.question}
    walk = now.walk.model_copy(update={"questions": now.heard.questions})
    return taken(walk, folder, name, len(counting), len(answered))


def taken(
    walk: Walk | quick.QuickWalk,
    folder: Path,
    name: str = "",
    edits: int = 0,
    answered: int = 0,
    odd: bool = True,
) -> Walked:
    """A walk as the history keeps it; ``odd`` is false where no text can hold what no database takes."""
    clean = storable if odd else str
    reached: dict[str, list[tuple[str, str, str]]] = {}
    for listed in walk.checklist:
        for finding_id in listed.finding_ids:
            reached.setdefault(finding_id, []).append((clean(listed.zone), clean(listed.part), listed.side))
    text = clean(walk.transcript.text) if odd else walk.transcript.text
    said: list[Said] = []
    measured: list[Measured] = []
    for finding in walk.findings:
        words = _words(finding, text)
        for zone, line, side in _lines(finding, reached.get(finding.id, []), clean):
            said.append(_said(finding, zone, line, side, words, clean))
            measured += [
                _measured(finding, one, line, side, words, clean)
                for one in finding.measurements
                if _is_clear(one)
            ]
    hours = walk.machine.hours
    unit = " ".join(clean(walk.machine.unit or "").split())
    return Walked(
        walk_id=clean(walk.id),
        folder=name or str(folder),
        kind=clean(walk.machine.kind),
        unit=unit or None,
        hours=hours if hours is not None and 0 <= hours < HOURS_MOST else None,
        when=walked_when(walk.id, walk.walked_at, folder),
        questions=len(walk.questions),
        answered=answered,
        edits=edits,
        unreviewed=sum(one.needs_review for one in walk.findings),
        said=tuple(said),
        measured=tuple(measured),
        decided=decided(folder),
    )


def _is_clear(one: Measurement) -> bool:
    """Whether a number can be reckoned with: its unit means one thing."""
    return not one.other_units and all(map(math.isfinite, (one.value, one.plus_minus, one.value_si)))


def walked_when(walk_id: str, walked_at: str | None, folder: Path) -> str:
    """When a walk was walked, local time to the minute: as it says itself, else the day in its id.

    Where neither tells, the time at which ``walk.json`` was written.
    """
    for told in (walked_at, walk_id[:10]):
        try:
            when = datetime.fromisoformat(told or "")
        except ValueError:
            continue
        day = when.date().isoformat()
        return day if len(told or "") == len(day) else f"{day}T{when:%H:%M}"
    written = (folder / walkfolder.WALK).stat().st_mtime
    return datetime.fromtimestamp(written).strftime("%Y-%m-%dT%H:%M")


def _lines(finding: Finding, reached: list[tuple[str, str, str]], clean: Clean) -> list[tuple[str, str, str]]:
    """The lines a finding counts for: its own where it is trouble, all it reaches where it is fine."""
    if finding.state in BAD or not reached:
        zone, line = clean(finding.zone), clean(finding.line or finding.part)
        if finding.side != "both":
            return [(zone, line, finding.side)]
        return [(zone, line, side) for side in ("left", "right")]
    if not finding.measurements:
        return reached
    return [line for line in reached if line[1] == finding.line] or reached


def _said(finding: Finding, zone: str, line: str, side: str, words: str, clean: Clean) -> Said:
    own = line == clean(finding.line or finding.part)
    return Said(
        zone,
        line,
        side,
        clean(finding.part) if own else line,
        clean(finding.condition),
        finding.state,
        finding.denied,
        finding.needs_review,
        words,
    )


def _measured(finding: Finding, one: Measurement, line: str, side: str, words: str, clean: Clean) -> Measured:
    return Measured(
        line=line,
        side=side,
        part=clean(finding.part),
        attribute=clean(one.attribute or ""),
        value=one.value,
        unit=clean(one.unit),
        plus_minus=one.plus_minus,
        value_si=one.value_si,
        unit_si=clean(one.unit_si),
        judged=clean(one.judged or ""),
        renewed=renewed(words),
    )


def _words(finding: Finding, text: str) -> str:
    words = " … ".join([text[one.char_start : one.char_end] for one in finding.evidence])
    if len(words) > QUOTE or not words.isprintable():
        words = " ".join(words.split())
    return words if len(words) <= QUOTE else words[:QUOTE].rsplit(" ", 1)[0] + " …"
