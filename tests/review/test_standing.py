"""The walk as it stands follows from what was heard and the edits, and undoing is without limit."""

from itertools import pairwise
from pathlib import Path

from saycheck.models.review import Edit
from saycheck.models.walk import Walk
from saycheck.review.edits import append
from saycheck.standing import standing

from .conftest import Make, part


def add(folder: Path, *edits: Edit) -> None:
    """Append edits as they are."""
    append(folder, lambda _: edits)


def test_without_edits_it_is_as_heard(folder: Path, heard: Walk) -> None:
    """Nothing is changed where nobody changed anything."""
    there = standing(folder)
    assert heard == there.walk
    assert heard == there.heard
    assert ([], [], None, None) == (there.edits, there.by, there.undo, there.redo)
    assert there.reviewed_share < 1


def test_a_change_shows_everywhere(folder: Path, heard: Walk, edit: Make) -> None:
    """The finding, its checklist line and the words all say what the reviewer said."""
    was = part(heard, "front tyre")
    now = was.model_copy(update={"state": "writeup", "condition": "cut", "needs_review": False})
    add(folder, edit("change", [was], [now]))
    there = standing(folder)
    assert now == part(there.walk, "front tyre")
    assert was == part(there.heard, "front tyre")
    (line,) = [one for one in there.walk.checklist if was.id in one.finding_ids]
    assert "writeup" == line.state
    assert ["Ann"] == there.by
    assert "change" == there.settled[was.id].action


def test_a_dropped_finding_turns_into_talk(folder: Path, heard: Walk, edit: Make) -> None:
    """It is off the list, and its words tell who took it off and why."""
    was = part(heard, "front tyre")
    add(folder, edit("drop", [was], reason="another machine"))
    there = standing(folder)
    assert was.id not in {one.id for one in there.walk.findings}
    (line,) = [
        one for one in there.walk.checklist if (one.part, one.side) == ("front tyre", "left")
    ]  # it was spoken of only once
    assert "unsaid" == line.state
    at = was.evidence[0].char_start
    (span,) = [one for one in there.walk.transcript.spans if one.char_start <= at < one.char_end]
    assert ("talk", "front tyre: dropped by Ann: another machine") == (span.disposition, span.why)


def test_spans_cover_the_text_after_edits(folder: Path, heard: Walk, edit: Make) -> None:
    """Every character still belongs to exactly one span."""
    add(folder, *(edit("drop", [one]) for one in heard.findings[:2]))
    there = standing(folder)
    spans = there.walk.transcript.spans
    assert 0 == spans[0].char_start
    assert len(heard.transcript.text) == spans[-1].char_end
    assert all(a.char_end == b.char_start for a, b in pairwise(spans))


def test_undo_and_redo_without_limit(folder: Path, heard: Walk, edit: Make) -> None:
    """Every edit can be undone down to what was heard, and redone up to where it was."""
    edits = [edit("drop", [one]) for one in heard.findings]
    add(folder, *edits)
    empty = standing(folder)
    assert [] == empty.walk.findings
    for _ in edits:
        add(folder, edit("undo", refers=standing(folder).undo))
    back = standing(folder)
    assert heard.findings == back.walk.findings
    assert back.undo is None
    for _ in edits:
        add(folder, edit("redo", refers=standing(folder).redo))
    again = standing(folder)
    assert [] == again.walk.findings
    assert again.redo is None
    assert 3 * len(edits) == len(again.edits)


def test_something_new_leaves_nothing_to_redo(folder: Path, heard: Walk, edit: Make) -> None:
    """After an undo and a new edit there is nothing to redo; the log still has it."""
    one, other = heard.findings[:2]
    first = edit("drop", [one])
    add(folder, first, edit("undo", refers=first.id), edit("drop", [other]))
    there = standing(folder)
    assert there.redo is None
    assert first in there.edits
    assert one in there.walk.findings
