"""Each action does what a person asks for, keeps what was before, and refuses what makes no sense."""

from pathlib import Path
from typing import Any

import pytest

from saycheck.errors import ReviewError
from saycheck.models.review import Edit
from saycheck.models.walk import Span, Walk
from saycheck.models.wishes import Number, Patch, Wish
from saycheck.standing import apply, standing

from .conftest import TEXT, lay, part


def do(folder: Path, action: Any, **other: Any) -> Edit:
    """Ask for an edit as Ann."""
    return apply(folder, Wish(action=action, who="Ann", **other))


def test_accept(tmp_path: Path, heard: Walk) -> None:
    """An accepted finding needs no look any more and is otherwise as heard."""
    was, *others = heard.findings
    was = was.model_copy(update={"needs_review": True, "review_reasons": ["not sure of the state"]})
    folder = lay(tmp_path / "walk", heard.model_copy(update={"findings": [was, *others]}))
    do(folder, "accept", findings=[was.id])
    (now,) = [one for one in standing(folder).walk.findings if one.id == was.id]
    assert was.model_copy(update={"needs_review": False, "review_reasons": []}) == now


def test_change_keeps_before_and_after(folder: Path, heard: Walk) -> None:
    """The edit holds both; side, zone and number follow what was typed."""
    was = part(heard, "lift cylinder")
    patch = Patch(side="right", condition="scored", state="watch", measurements=[Number(value=2, unit="in")])
    made = do(folder, "change", findings=[was.id], patches=[patch])
    (now,) = made.after
    assert [was] == made.before
    assert ("right", "right side", "scored", "watch") == (now.side, now.zone, now.condition, now.state)
    (said,) = now.measurements
    assert (2, "in", "m") == (said.value, said.unit, said.unit_si)
    assert 0.0508 == pytest.approx(said.value_si)  # 1 in = 25.4 mm exactly (NIST SP 811, appendix B)


@pytest.mark.parametrize(
    ("number", "unit", "others"),
    [
        (Number(value=20, unit="mm", plus_minus=2, unit_told=True), "mm", []),  # settled
        (Number(value=20, unit="thou", plus_minus=2, unit_told=True), "thou", []),
        (Number(value=20, unit="mm", plus_minus=2), "mm", ["thou"]),  # only sent along: still open
    ],
)
def test_a_unit_left_open_is_settled(
    folder: Path, heard: Walk, number: Number, unit: str, others: list[str]
) -> None:
    """ "Mil" stays open until a person says which it is; the words said stay as they are."""
    was = part(heard, "cutting edge")
    assert ["thou"] == was.measurements[0].other_units
    made = do(folder, "change", findings=[was.id], patches=[Patch(measurements=[number], side="left")])
    (said,) = made.after[0].measurements
    assert (unit, others, was.measurements[0].text) == (said.unit, said.other_units, said.text)


def test_a_saying_names_the_part(folder: Path, heard: Walk) -> None:
    """A part may be named as the trade does."""
    was = part(heard, "lift cylinder")
    do(folder, "change", findings=[was.id], patches=[Patch(part="tilt ram")])
    assert "tilt cylinder" == part(standing(folder).walk, "tilt cylinder").line


def test_split_and_merge(folder: Path, heard: Walk) -> None:
    """One finding becomes two on the same words; merged again they are one."""
    was = part(heard, "bucket")
    made = do(
        folder, "split", findings=[was.id], patches=[Patch(), Patch(part="cutting edge", condition="worn")]
    )
    first, second = made.after
    assert was.id == first.id != second.id
    assert was.evidence == first.evidence == second.evidence
    assert len(heard.findings) + 1 == len(standing(folder).walk.findings)
    do(folder, "merge", findings=[first.id, second.id])
    assert len(heard.findings) == len(standing(folder).walk.findings)


