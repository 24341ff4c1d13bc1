"""Words that point back to a part spoken of before."""

from collections.abc import Callable

import pytest

from saycheck.understanding.pipeline import understand
from saycheck.understanding.statements import Statement

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]
Statements = Callable[..., list[Statement]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Fan belt is tight. It has a nick in it.", ("fan belt", "none", "watch", "chipped")),
        (
            "Left lift cylinder is dry. Wet at the gland though.",
            ("lift cylinder gland", "left", "writeup", "leak"),
        ),
        ("Left lift cylinder is weeping. The other one is dry.", ("lift cylinder", "right", "good", "dry")),
        ("Left headlight works, right one is out.", ("headlight", "right", "writeup", "inoperative")),
        ("Left mirror is good. Right one is cracked.", ("mirrors", "right", "writeup", "crack")),
        ("Left tie rod has play. Headlights both work.", ("headlight", "both", "good", "works")),
        ("Headlights both work.", ("headlight", "both", "good", "works")),
        (
            "The mirror on the left is good, and the one on the right is cracked.",
            ("mirrors", "right", "writeup", "crack"),
        ),
        ("Left mirror is good. The right un is cracked.", ("mirrors", "right", "writeup", "crack")),
    ],
)
def test_pointing_back(ruled: Rows, text: str, expected: Row) -> None:
    """ "It", "the other one", "right one" and "both" mean the part last spoken of."""
    assert expected == ruled(text)[-1]


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("Right side. Rear tyre is cut. Front one is bald.", "front tyre"),
        ("Right side. Rear tyre is cut. Front, bald.", "front tyre"),
        ("Right side. Rear tyre is cut. Front's bald.", "front tyre"),
        ("Front wheel nuts are tight. Rear ones are loose.", "rear wheel nuts"),
        ("Front work lights are good. Right rear is broken.", "rear work lights"),
        ("Rear tyre is cut. The back one is bald too.", "rear tyre"),
        ("Upper pin of the articulation joint is dry. Lower one is worn.", "articulation joint lower pin"),
        ("Fan belt is cracked. Front, then.", "fan belt"),  # there is no front fan belt
    ],
)
def test_the_one_at_the_other_end(ruled: Rows, text: str, part: str) -> None:
    """An end or a level tells which of the parts of one name is meant, where the list has both."""
    assert ruled(text)[-1][0] == part


def test_which_one_is_kept_beside_the_name() -> None:
    """Of several steps the one that was pointed at stands with the words heard for the part."""
    found = understand("Steps, bottom one is bent.", "wheel-loader").findings
    assert [(f.part, f.heard_as) for f in found] == [("access steps", "Steps, bottom one")]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Lift cylinders, left is leaking, the other is dry.", ("lift cylinder", "right", "good", "dry")),
        ("Mirrors. The left is cracked.", ("mirrors", "left", "writeup", "crack")),
        ("Left lift cylinder is dry. Now the right. Leaking.", ("lift cylinder", "right", "writeup", "leak")),
        ("Mirrors on the left is fine.", ("mirrors", "left", "good", "good")),  # that is where they are
    ],
)
def test_a_side_by_itself(ruled: Rows, text: str, expected: Row) -> None:
    """ "The left", "the other" and "now the right" are parts where something is said of them."""
    assert expected == ruled(text)[-1]


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        (
            "Articulation bearings, rock it. Upper, nothing. Lower, a bit of play.",
            "Articulation bearings, Lower",
        ),
        ("Steps. Top, solid.", "Steps, Top"),
        ("Fan belt is tight. One. Two. Three. Top, worn.", ""),  # too long ago
    ],
)
def test_which_of_two_by_itself(statements: Statements, text: str, heard: str) -> None:
    """ "Top" or "lower" at the beginning is one of those that were just spoken of."""
    said = [s.subject.spoken for s in statements(text) if "," in s.subject.spoken]
    assert heard == (said[-1] if said else "")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # The valve was only what makes the left one creep.
        (
            "Left lift cylinder is leaking, that is the check valve. Right one is dry.",
            ("lift cylinder", "right", "good", "dry"),
        ),
        (
            "Left mirror is good. Horn works. The other one is cracked.",
            ("mirrors", "right", "writeup", "crack"),
        ),
        # The headlights have sides of their own.
        (
            "Left mirror is cracked. Headlights. Right one is out.",
            ("headlight", "right", "writeup", "inoperative"),
        ),
    ],
)
def test_the_right_one_of_what_the_left_one_was(ruled: Rows, text: str, expected: Row) -> None:
    """The right one is of what the left one is of, whatever without sides was named since."""
    assert expected == ruled(text)[-1]
