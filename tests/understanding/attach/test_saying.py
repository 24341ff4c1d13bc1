"""How much is made of a condition."""

from collections.abc import Callable

import pytest

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Seat is worn.", "watch"),
        ("Seat is badly worn.", "writeup"),
        ("Seat is a touch worn.", "watch"),
        ("Fan belt is a touch slack.", "watch"),
        ("Seat is goosed.", "writeup"),
        ("Seat is shot.", "writeup"),
        ("Left mirror is hanging off.", "writeup"),
        ("Tilt cylinder is weeping.", "watch"),
        ("Tilt cylinder is leaking.", "writeup"),
        ("Tilt cylinder is leaking slightly.", "watch"),
    ],
)
def test_degree(ruled: Rows, text: str, expected: str) -> None:
    """From "a touch" to "hanging off": the state is what the trade means by the words."""
    assert [expected] == [state for _, _, state, _ in ruled(text)]