def test_add_from_words(folder: Path) -> None:
    """Words taken for talk become a finding that stands on them."""
    start = TEXT.index("cracks there")
    patch = Patch(part="bucket", state="writeup", condition="crack")
    (made,) = do(folder, "add", start=start + 2, end=start + 9, patches=[patch]).after
    (place,) = made.evidence
    assert "cracks there." == TEXT[place.char_start : place.char_end]
    spans = standing(folder).walk.transcript.spans
    assert [made.id] == next(s for s in spans if s.char_start <= start < s.char_end).finding_ids


def test_settle_as_talk(folder: Path) -> None:
    """An unclear passage that is settled as talk is asked about no more."""
    before = standing(folder)
    (asked,) = [one for one in before.open_questions if one.id.startswith("unclear")]
    (place,) = asked.evidence
    do(folder, "settle", start=place.char_start, end=place.char_end)
    after = standing(folder)
    assert asked.id not in {one.id for one in after.open_questions}
    assert before.reviewed_share < after.reviewed_share


def test_no_blank_stays_unclear(tmp_path: Path, heard: Walk) -> None:
    """The blank behind the words that a question was about is settled with them."""
    end = TEXT.index("Seat belt")
    passage = Span(char_start=0, char_end=end, disposition="unclear")
    rest = Span(char_start=end, char_end=len(TEXT), disposition="talk")
    spans = heard.transcript.model_copy(update={"spans": [passage, rest]})
    folder = lay(tmp_path / "walk", heard.model_copy(update={"transcript": spans}))
    do(folder, "settle", start=0, end=end - 1)
    assert {"talk"} == {one.disposition for one in standing(folder).walk.transcript.spans}


def test_answer_and_machine(folder: Path) -> None:
    """A question that is answered is open no more; the unit's name and hours can be put right."""
    asked = standing(folder).open_questions[0]
    do(folder, "answer", question=asked.id, reason="left as it is")
    do(folder, "machine", unit="Number Eight", hours=5000)
    there = standing(folder)
    assert asked.id not in {one.id for one in there.open_questions}
    assert ("Number Eight", 5000) == (there.walk.machine.unit, there.walk.machine.hours)
    assert "Number Seven" == there.heard.machine.unit


REFUSED = [
    ({"action": "accept", "findings": ["nobody"]},
     "there is no finding 'nobody' on this walk any more; load the page again"),
    ({"action": "accept"}, "accept was asked for with 0 findings; choose again"),
    ({"action": "merge", "findings": ["f001"]}, "merge was asked for with 1 findings; choose again"),
    ({"action": "split", "findings": ["f001"]}, "split was asked for with 0 changes; try again"),
    ({"action": "change", "findings": ["f001"], "patches": [{"measurements": [{"value": 1, "unit": "blub"}]}]},
     "there is no unit 'blub'; write it as mm, in, bar, psi, L or °C"),
    ({"action": "add", "patches": [{"part": "bucket"}]}, "a finding needs a part and a state; fill in both"),
    ({"action": "add", "start": 5000, "end": 5001, "patches": [{"part": "bucket", "state": "good"}]},
     "there are no words at that place; select some and try again"),
    ({"action": "settle"}, "there are no words at that place; select some and try again"),
    ({"action": "answer"}, "no question was named; choose one and answer again"),
    ({"action": "answer", "question": "why"}, "the question 'why' is not open any more; load the page again"),
    ({"action": "machine"}, "neither a name nor a reading was given for the unit; type one of them"),
    ({"action": "undo"}, "there is nothing to undo"),
    ({"action": "redo"}, "there is nothing to redo"),
]  # fmt: skip


@pytest.mark.parametrize(("given", "sentence"), REFUSED)
def test_what_makes_no_sense_changes_nothing(folder: Path, given: dict[str, Any], sentence: str) -> None:
    """It is refused in a sentence, and no edit is written."""
    with pytest.raises(ReviewError) as caught:
        apply(folder, Wish.model_validate({"who": "Ann"} | given))
    assert sentence == str(caught.value)
    assert [] == standing(folder).edits
