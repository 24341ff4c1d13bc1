"""What the history takes from a walk folder, as the walk stands after its edits.

Only the few keys it needs are read from ``walk.json``: a whole walk, word by word, costs three times as much.
"""

import math
from datetime import datetime
from pathlib import Path

from pydantic import BaseModel, Field, ValidationError

from saycheck import walkfolder
from saycheck.errors import WalkError
from saycheck.history.decisions import decided
from saycheck.history.names import storable
from saycheck.history.records import Measured, Said, Walked
from saycheck.history.renewed import renewed
from saycheck.models.walk import SCHEMA, ChecklistLine, Evidence, Finding, Machine, Measurement, Walk

QUOTE = 160
"""So many characters of a finding's words are kept."""


class _Text(BaseModel):
    text: str


class _Finding(BaseModel):
    """A finding as far as it is needed."""

    id: str
    zone: str
    part: str
    side: str
    state: str
    condition: str
    denied: bool = False
    needs_review: bool = False
    measurements: list[Measurement] = []
    evidence: list[Evidence] = []
    line: str | None = None


class _Walk(BaseModel):
    """A walk as far as it is needed."""

    schema_name: str = Field(alias="schema")
    id: str
    walked_at: str | None = None
    machine: Machine
    transcript: _Text
    findings: list[_Finding] = []
    checklist: list[ChecklistLine] = []
    questions: list[object] = []


def take(folder: Path, name: str = "") -> Walked:
    """The walk of a folder; ``name`` is what the folder is called, else its own path.

    Raises:
        SaycheckError: the walk or its edits cannot be read.
    """
    if (folder / walkfolder.EDITS).exists():
        from saycheck.standing import standing

        now = standing(folder)
        return taken(now.walk, folder, name, now.reviewed)
    return taken(_read(folder), folder, name)


def _read(folder: Path) -> Walk | _Walk:
    path = folder / walkfolder.WALK
    try:
        walk = _Walk.model_validate_json(path.read_bytes())
    except OSError as error:
        raise WalkError(f"'{path}' cannot be read ({error.strerror}); check who may read it") from error
    except ValidationError:
        return walkfolder.read(folder)  # says in its own sentence what is wrong
    return walk if walk.schema_name == SCHEMA else walkfolder.read(folder)


def taken(walk: Walk | _Walk, folder: Path, name: str = "", reviewed: bool = False) -> Walked:
    """A walk as the history keeps it."""
    reached: dict[str, list[tuple[str, str, str]]] = {}
    for listed in walk.checklist:
        for finding_id in listed.finding_ids:
            reached.setdefault(finding_id, []).append((listed.zone, listed.part, listed.side))
    said: list[Said] = []
    measured: list[Measured] = []
    for finding in walk.findings:
        words = _words(finding, walk.transcript.text)
        numbers = [one for one in finding.measurements if _is_clear(one)]
        for zone, line, side in _lines(finding, reached.get(finding.id, [])):
            said.append(_said(finding, zone, line, side, words))
            measured += [_measured(finding, one, line, side, words) for one in numbers]
    hours = walk.machine.hours
    return Walked(
        walk_id=storable(walk.id),
        folder=name or str(folder),
        kind=storable(walk.machine.kind),
        unit=storable(" ".join(walk.machine.unit.split())) if walk.machine.unit else None,
        hours=hours if hours is not None and 0 <= hours < 1e7 else None,
        when=walked_when(walk.id, walk.walked_at, folder),
        questions=len(walk.questions),
        reviewed=reviewed,
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


def _lines(finding: Finding | _Finding, reached: list[tuple[str, str, str]]) -> list[tuple[str, str, str]]:
    """The lines a finding counts for: its own where it is trouble, all it reaches where it is fine."""
    own = [line for line in reached if line[1] == finding.line]
    name = finding.line or finding.part
    if finding.state in ("watch", "writeup") or not reached:
        if finding.side in ("left", "right", "none"):
            return [(finding.zone, name, finding.side)]
        return [(finding.zone, name, side) for side in ("left", "right")]
    return own if finding.measurements and own else reached


def _said(finding: Finding | _Finding, zone: str, line: str, side: str, words: str) -> Said:
    return Said(
        zone=storable(zone),
        line=storable(line),
        side=side,
        part=storable(finding.part) if line == (finding.line or finding.part) else storable(line),
        condition=storable(finding.condition),
        state=finding.state,
        denied=finding.denied,
        flagged=finding.needs_review,
        words=words,
    )


def _measured(finding: Finding | _Finding, one: Measurement, line: str, side: str, words: str) -> Measured:
    return Measured(
        line=storable(line),
        side=side,
        part=storable(finding.part),
        attribute=storable(one.attribute or ""),
        value=one.value,
        unit=storable(one.unit),
        plus_minus=one.plus_minus,
        value_si=one.value_si,
        unit_si=storable(one.unit_si),
        judged=storable(one.judged or ""),
        renewed=renewed(words),
    )


def _words(finding: Finding | _Finding, text: str) -> str:
    words = " … ".join(text[one.char_start : one.char_end] for one in finding.evidence)
    words = storable(" ".join(words.split()))
    return words if len(words) <= QUOTE else words[:QUOTE].rsplit(" ", 1)[0] + " …"
