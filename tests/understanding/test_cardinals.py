"""Whole numbers in words: with scales, digit by digit, in pairs. Each reader tells where it ended."""

import pytest

from saycheck.understanding.cardinals import below_hundred, cardinal, digit_run, pairs, skip_and


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("seven", (7, 1)),
        ("forty eight psi", (48, 2)),
        ("twelve six", (12, 1)),
        ("forty oh", (40, 1)),  # nought is no unit behind a ten
        ("hundred", None),
        ("psi", None),
        ("", None),
    ],
)
def test_below_hundred(text: str, expected: tuple[int, int] | None) -> None:
    """One number up to ninety-nine."""
    assert expected == below_hundred(text.split(), 0)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("two hundred and six bolts", (206, 4)),
        ("two hundred bolts and six nuts", (200, 2)),
        ("a hundred", (100, 2)),
        ("hundred and twenty mil", (120, 3)),
        ("two thousand and one", (2001, 4)),
        ("twelve hundred", (1200, 2)),
        ("three , four", (3, 1)),  # a comma parts two numbers
        ("forty eight fifty two", (48, 2)),
        ("two million three hundred thousand", (2_300_000, 5)),
        ("a bolt", None),
        ("and six", None),
    ],
)
def test_cardinal(text: str, expected: tuple[int, int] | None) -> None:
    """A number with scales ends where the next one begins."""
    assert expected == cardinal(text.split(), 0)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("four one five oh hours", ("4150", 4)),
        ("double four six", ("446", 3)),
        ("triple two", ("222", 2)),
        ("double glazed", ("", 0)),
        ("forty", ("", 0)),
    ],
)
def test_digit_run(text: str, expected: tuple[str, int]) -> None:
    """Digits one by one, as text."""
    assert expected == digit_run(text.split(), 0)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("sixty two oh four", (6204, 4)),
        ("eighty four twelve", (8412, 3)),
        ("eleven four eight two", (11482, 4)),
        ("four eight", None),  # digits, not pairs
        ("forty eight", None),  # one pair is an ordinary number
        ("twelve fifty hundred", None),
    ],
)
def test_pairs(text: str, expected: tuple[int, int] | None) -> None:
    """Two pairs and more make one number, as an hour meter is read."""
    assert expected == pairs(text.split(), 0)


@pytest.mark.parametrize(("text", "expected"), [("and six", 1), (", six", 1), ("six", 0), ("", 0)])
def test_skip_and(text: str, expected: int) -> None:
    """ "And" or a comma inside a number is stepped over."""
    assert expected == skip_and(text.split(), 0)
