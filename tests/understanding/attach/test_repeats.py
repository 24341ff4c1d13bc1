"""What is said again: "ditto", "same on the other side"."""

from collections.abc import Callable

import pytest

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Left lift cylinder is weeping. Ditto on the right.",
            [("lift cylinder", "left", "watch", "leak"), ("lift cylinder", "right", "watch", "leak")],
        ),
        (
            "Left lift cylinder is weeping. Same on the right.",
            [("lift cylinder", "left", "watch", "leak"), ("lift cylinder", "right", "watch", "leak")],
        ),
        (
            "Left mirror is cracked. Right mirror ditto.",
            [("mirrors", "left", "writeup", "crack"), ("mirrors", "right", "writeup", "crack")],
        ),
        (
            "Left mirror has no cracks. Same on the other side.",
            [("mirrors", "left", "good", "no crack"), ("mirrors", "right", "good", "no crack")],
        ),
        (  # what was last said of such a part, not what was said last
            "Left mirror is cracked. Wiper is torn. Right mirror same again.",
            [
                ("mirrors", "left", "writeup", "crack"),
                ("wipers", "none", "writeup", "split"),
                ("mirrors", "right", "writeup", "crack"),
            ],
        ),
    ],
)
def test_same_again(ruled: Rows, text: str, expected: list[Row]) -> None:
    """ "Ditto" says the same of the other side or of the part named, denial included."""
    assert expected == ruled(text)
