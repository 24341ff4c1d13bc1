"""All questions of a walk: which there are, and their order."""

import pytest

from saycheck.coverage.checklist import checklist
from saycheck.coverage.questions import ORDER, questions
from saycheck.models.hearing import Passage
from saycheck.models.walk import Machine, Span, Transcript
from saycheck.vocabulary.compiled import Vocabulary

from .conftest import Say, Walked


def test_order(toy: Vocabulary, say: Say, walked: Walked) -> None:
    """The whole walk first, then zone by zone, in each what is in doubt before what was skipped."""
    found = [
        say("horn", "later"),
        say("cutting edge", "watch", condition="worn"),
        say("mirrors", "writeup"),
        say("bucket"),
        say("bucket", "writeup", condition="crack"),
    ]
    walk = walked(found, machine=Machine(kind=toy.kind))
    asked = [(q.about.zone, q.kind) for q in questions(toy, walk) if q.kind != "skipped"]

    assert [
        ("", "unit"),
        ("front", "conflict"),
        ("front", "measure"),
        ("cab", "unclear"),
        ("cab", "later"),
        ("cab", "hours"),
    ] == asked


def test_skipped_come_last_in_their_zone(toy: Vocabulary, say: Say, walked: Walked) -> None:
    """One walks up to a place once."""
    asked = questions(toy, walked([say("horn", "later")]))
    zones = [q.about.zone for q in asked]

    assert zones == sorted(zones, key=[zone.name for zone in toy.zones].index)
    assert "skipped" == [q for q in asked if q.about.zone == "cab"][-1].kind


def test_ids_are_distinct(toy: Vocabulary, say: Say, walked: Walked) -> None:
    """No two questions have the same id, and asking again gives the same ids."""
    found = [say("mirrors", "writeup"), say("lift cylinder", "hidden", side="left"), say("bucket", "later")]
    text = "mumble. Bucket. mumble"
    spans = [(0, 8, "unclear"), (8, 16, "finding"), (16, 22, "unclear")]
    transcript = Transcript(
        text=text,
        words=[],
        spans=[Span.model_validate({"char_start": a, "char_end": b, "disposition": d}) for a, b, d in spans],
    )
    walk = walked(found, transcript=transcript)
    ids = [q.id for q in questions(toy, walk)]

    assert len(ids) == len(set(ids))
    assert ids == [q.id for q in questions(toy, walk)]


def test_complete_walk(toy: Vocabulary, say: Say, walked: Walked) -> None:
    """A walk on which all was looked at and nothing is in doubt leaves no question."""
    found = [say(part.name, side="both" if part.sided else "none") for part in toy.parts if not part.option]

    assert [] == questions(toy, walked(found))


def test_checklist_of_the_walk_is_used(toy: Vocabulary, say: Say, walked: Walked) -> None:
    """The checklist in the walk decides, so that a reviewer's edits count."""
    lines = checklist(toy, [say(part.name, side="both") for part in toy.parts])

    assert [] == questions(toy, walked(checklist=lines))


@pytest.mark.parametrize(
    ("passages", "texts"),
    [
        ([], []),
        ([Passage(start_s=0, end_s=10, kind="speech")], []),
        (
            [
                Passage(start_s=0, end_s=4, kind="speech"),
                Passage(start_s=4, end_s=10, kind="speech", trouble="wind"),
            ],
            ["Most of the recording cannot be trusted (wind). Record again, microphone closer, engine off?"],
        ),
        (
            [
                Passage(start_s=0, end_s=7, kind="speech"),
                Passage(start_s=7, end_s=10, kind="speech", trouble="wind"),
                Passage(start_s=10, end_s=90, kind="silence"),  # silence is no trouble
            ],
            [],
        ),
    ],
)
def test_sound(toy: Vocabulary, walked: Walked, passages: list[Passage], texts: list[str]) -> None:
    """A recording that is mostly unusable is said to be so, with what would help."""
    asked = [q.text for q in questions(toy, walked(sound=passages)) if q.kind == "sound"]

    assert texts == asked


def test_order_knows_all_kinds() -> None:
    """Every kind that a question may have has its place."""
    assert {
        "skipped", "unclear", "measure", "conflict", "hours", "unit", "hidden", "later", "sound", "again"
    } == set(ORDER)  # fmt: skip
