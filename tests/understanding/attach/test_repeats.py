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
        (
            "Horn doesn't work and neither does the wiper.",
            [
                ("horn", "none", "writeup", "inoperative"),
                ("windscreen wiper", "none", "writeup", "inoperative"),
            ],
        ),
        (  # what was last said of such a part, not what was said last
            "Left mirror is cracked. Wiper is torn. Right mirror same again.",
            [
                ("mirrors", "left", "writeup", "crack"),
                ("windscreen wiper", "none", "writeup", "split"),
                ("mirrors", "right", "writeup", "crack"),
            ],
        ),
    ],
)
def test_same_again(ruled: Rows, text: str, expected: list[Row]) -> None:
    """ "Ditto" says the same of the other side or of the part named, denial included."""
    assert expected == ruled(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Lift cylinders, the left's dry, and the right's the same.",
            [("lift cylinder", "left", "good", "dry"), ("lift cylinder", "right", "good", "dry")],
        ),
        (
            "Left mirror is cracked, right mirror ditto.",
            [("mirrors", "left", "writeup", "crack"), ("mirrors", "right", "writeup", "crack")],
        ),
        (
            "Left lift cylinder is weeping, and same on the right.",
            [("lift cylinder", "left", "watch", "leak"), ("lift cylinder", "right", "watch", "leak")],
        ),
        (  # nothing to be said again of another part
            "Left mirror is cracked, right mirror is loose, same as last year.",
            [("mirrors", "left", "writeup", "crack"), ("mirrors", "right", "writeup", "loose")],
        ),
        (  # the same on the side it was said of is no news
            "Left mirror is cracked, same on the left.",
            [("mirrors", "left", "writeup", "crack")],
        ),
    ],
)
def test_same_within_a_sentence(ruled: Rows, text: str, expected: list[Row]) -> None:
    """ "The same" says again what the sentence has just said, of the part or the side that stands with it."""
    assert expected == ruled(text)
