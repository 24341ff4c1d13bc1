"""The things of a sentence that matter, in order: longest first, words that point back among them."""

from collections.abc import Callable

import pytest

from saycheck.understanding.events import Pointer, events, overlap_free
from saycheck.understanding.text import Mention, Reading

Read = Callable[..., Reading]


def of(reading: Reading) -> list[tuple[str, str]]:
    """The events of the first sentence as (kind, words)."""
    happens = events(reading, *reading.sentences[0])
    return [(m.kind, reading.quote(m.start, m.end)) for m in happens]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Left front tyre is cut.",
            [("part", "Left front tyre"), ("condition", "cut")],
        ),
        (
            "Left front tyre forty eight psi and cut.",
            [("part", "Left front tyre"), ("quantity", "forty eight psi"), ("condition", "cut")],
        ),
        (
            "Front tyres 1.6 bar left, and 1.2 right.",  # each side before its number
            [
                ("part", "Front tyres"),
                ("pointer", "left"),
                ("quantity", "1.6 bar"),
                ("pointer", "right"),
                ("quantity", "1.2"),
            ],
        ),
        (
            "The left one is cut.",
            [("pointer", "left one"), ("condition", "cut")],
        ),
        (
            "Left headlight works, right one is out.",
            [
                ("part", "Left headlight"),
                ("condition", "works"),
                ("pointer", "right one"),
                ("condition", "out"),
            ],
        ),
        (
            "Bucket worn, nine mil on the gauge.",  # what it was measured with is no part
            [("part", "Bucket"), ("condition", "worn"), ("quantity", "nine mil")],
        ),
        (
            "Pin worn, feeler goes in 0.8 mm.",
            [("part", "Pin"), ("condition", "worn"), ("quantity", "0.8 mm")],
        ),
        ("Step is bent, before someone slips.", [("part", "Step"), ("condition", "bent")]),
        ("Fan belt doesn't squeal.", [("part", "Fan belt"), ("condition", "squeal")]),  # only a denial
        ("Bucket, there isn't a dent.", [("part", "Bucket"), ("condition", "dent")]),
        ("Beacon, there isn't one.", [("part", "Beacon"), ("condition", "there isn't one")]),
        ("Front, cut.", [("pointer", "Front"), ("condition", "cut")]),
        ("Front's cut.", [("pointer", "Front"), ("condition", "cut")]),
        (  # "on the left" behind a number, where another has its side too
            "Batteries 12.6 on the left, 12.1 on the right.",
            [
                ("part", "Batteries"),
                ("pointer", "on the left"),
                ("quantity", "12.6"),
                ("pointer", "on the right"),
                ("quantity", "12.1"),
            ],
        ),
        (  # what tells how much it should be
            "Left front tyre forty psi, the plate says fifty.",
            [("part", "Left front tyre"), ("quantity", "forty psi")],
        ),
        (  # where it was measured
            "Fan belt, ten mil at the alternator.",
            [("part", "Fan belt"), ("quantity", "ten mil")],
        ),
        ("Kink behind the left front.", [("condition", "Kink")]),  # no tyre
        (  # the wheel is only moved to try the hub
            "Front hub, I rocked the wheel, loose.",
            [("part", "Front hub"), ("condition", "loose")],
        ),
        ("I rocked the wheel, loose.", [("part", "wheel"), ("condition", "loose")]),
        (
            "Can't see the other for the guard.",
            [("hidden", "Can't see"), ("pointer", "other"), ("part", "guard")],
        ),
        ("Both are good.", [("pointer", "Both"), ("condition", "good")]),
        ("The other one is good.", [("pointer", "other one"), ("condition", "good")]),
        ("Ditto on the right.", [("same", "Ditto")]),  # a side behind "on the" points at no part
        ("Bucket is good.", [("part", "Bucket"), ("condition", "good")]),
        ("Morning all.", []),
    ],
)
def test_events(read: Read, text: str, expected: list[tuple[str, str]]) -> None:
    """A sentence comes apart into parts, conditions, quantities, marks and pointers."""
    assert expected == of(read(text))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("The left one is cut.", Pointer("left", ())),
        ("Nearside one is cut.", Pointer("left", ())),
        ("The right front one is cut.", Pointer("right", ("front",))),
        ("The other one is cut.", Pointer(None, (), other=True)),
        ("Both are cut.", Pointer("both", ())),
        ("The back one is cut.", Pointer(None, ("rear",))),
        ("The rears are cut.", Pointer("both", ("rear",), bare=True)),
        ("Bucket is good, lower I can't see.", Pointer(None, ("lower",), bare=True)),
        ("Bucket is good bottom's cut.", Pointer(None, ("bottom",), bare=True)),
    ],
)
def test_pointers(read: Read, text: str, expected: Pointer) -> None:
    """A pointer knows its side, the end of the machine, and whether it means the other one."""
    reading = read(text)
    assert [expected] == [m.value for m in events(reading, *reading.sentences[0]) if m.kind == "pointer"]


@pytest.mark.parametrize(
    ("mentions", "expected"),
    [
        ([("part", 0, 2), ("part", 1, 2)], [("part", 0, 2)]),  # the longer stays
        ([("condition", 0, 2), ("part", 0, 2)], [("part", 0, 2)]),  # a part before a condition
        ([("quantity", 0, 1), ("condition", 0, 1)], [("condition", 0, 1)]),
        ([("part", 2, 3), ("part", 0, 1)], [("part", 0, 1), ("part", 2, 3)]),  # in order
        ([("later", 0, 3), ("condition", 2, 3)], [("later", 0, 3)]),
        ([], []),
    ],
)
def test_overlap_free(mentions: list[tuple[str, int, int]], expected: list[tuple[str, int, int]]) -> None:
    """Of what overlaps the longest stays, and among equals parts before conditions before the rest."""

    class Worded:
        form = "adjective"

    given = [Mention(kind, a, b, Worded()) for kind, a, b in mentions]
    assert expected == [(m.kind, m.start, m.end) for m in overlap_free(given)]


def test_only_the_sentence_asked_for(read: Read) -> None:
    """Events of other sentences stay out."""
    reading = read("Bucket is good. Fan belt is slack.")
    first, second = reading.sentences
    assert [2, 2] == [len(events(reading, *first)), len(events(reading, *second))]
