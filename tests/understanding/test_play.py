"""Lengths without a unit that their own words tell (common practice, no source)."""

import pytest

from saycheck.understanding.pipeline import reading_of


def numbers(text: str) -> list[tuple[float, str | None]]:
    """The numbers of a text with their units."""
    return [(m.value.value, m.value.unit) for m in reading_of(text, "motor-grader").of("quantity")]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Tandem chain has twenty-five of slack.", [(25, "mm")]),
        ("Nought point four of lift in the circle.", [(0.4, "mm")]),
        ("Three mil of wear there and two of play here.", [(3, "mm"), (2, "mm")]),
        ("Two centimetres of sag, and three of sag on the other.", [(2, "cm"), (3, "cm")]),
        ("Half an inch of slop, two of play.", [(0.5, "in"), (2, None)]),
    ],
)
def test_how_far_it_moves(said: str, expected: list[tuple[float, str | None]]) -> None:
    assert numbers(said) == expected


@pytest.mark.parametrize(
    "said", ["Two of the bolts are loose.", "Five of them.", "Three of six shanks are in."]
)
def test_how_many_there_are_is_no_length(said: str) -> None:
    assert all(unit is None for _, unit in numbers(said))
