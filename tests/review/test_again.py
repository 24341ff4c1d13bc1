"""Hearing a walk again keeps every edit, shows what differs, and drops nothing."""

from pathlib import Path

import pytest

from saycheck.models.review import Edit
from saycheck.models.walk import Finding, Walk
from saycheck.models.wishes import Number, Patch, Wish
from saycheck.page.desk import Desk
from saycheck.standing import apply, standing

from .conftest import lay, part


def do(folder: Path, action: str, **other: object) -> Edit:
    """Ask for an edit as Ann."""
    return apply(folder, Wish.model_validate({"action": action, "who": "Ann"} | other))


def heard_again(folder: Path, walk: Walk, findings: list[Finding]) -> None:
    """Another hearing of the same sound: other ids, places a little off, these findings."""
    renamed = [one.model_copy(update={"id": f"g{number:03}"}) for number, one in enumerate(findings)]
    made_by = walk.made_by.model_copy(update={"ears": ["another"]})
    lay(folder, walk.model_copy(update={"findings": renamed, "made_by": made_by}))


def later(finding: Finding, seconds: float) -> Finding:
    """The finding with its words heard a little later."""
    evidence = [
        one.model_copy(update={"start_s": (one.start_s or 0) + seconds, "end_s": (one.end_s or 0) + seconds})
        for one in finding.evidence
    ]
    return finding.model_copy(update={"evidence": evidence})


def test_an_edit_meets_its_finding(spoken_folder: Path, spoken: Walk) -> None:
    """A change follows its finding to another id and place; nothing is left to say about it."""
    was = part(spoken, "front tyre")
    do(spoken_folder, "change", findings=[was.id], patches=[Patch(state="writeup", condition="cut")])
    heard_again(spoken_folder, spoken, [later(one, 0.3) for one in reversed(spoken.findings)])
    there = standing(spoken_folder)
    now = part(there.walk, "front tyre")
    assert ("writeup", "cut") == (now.state, now.condition)
    assert now.id.startswith("g")
    assert [] == there.differences
    assert len(spoken.findings) == len(there.walk.findings)


def test_what_is_heard_otherwise_is_shown(spoken_folder: Path, spoken: Walk) -> None:
    """The edit wins, both values can be read, and a person is asked to look."""
    was = part(spoken, "lift cylinder")
    do(spoken_folder, "change", findings=[was.id], patches=[Patch(measured=[Number(value=3, unit="mm")])])
    other = was.model_copy(update={"state": "watch", "condition": "scored"})
    heard_again(spoken_folder, spoken, [other if one is was else one for one in spoken.findings])
    there = standing(spoken_folder)
    (difference,) = there.differences
    now = part(there.walk, "lift cylinder")
    assert ("other", now.id) == (difference.kind, difference.finding)
    assert ("leak", "scored") == (
        difference.was and difference.was.condition,
        difference.now and difference.now.condition,
    )
    assert "leak" == now.condition
    assert now.id in there.open_findings
    (entry,) = [one for one in Desk(spoken_folder).sheet().sections[0].entries if one.finding == now.id]
    assert (
        "heard again as lift cylinder, watch, scored, before as lift cylinder, write up, leak; your edit stands"
        in [note.replace("left ", "") for note in entry.notes]
    )
    do(spoken_folder, "accept", findings=[now.id])
    assert [] == standing(spoken_folder).differences


def test_what_is_not_heard_any_more_stays(spoken_folder: Path, spoken: Walk) -> None:
    """A finding that a person edited is there although the other ear did not hear it; it can still be edited."""
    was = part(spoken, "lift cylinder")
    do(spoken_folder, "accept", findings=[was.id])
    heard_again(spoken_folder, spoken, [one for one in spoken.findings if one is not was])
    there = standing(spoken_folder)
    assert ["gone"] == [one.kind for one in there.differences]
    now = part(there.walk, "lift cylinder")
    assert was.evidence[0].start_s == now.evidence[0].start_s
    do(spoken_folder, "drop", findings=[now.id], reason="never said")
    after = standing(spoken_folder)
    assert now.id not in {one.id for one in after.walk.findings}
    assert [] == after.differences


def test_what_is_heard_for_the_first_time_is_shown(spoken_folder: Path, spoken: Walk) -> None:
    """A finding that nobody has seen is among those to decide."""
    missing, *others = spoken.findings
    heard_again(spoken_folder, spoken, others)
    do(spoken_folder, "accept", findings=["g001"])
    heard_again(spoken_folder, spoken, spoken.findings)
    there = standing(spoken_folder)
    new = [one for one in there.differences if one.kind == "new"]
    assert missing.part in [one.now.part for one in new if one.now]
    assert {one.finding for one in new} <= set(there.open_findings)


def test_trouble_that_is_not_heard_any_more_is_asked(spoken_folder: Path, spoken: Walk) -> None:
    """What nobody edited and the other ear did not hear is a question, which can be answered."""
    do(spoken_folder, "accept", findings=[part(spoken, "front tyre").id])
    heard_again(spoken_folder, spoken, [one for one in spoken.findings if one.part != "lift cylinder"])
    (asked,) = [one for one in standing(spoken_folder).open_questions if one.id.startswith("gone")]
    assert "lift cylinder: leak was heard before, and is not heard now. Which holds?" in asked.text
    assert "leaking" in spoken.transcript.text[asked.evidence[0].char_start : asked.evidence[0].char_end]
    do(spoken_folder, "answer", question=asked.id, reason="not said")
    assert [] == [one for one in standing(spoken_folder).open_questions if one.id.startswith("gone")]


def test_a_drop_stays_a_drop(spoken_folder: Path, spoken: Walk) -> None:
    """What a person took off does not come back by being heard again."""
    was = part(spoken, "lift cylinder")
    do(spoken_folder, "drop", findings=[was.id], reason="another machine")
    heard_again(spoken_folder, spoken, [later(one, -0.4) for one in spoken.findings])
    there = standing(spoken_folder)
    assert "lift cylinder" not in [one.part for one in there.walk.findings]
    assert ["lift cylinder"] == [one.part for one in there.dropped]


@pytest.mark.parametrize("times", [1, 3])
def test_edits_on_several_hearings_add_up(spoken_folder: Path, spoken: Walk, times: int) -> None:
    """Each hearing brings other ids; undo goes back through all of them."""
    for number in range(times):
        now = part(standing(spoken_folder).walk, "lift cylinder")
        patch = Patch(measured=[Number(value=number + 1, unit="mm")])
        do(spoken_folder, "change", findings=[now.id], patches=[patch])
        heard_again(spoken_folder, spoken, spoken.findings[:: 1 if number % 2 else -1])
    assert times == len(part(standing(spoken_folder).walk, "lift cylinder").measurements)
    for _ in range(times):
        do(spoken_folder, "undo")
    assert [] == part(standing(spoken_folder).walk, "lift cylinder").measurements
