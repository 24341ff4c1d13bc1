"""Words that point back to a part spoken of before."""

from collections.abc import Callable

import pytest

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
