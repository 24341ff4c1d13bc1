"""A trouble is followed from walk to walk until something said ends it; silence never does."""

import pytest

from saycheck.history.compare import compared
from saycheck.history.sense import sense_of
from saycheck.history.troubles import follow

from .conftest import Row, walked

LEAK: Row = ("lift cylinder", "left", "watch", "leak")
CASES: list[tuple[str, list[list[Row]], list[str]]] = [
    ("the same again", [[LEAK], [LEAK]], ["same"]),
    ("worse", [[LEAK], [("lift cylinder", "left", "writeup", "leak")]], ["worse"]),
    ("better", [[("lift cylinder", "left", "writeup", "leak")], [LEAK]], ["better"]),
    ("new", [[], [LEAK]], ["new"]),
    ("denied", [[LEAK], [("lift cylinder", "left", "good", "no leak")]], ["gone"]),
    ("dry answers a leak", [[LEAK], [("lift cylinder", "left", "good", "dry")]], ["gone"]),
    ("good answers anything", [[LEAK], [("lift cylinder", "left", "good", "good")]], ["gone"]),
    (
        "tight does not answer a leak",
        [[LEAK], [("lift cylinder", "left", "good", "tight")]],
        ["not looked at"],
    ),
    (
        "a reading does not answer",
        [[LEAK], [("lift cylinder", "left", "good", "measured")]],
        ["not looked at"],
    ),
    ("silence does not answer", [[LEAK], []], ["not looked at"]),
    ("nor does the other side", [[LEAK], [("lift cylinder", "right", "good", "dry")]], ["not looked at"]),
    ("nor does another part", [[LEAK], [("bucket", "none", "good", "good")]], ["not looked at"]),
    ("hidden does not answer", [[LEAK], [("lift cylinder", "left", "hidden", "hidden")]], ["not looked at"]),
    (
        "another trouble of the part is another trouble",
        [[LEAK], [("lift cylinder", "left", "writeup", "bent")]],
        ["new", "not looked at"],
    ),
    (
        "good but bent says nothing of the leak",
        [[LEAK], [("lift cylinder", "left", "good", "good"), ("lift cylinder", "left", "watch", "bent")]],
        ["new", "not looked at"],
    ),
    (
        "worn out is worn, grown worse",
        [[("bucket", "none", "watch", "worn")], [("bucket", "none", "writeup", "worn out")]],
        ["worse"],
    ),
    ("it comes back", [[LEAK], [("lift cylinder", "left", "good", "dry")], [LEAK]], ["back"]),
    (
        "a side untold is not ended by one side",
        [[("lift cylinder", "none", "watch", "leak")], [("lift cylinder", "left", "good", "dry")]],
        ["not looked at"],
    ),
    (
        "but by both",
        [
            [("lift cylinder", "none", "watch", "leak")],
            [("lift cylinder", "left", "good", "dry"), ("lift cylinder", "right", "good", "dry")],
        ],
        ["gone"],
    ),
    ("what ended before is not told again", [[LEAK], [("lift cylinder", "left", "good", "dry")], []], []),
    (
        "a trouble outlasts a walk that was silent",
        [[LEAK], [], [("lift cylinder", "left", "writeup", "leak")]],
        ["worse"],
    ),
]


@pytest.mark.parametrize(("remark", "rows", "changes"), CASES, ids=[case[0] for case in CASES])
def test_what_changed(remark: str, rows: list[list[Row]], changes: list[str]) -> None:
    """The last walk against those before, by what was said of the same part and side."""
    walks = [walked(f"2025-03-{day:02}", *said) for day, said in enumerate(rows, 1)]
    troubles = follow(walks, sense_of("wheel-loader"))
    assert changes == [one.change for one in compared(troubles, len(walks) - 1)]


def test_a_side_untold_becomes_the_side_told() -> None:
    """A leak on "the lift cylinder" that is the left one next time stays one trouble, open since the first."""
    untold: Row = ("lift cylinder", "none", "watch", "leak")
    walks = [walked("2025-03-01", untold), walked("2025-03-02", LEAK)]
    (trouble,) = follow(walks, sense_of("wheel-loader"))
    assert ("left", 0, 1) == (trouble.said.side, trouble.opened, trouble.seen)


def test_spells_are_counted() -> None:
    """Each return after an end is a spell of its own."""
    dry: Row = ("lift cylinder", "left", "good", "dry")
    walks = [walked(f"2025-03-{day:02}", row) for day, row in enumerate([LEAK, dry, LEAK, dry, LEAK], 1)]
    troubles = follow(walks, sense_of("wheel-loader"))
    assert [(0, 1, 1), (2, 3, 2), (4, None, 3)] == [(t.opened, t.closed, t.spell) for t in troubles]


def test_a_kind_unknown_here_still_has_a_history() -> None:
    """The checks that all machines share are enough."""
    walks = [walked("2025-03-01", LEAK), walked("2025-03-02", ("lift cylinder", "left", "good", "dry"))]
    assert ["gone"] == [one.change for one in compared(follow(walks, sense_of("hay-tower")), 1)]


@pytest.mark.parametrize(
    ("before", "now", "found"),
    [
        ("chipped", "crack", [("crack", 0, 1)]),
        ("loose", "missing", [("missing", 0, 1)]),
        ("crack", "chipped", [("crack", 0, 0), ("chipped", 1, 1)]),  # a crack does not shrink to a chip
        ("leak", "crack", [("leak", 0, 0), ("crack", 1, 1)]),
    ],
)
def test_a_trouble_may_grow(before: str, now: str, found: list[tuple[str, int, int]]) -> None:
    """A chip that is a crack next time is one trouble, open since the chip."""
    walks = [
        walked("2025-03-01", ("windscreen", "none", "watch", before)),
        walked("2025-03-02", ("windscreen", "none", "writeup", now)),
    ]
    troubles = follow(walks, sense_of("wheel-loader"))
    assert found == [(one.said.condition, one.opened, one.seen) for one in troubles]


def test_two_troubles_may_become_one() -> None:
    """A chip and a bend that end in one missing part are told once, open since the first."""
    chipped: Row = ("windscreen", "none", "watch", "chipped")
    bent: Row = ("windscreen", "none", "watch", "bent")
    missing: Row = ("windscreen", "none", "writeup", "missing")
    walks = [
        walked("2025-03-01", chipped),
        walked("2025-03-02", chipped, bent),
        walked("2025-03-03", missing),
    ]
    (trouble,) = follow(walks, sense_of("wheel-loader"))
    assert ("missing", 0) == (trouble.said.condition, trouble.opened)
