"""The part that is meant, on any machine, and a count of one."""

from collections.abc import Callable

import pytest

from saycheck.understanding.attach.subjects import one_of
from saycheck.understanding.text import Mention

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]


@pytest.mark.parametrize(
    ("kind", "text", "expected"),
    [
        ("backhoe-loader", "Dipper cylinder is leaking.", [("dipper cylinder", "none", "writeup", "leak")]),
        ("crawler-excavator", "Left track is slack.", [("track", "left", "watch", "play")]),
        (  # a heading that is a place and a part; a part of it goes by its own name
            "counterbalance-forklift",
            "Horn works. Forks. Left heel is cracked.",
            [("horn", "none", "good", "works"), ("fork heel", "left", "writeup", "crack")],
        ),
        ("wheel-loader", "Lights. Left front is broken.", [("headlight", "left", "writeup", "broken")]),
        ("farm-tractor", "Nearside rear tyre has a cut.", [("rear tyre", "left", "writeup", "cut")]),
    ],
)
def test_other_machines(ruled: Rows, kind: str, text: str, expected: list[Row]) -> None:
    """The same grammar over another machine's parts."""
    assert expected == ruled(text, kind)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("one bolt", 0),
        ("one of the bolts", 0),
        ("and one bolt", 1),
        ("the one bolt", None),  # points at it
        ("left one bolt", None),
        ("this one bolt", None),
        ("two bolts", None),
    ],
)
def test_one_of(text: str, expected: int | None) -> None:
    """ "One" before a part counts it, unless it points at one."""
    words = text.split()
    found = one_of(words, Mention("part", len(words) - 1, len(words)))
    assert (None if expected is None else (1, expected)) == (found and (found[0], found[1].start))


def test_a_name_that_is_a_clause_is_what_is_spoken_of(ruled: Rows) -> None:
    """What is said next without a part is of the name that stood alone, however unsure it is."""
    assert ruled("Fan belt is tight. Rack, gauge. Cracked.")[-1][0] == "instrument panel"
