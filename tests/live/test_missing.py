"""What is open, said shortly."""

import pytest

from saycheck.coverage.checklist import checklist
from saycheck.live.missing import AT_ONCE, in_three_words, open_parts, told
from saycheck.models.walk import About, Question
from saycheck.understanding.pipeline import understand
from saycheck.vocabulary.compiled import Vocabulary


@pytest.mark.parametrize(
    ("first", "said"),
    [
        (0, "Front: bucket, bucket pins. Cab: seat belt, horn. 2 more."),
        (4, "Lights: beacon. Rear: hitch. That is all."),
        (6, "That was all."),
    ],
)
def test_no_more_at_a_time_than_can_be_kept_in_mind(first: int, said: str) -> None:
    """Four at a time, by zone, and how many are left."""
    parts = [
        ("front", "bucket"), ("front", "bucket pins"), ("cab", "seat belt"), ("cab", "horn"),
        ("lights", "beacon"), ("rear", "hitch"),
    ]  # fmt: skip
    assert said == told(parts, first)


def test_nothing_open() -> None:
    """That is said too."""
    assert "Nothing is open." == told([])


def test_what_can_hurt_comes_first_each_kind_in_walking_order(loader: Vocabulary) -> None:
    """No harmless part stands before a dangerous one, and zones follow one another as one walks."""
    from saycheck.coverage.skipped import danger_of

    found = open_parts(loader, checklist(loader, []))
    bare = [
        name.removeprefix("left and right ").removeprefix("left ").removeprefix("right ") for _, name in found
    ]
    ranks = [danger_of(loader, loader.part(name))[0] for name in bare]
    assert ranks == sorted(ranks)
    zones = [zone.name for zone in loader.zones]
    for rank in (0, 1):
        places = [zones.index(zone) for (zone, _), one in zip(found, ranks, strict=True) if one == rank]
        assert places == sorted(places)
    assert len(found) > AT_ONCE


def test_what_was_spoken_of_is_not_open(loader: Vocabulary) -> None:
    """A part that was found bad is closed, one that could not be seen is open."""
    found = understand("Seat belt is torn. Could not see the horn.", "wheel-loader").findings
    cab = [name for _, name in open_parts(loader, checklist(loader, found), "cab")]
    assert "seat belt" not in cab
    assert "horn" in cab


@pytest.mark.parametrize(
    ("text", "part", "said"),
    [
        ("How thick is the cutting edge?", "cutting edge", "cutting edge thickness?"),
        ("How deep is the tread on the left front tyre?", "front tyre", "tyre tread depth?"),
        ("How much play in the bucket pins?", "bucket pins", "bucket pins play?"),
        ("What depth is left on the bucket cutting edge?", "bucket cutting edge", "cutting edge depth?"),
        ("Cutting edge “ten mil”: mm or thou?", "cutting edge", None),
    ],
)
def test_a_measure_is_asked_for_in_three_words(text: str, part: str, said: str | None) -> None:
    """The part by its last words, and what to measure."""
    question = Question(id="q", about=About(zone="front", part=part), kind="measure", text=text)
    assert said == in_three_words(question)
    assert said is None or len(said.split()) <= 3


def test_every_measure_of_the_vocabulary_can_be_asked_for(loader: Vocabulary) -> None:
    """All questions for a worn part that coverage can put have their three words."""
    from saycheck.coverage.numbers import how_much

    attributes = {measure.attribute for part in loader.parts for measure in part.measures}
    for attribute in sorted(attributes):
        text = how_much(attribute, "cutting edge")
        question = Question(id="q", about=About(zone="front", part="cutting edge"), kind="measure", text=text)
        assert in_three_words(question), text
