"""What is taken back and put right."""

from collections.abc import Callable

import pytest

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Fan belt is cracked, scratch that.", []),
        ("Fan belt is cracked. Scratch that.", []),
        ("Fan belt is cracked. Scratch that, it's fine.", [("fan belt", "none", "good", "good")]),
        (
            "Left steering cylinder is weeping, no wait, the right one.",
            [("steering cylinder", "right", "watch", "leak")],
        ),
        ("Left mirror is cracked, sorry, the right one.", [("mirrors", "right", "writeup", "crack")]),
        # only the last statement is taken back
        ("Horn works. Fan belt is cracked. Scratch that.", [("horn", "none", "good", "works")]),
    ],
)
def test_taken_back(ruled: Rows, text: str, expected: list[Row]) -> None:
    """What is taken back no longer counts, and a side put right moves the statement."""
    assert expected == ruled(text)
