"""Numbers as they are said, read back by the part of saycheck that understands them."""

import random

import pytest

from saycheck.hearing.language import said
from saycheck.understanding.numbers import read_number


@pytest.mark.parametrize("number", [0, 7, 13, 40, 85, 100, 104, 240, 999, 1000, 1001, 4112, 11482, 120000])
def test_whole_numbers_come_back(number: int) -> None:
    """However a whole number is said, it is the number that was meant."""
    rng = random.Random(number)
    assert {float(number)} == {read_number(said.whole(number, rng)) for _ in range(20)}


@pytest.mark.parametrize(("digits", "expected"), [("14", 14), ("402", 402), ("4112", 4112)])
def test_digits_come_back(digits: str, expected: float) -> None:
    """Digits said one by one are one number."""
    rng = random.Random(2)
    assert {expected} == {read_number(said.digits(digits, rng)) for _ in range(10)}


@pytest.mark.parametrize(
    ("number", "expected"),
    [(4112, "forty one twelve"), (6204, "sixty two oh four"), (1200, "twelve hundred")],
)
def test_pairs(number: int, expected: str) -> None:
    """Long readings are said two figures at a time."""
    assert expected == said.pairs(number, random.Random(1))
