"""Words that point back to a part spoken of before."""

from collections.abc import Callable

import pytest

from saycheck.understanding.pipeline import understand

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]


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
        ("Headlights both work.", ("headlight", "both", "good", "works")),
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
    assert [(f.part, f.heard_as) for f in found] == [("steps", "Steps, bottom one")]
