"""Questions about contradictions, untold sides and passages not understood."""

from collections.abc import Sequence

import pytest

from saycheck.coverage.doubts import conflicts, unclear, untold_sides
from saycheck.models.walk import Disposition, Finding, Question, Span, Transcript, Word
from saycheck.vocabulary.compiled import Vocabulary

from .conftest import Say


def said_twice(
    toy: Vocabulary, say: Say, one: tuple[str, str], other: tuple[str, str], **more: object
) -> Sequence[Question]:
    """The conflicts between two findings on the tilt cylinder, each state and condition."""
    found: list[Finding] = [
        say("tilt cylinder", one[0], condition=one[1]),
        say("tilt cylinder", other[0], condition=other[1], **more),
    ]
    return list(conflicts(toy, found, ""))


@pytest.mark.parametrize(
    ("one", "other", "asked"),
    [
        (("good", "good"), ("writeup", "leak"), True),
        (("writeup", "leak"), ("good", "good"), True),  # whichever came first
        (("good", "dry"), ("watch", "leak"), True),
        (("good", "dry"), ("writeup", "scored"), False),  # both can be true
        (("good", "good"), ("watch", "leak"), False),  # will do for now
        (("good", "measured"), ("writeup", "leak"), False),
        (("good", "good"), ("good", "dry"), False),
        (("watch", "leak"), ("writeup", "leak"), False),  # the worse one counts
        (("good", "good"), ("hidden", "hidden"), False),
    ],
)
def test_conflicts(
    toy: Vocabulary, say: Say, one: tuple[str, str], other: tuple[str, str], asked: bool
) -> None:
    """Fine and faulty of the same thing is asked about."""
    assert asked == bool(said_twice(toy, say, one, other))


@pytest.mark.parametrize(
    ("more", "asked"),
    [
        ({}, True),
        ({"side": "left"}, False),
        ({"part": "tilt cylinder rod", "line": "tilt cylinder"}, False),
        ({"heard_as": "bottom tilt cylinder"}, False),  # picks one of several
        ({"evidence": [{"char_start": 15, "char_end": 25}]}, False),  # in the same breath
    ],
)
def test_conflicts_of_other_things(toy: Vocabulary, say: Say, more: dict[str, object], asked: bool) -> None:
    """Two parts, two sides, two of several or one sentence are no contradiction."""
    part = more.pop("part", "tilt cylinder")
    found = [say("tilt cylinder"), say(part, "writeup", condition="leak", **more)]

    assert asked == bool(list(conflicts(toy, found, "")))


@pytest.mark.parametrize(("denied", "asked"), [((True, False), True), ((True, True), False)])
def test_denied_and_told(toy: Vocabulary, say: Say, denied: tuple[bool, bool], asked: bool) -> None:
    """ "No leaks" here and "leaking" there is asked about."""
    found = [
        say("tilt cylinder", "good", condition="leak", denied=denied[0]),
        say("tilt cylinder", "writeup", condition="leak", denied=denied[1]),
    ]

    assert asked == bool(list(conflicts(toy, found, "")))


def test_conflict_is_quoted(toy: Vocabulary, say: Say) -> None:
    """The question quotes both in the order of speech, and keeps the evidence of both."""
    text = "tilt ram good as new, no, it is leaking"
    found = [
        say("tilt cylinder", evidence=[{"char_start": 0, "char_end": 20}]),
        say("tilt cylinder", "writeup", condition="leak", evidence=[{"char_start": 26, "char_end": 39}]),
    ]
    (asked,) = conflicts(toy, found, text)

    assert "Tilt cylinder: “tilt ram good as new”, then “it is leaking”. Which holds?" == asked.text
    assert [0, 26] == [evidence.char_start for evidence in asked.evidence]
    assert ("conflict", "conflict-front-none-tilt-cylinder") == (asked.kind, asked.id)


@pytest.mark.parametrize(
    ("part", "more", "text"),
    [
        ("lift cylinder", {}, "Lift cylinder: “lift cylinder”. Left or right?"),
        ("mirrors", {}, "Mirrors: “mirrors”. Left, right or both?"),
        ("lift cylinder", {"side": "left"}, None),
        ("tilt cylinder", {}, None),  # there is only one
        ("lift cylinder", {"state": "good"}, None),  # speaks of both
    ],
)
def test_untold_sides(toy: Vocabulary, say: Say, part: str, more: dict[str, str], text: str | None) -> None:
    """A fault on one of two must tell which one."""
    found = say(**{"part": part, "state": "writeup", **more})

    assert ([text] if text else []) == [q.text for q in untold_sides(toy, [found], "")]


def transcript(*pieces: tuple[str, Disposition]) -> Transcript:
    """A transcript of pieces, one second a word."""
    text, spans, words = "", [], []
    for piece, disposition in pieces:
        spans.append(Span(char_start=len(text), char_end=len(text) + len(piece), disposition=disposition))
        text += piece
    at = 0
    for number, word in enumerate(text.split()):
        at = text.index(word, at)
        words.append(
            Word(text=word, char_start=at, char_end=at + len(word), start_s=number, end_s=number + 1)
        )
        at += len(word)
    return Transcript(text=text, words=words, spans=spans)


@pytest.mark.parametrize(
    ("pieces", "texts"),
    [
        ([("Bucket good. ", "finding")], []),
        ([("Bucket good. ", "finding"), ("the wossname gone ", "unclear")],
         ["Not understood at 0:02: “the wossname gone”. What was it?"]),
        ([("Bucket good ", "finding"), (", starting there,", "unclear")],
         ["Not understood at 0:02: “starting there”. What was it?"]),  # without loose ends
        ([("one two. ", "unclear"), ("three", "unclear")],
         ["Not understood at 0:00: “one two. three”. What was it?"]),  # neighbours together
        ([("one ", "unclear"), ("Bucket good. ", "finding"), ("two", "unclear")],
         ["Not understood at 0:00: “one”. What was it?", "Not understood at 0:03: “two”. What was it?"]),
        ([("Bucket good", "finding"), (" ... ", "unclear")], []),  # nothing was said there
    ],
)  # fmt: skip
def test_unclear(toy: Vocabulary, say: Say, pieces: list[tuple[str, Disposition]], texts: list[str]) -> None:
    """Each passage that was not understood is quoted with its time."""
    assert texts == [q.text for q in unclear(toy, transcript(*pieces), [say("bucket")])]


def test_unclear_place(toy: Vocabulary, say: Say) -> None:
    """A passage belongs where the walker last was, and is evidence with its times."""
    heard = transcript(("engine good ", "finding"), ("the wossname ", "unclear"))
    before = say("engine", evidence=[{"char_start": 0, "char_end": 11}])
    (asked,) = unclear(toy, heard, [before])
    evidence = asked.evidence[0]

    assert "engine bay" == asked.about.zone
    assert (12, 24, 2.0, 4.0) == (evidence.char_start, evidence.char_end, evidence.start_s, evidence.end_s)


def test_unclear_text_without_sound(toy: Vocabulary) -> None:
    """A text has no times."""
    heard = Transcript(text="mumble", words=[], spans=[Span(char_start=0, char_end=6, disposition="unclear")])

    assert ["Not understood: “mumble”. What was it?"] == [q.text for q in unclear(toy, heard, [])]
