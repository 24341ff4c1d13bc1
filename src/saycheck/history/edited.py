"""A walk that people have edited, as far as the history needs it, without making all of the walk anew.

``saycheck.standing`` is the whole of it and costs ten times as much. What is out of the ordinary is left to it:
a walk that was heard again or joined, and edits that do not meet what is in ``walk.json``.
"""

from collections.abc import Sequence
from pathlib import Path
from typing import cast

import msgspec

from saycheck.coverage.checklist import spoken
from saycheck.coverage.spoken import Coverage, Reach
from saycheck.history.quick import Edit, Finding, Line, QuickWalk
from saycheck.history.sense import sense_of
from saycheck.limits import held_against
from saycheck.models import review
from saycheck.models import walk as whole
from saycheck.review.replay import stacks
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.walkfolder import EDITS

_decoder = msgspec.json.Decoder(Edit)


def edits_of(folder: Path) -> list[Edit] | None:
    """The edits of a walk folder, oldest first; None where a line is not whole, or holds what no database takes."""
    content = (folder / EDITS).read_bytes()
    if b"\\u0000" in content:
        return None
    try:
        return [_decoder.decode(line) for line in content.splitlines()]
    except msgspec.MsgspecError:
        return None


def edited(heard: QuickWalk, edits: Sequence[Edit], folder: Path) -> QuickWalk | None:
    """The walk after the edits that count; None where only ``saycheck.standing`` can tell."""
    if heard.joined or len({one.heard for one in edits}) > 1 or any(folder.glob("walk-*.json")):
        return None
    words = sense_of(heard.machine.kind, heard.machine.unit).words
    if words is None:
        return None
    counting = set(stacks(cast("Sequence[review.Edit]", edits)).done)
    found = {one.id: one for one in heard.findings}
    machine = heard.machine
    for edit in edits:
        if edit.id in counting:
            if any(found.get(was.id) != was for was in edit.before) or not _quoted(edit, heard):
                return None
            for was in edit.before:
                found.pop(was.id)
            for made in edit.after:
                _judge(made, words)
                found[made.id] = made
            machine = edit.machine or machine
    return _with(heard, machine, list(found.values()), words, [one for one in edits if one.id in counting])


def _with(
    heard: QuickWalk, machine: object, found: list[Finding], words: Vocabulary, edits: Sequence[Edit]
) -> QuickWalk:
    """The walk with other findings, in order of speech, its checklist made anew where they reach other lines."""
    order = {one.id: place for place, one in enumerate(found)}
    found.sort(
        key=lambda one: (min((e.char_start for e in one.evidence), default=float("inf")), order[one.id])
    )
    before = {one.id: one for one in heard.findings}
    changed = [one for one in found if (was := before.get(one.id)) is not one and was != one]
    now = msgspec.structs.replace(heard, machine=machine, findings=found)
    gone = [one for one in heard.findings if one.id not in order]
    if gone or not _reach_the_same(changed, before, words, heard.transcript.text):
        now.checklist = _lines(found, words, heard.transcript.text)
    now.edits = len(edits)
    now.answered = len({one.question for one in edits if one.question})
    return now


def _quoted(edit: Edit, heard: QuickWalk) -> bool:
    """Whether the words of its findings stand where they stood, so that it was made on this hearing."""
    text = heard.transcript.text
    quoted = {one.id: one for one in (*edit.before, *edit.after)}
    return all(edit.quotes.get(name) in (None, _words(one, text)) for name, one in quoted.items())


def _words(finding: Finding, text: str) -> str:
    return " … ".join(text[one.char_start : one.char_end] for one in finding.evidence)


def _judge(finding: Finding, words: Vocabulary) -> None:
    """Hold the numbers of a finding against published limits, as they are once it is changed."""
    for one in finding.measurements:
        check = held_against(cast(whole.Measurement, one), cast(whole.Finding, finding), words)
        one.judged = check.verdict if check else None


def _reach_the_same(
    changed: Sequence[Finding], before: dict[str, Finding], words: Vocabulary, text: str
) -> bool:
    """Whether changed findings speak of exactly the lines they spoke of, and of none among others."""
    reach = Reach(words, text)

    def of(finding: Finding | None) -> Coverage:
        return reach(cast(whole.Finding, finding)) if finding else Coverage()

    pairs = [(of(before.get(one.id)), of(one)) for one in changed]
    return all(was == now and not now.loose for was, now in pairs)


def _lines(found: Sequence[Finding], words: Vocabulary, text: str) -> list[Line]:
    """The checklist as far as the history reads it."""
    return [
        Line(line.zone, line.part, line.side, [one.id for one in said])
        for line, said in spoken(words, cast("Sequence[whole.Finding]", found), text=text)
        if said
    ]
