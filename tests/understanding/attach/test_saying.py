"""How much is made of a condition, and what it means of which part."""

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


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Lift cylinder is dry.", ("good", "dry")),
        ("Bucket pins are dry.", ("writeup", "dry")),
        ("Bucket pins are not dry.", ("good", "no dry")),
        ("The lift cylinder. Its pins are bone dry.", ("writeup", "dry")),  # the component counts
    ],
)
def test_of_which_part(ruled: Rows, text: str, expected: tuple[str, str]) -> None:
    """What holds oil should be dry; what wants grease should not."""
    assert [expected] == [row[2:] for row in ruled(text)]
