"""What the speaker puts right at once no longer counts."""

from collections.abc import Callable

import pytest

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Bucket ram is leaking. No, hang on, it's dry.", ["good"]),
        ("Fan belt is cracked. Oh no, it's fine.", ["good"]),
        ("Radiator is blocked. Nah, it's clean.", ["good"]),
        ("Cutting edge, forty mil. No. Torch was lying. Thirty.", ["good"]),  # the thirty
        ("Rear tyre. Nineteen mil. No, torch slipped. Sixteen.", ["good"]),
        ("Fan belt is cracked. No leaks on the radiator.", ["writeup", "good"]),  # "no" only denies
        ("Fan belt is cracked. It's loose as well.", ["writeup", "writeup"]),  # nothing is put right
        ("Fan belt is cracked. Sorry, the radiator is clean.", ["writeup", "good"]),  # another part
    ],
)
def test_put_right(ruled: Rows, text: str, expected: list[str]) -> None:
    """The states that stand."""
    assert expected == [row[2] for row in ruled(text)]
