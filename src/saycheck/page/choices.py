"""What can be answered to a question with one key: each choice is the wish that it sends.

The first choice is the one that Enter means, and it never says more than was heard: it leaves things as
they are. What is unclear has none, since it must be decided.
"""

import json
from collections.abc import Sequence
from dataclasses import dataclass

from saycheck.coverage.numbers import UNIT_WORDS, measures_in
from saycheck.leaking import ASKED
from saycheck.models.walk import Finding, Question
from saycheck.reporting.wording import STATE_WORDS, plain, said_of
from saycheck.review.measures import number_in, numbers_taking
from saycheck.sums.leaks import MEANING

Lines = Sequence[tuple[str, str, str]]
Places = dict[tuple[int, int], list[Finding]]


@dataclass(frozen=True)
class Choice:
    """A button: its words, its key, and the wish as JSON; ``opens`` names a form instead,
    for a finding that is there or for a part on a side that was not spoken of."""

    words: str
    key: str = ""
    wish: str = ""
    opens: str = ""
    finding: str = ""
    part: str = ""
    side: str = ""


def choices(asked: Question, places: Places, lines: Lines) -> tuple[Choice, ...]:
    """The choices of a question; ``lines`` are those that a skipped zone is about."""
    if asked.kind == "skipped":
        return tuple(_skipped(asked, lines))
    about = findings_of(asked, places)
    if asked.kind == "conflict" and len(about) > 1:
        return tuple(_conflict(asked, about))
    if asked.kind == "unclear" and asked.id.startswith("side") and about:
        return tuple(_sides(asked, about[0]))
    if asked.kind == "unclear":
        return tuple(_unclear(asked))
    if asked.kind == "measure" and asked.id.startswith("measure-unit"):
        return tuple(_units(asked, about))
    if asked.kind == "measure" and asked.id.startswith("measure-which") and about:
        return tuple(_which(asked, about[0]))
    if asked.kind == "measure" and asked.id.startswith(ASKED):
        return tuple(_leaks(asked))
    if asked.kind == "again":
        part, side = asked.about.part or "", asked.about.side
        looked = Choice("Say how it is now", "g", opens="add", part=part, side=side)
        return (_leave(asked, "Leave as not mentioned"), looked)
    forms = {"measure": "measure", "unit": "unit", "hours": "hours"}
    opens = forms.get(asked.kind)
    out = [_leave(asked, _LEAVE.get(asked.kind, "Leave it open"))]
    if opens and (about or opens != "measure"):
        words = {"measure": "Give the number", "unit": "Name the unit", "hours": "Give the reading"}[opens]
        out.append(Choice(words, "g", opens=opens, finding=about[0].id if about else ""))
    if asked.kind in ("hidden", "later") and about:
        out.append(Choice("It was looked at after all", "g", opens="edit", finding=about[0].id))
    return tuple(out)


_LEAVE = {"hidden": "Leave as hidden", "later": "Leave as put off", "measure": "Not measured",
          "unit": "Leave it open", "hours": "Not read", "sound": "Go on with what there is"}  # fmt: skip


def by_place(findings: Sequence[Finding]) -> Places:
    """Findings by the words that they stand on."""
    found: Places = {}
    for finding in findings:
        for one in finding.evidence:
            found.setdefault((one.char_start, one.char_end), []).append(finding)
    return found


def findings_of(asked: Question, places: Places) -> list[Finding]:
    """The findings that a question is about: those that stand on its words."""
    on_words = (places.get((one.char_start, one.char_end), []) for one in asked.evidence)
    found = list({one.id: one for some in on_words for one in some}.values())
    part = asked.about.part
    return [one for one in found if part is None or one.part == part] or found


def _leave(asked: Question, words: str) -> Choice:
    return Choice(words, "Enter", _wish("answer", question=asked.id, reason=words.lower()))


def _skipped(asked: Question, lines: Lines) -> list[Choice]:
    good = [{"zone": zone, "part": part, "side": side, "state": "good"} for zone, part, side in lines]
    words = "They were looked at and are good" if len(lines) > 1 else "It was looked at and is good"
    return [
        _leave(asked, "Leave as not mentioned"),
        Choice(words, "g", _wish("add", patches=good, question=asked.id, reason="the reviewer says so")),
    ]


def _conflict(asked: Question, about: Sequence[Finding]) -> list[Choice]:
    out = []
    for number, one in enumerate(about[:4], 1):
        others = [other.id for other in about if other is not one]
        word = f"{STATE_WORDS[one.state]}: {plain(said_of(one))}"
        wish = _wish("drop", findings=others, question=asked.id, reason=f"{word} holds")
        out.append(Choice(f"“{word}” holds", str(number), wish))
    out.append(Choice("Both hold", "b", _wish("answer", question=asked.id, reason="both hold")))
    return out


def _sides(asked: Question, finding: Finding) -> list[Choice]:
    out = []
    for side, key in (("left", "l"), ("right", "r"), ("both", "b")):
        wish = _wish("change", findings=[finding.id], patches=[{"side": side}], question=asked.id)
        out.append(Choice(side.capitalize(), key, wish))
    return [*out, Choice("Leave it open", "o", _wish("answer", question=asked.id, reason="side left open"))]


def _unclear(asked: Question) -> list[Choice]:
    place = asked.evidence[0]
    wish = _wish("settle", start=place.char_start, end=place.char_end, reason="only talk")
    return [Choice("Only talk", "t", wish), Choice("Make a finding", "f", opens="add")]


def _units(asked: Question, about: Sequence[Finding]) -> list[Choice]:
    open_numbers = [m for one in about for m in one.measurements if m.other_units]
    if not open_numbers:
        return [_leave(asked, "Leave it open")]
    units = [open_numbers[0].unit, *open_numbers[0].other_units]
    out = []
    for number, unit in enumerate(units, 1):
        patches = [
            {"measurements": [number_in(m, unit).model_dump() for m in one.measurements]} for one in about
        ]
        wish = _wish("change", findings=[one.id for one in about], patches=patches, question=asked.id)
        out.append(Choice(UNIT_WORDS.get(unit, unit).capitalize(), str(number), wish))
    return [*out, Choice("Leave it open", "o", _wish("answer", question=asked.id, reason="unit left open"))]


def _which(asked: Question, finding: Finding) -> list[Choice]:
    out = [_leave(asked, "Leave it open")]
    said = [one for one in finding.measurements if one.unit != "count" and not one.other_units]
    if not said:
        return out
    for place, what in enumerate(measures_in(asked), 1):
        numbers = numbers_taking(finding.measurements, said[0], what)
        patches = [{"measurements": [one.model_dump() for one in numbers]}]
        wish = _wish("change", findings=[finding.id], patches=patches, question=asked.id)
        out.append(Choice(what.capitalize(), str(place), wish))
    return out


def _leaks(asked: Question) -> list[Choice]:
    out = [_leave(asked, "Leave it open")]
    for number, (name, meaning) in enumerate(MEANING.items(), 1):
        wish = _wish("answer", question=asked.id, reason=meaning)
        out.append(Choice(f"Class {name}: {meaning}", str(number), wish))
    return out


def _wish(action: str, **other: object) -> str:
    return json.dumps({"action": action} | other, ensure_ascii=False, sort_keys=True)
