"""Readings and what their words leave open."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.reading import Reading, Span, carried, reading, require

FINITE = st.floats(-1e6, 1e6)
WIDTH = st.floats(0, 1e3)


def test_a_plain_number_leaves_nothing_open() -> None:
    """A number is a reading without a width, a reading stays what it is."""
    assert Reading(17.0, 0.0) == reading(17)
    assert Reading(17.0, 0.5) == reading(Reading(17.0, 0.5))


@pytest.mark.parametrize(("value", "wide"), [(math.nan, 0), (math.inf, 0), (1, -0.1), (1, math.nan)])
def test_no_number(value: float, wide: float) -> None:
    """What is no number, or a width below nothing, is refused in one sentence."""
    with pytest.raises(SumError) as told:
        Reading(value, wide)
    sentence = f"a reading of {value:g} ± {wide:g} is no number to reckon with; "
    assert sentence + "give a finite value and a half width of 0 or more" == str(told.value)


@pytest.mark.parametrize(
    ("low", "high", "span"),
    [
        (0, 10, "0 to 10 mm"),
        (0, math.inf, "0 mm up"),
        (-math.inf, 10, "anything up to 10 mm"),
    ],
)
def test_outside_its_range(low: float, high: float, span: str) -> None:
    """An end outside the range is enough to refuse; the sentence names value, range and what to do."""
    at = Reading(10, 1) if high == 10 else Reading(0.5, 1)
    with pytest.raises(SumError) as told:
        require("a gap", at, low, high, "mm", "measure it again")
    said = f"{at.value:g} ± 1 mm"
    assert f"a gap of {said} is outside {span}, where this sum holds; measure it again" == str(told.value)


@given(FINITE, WIDTH, st.sampled_from([2.0, -0.5]))
def test_ends_are_carried(value: float, wide: float, slope: float) -> None:
    """A straight line carries a reading to its own ends, rising or falling."""
    at = Reading(value, wide)
    span = carried(lambda x: slope * x, at)
    assert (span.low, span.high) == pytest.approx(
        (slope * value - abs(slope) * wide, slope * value + abs(slope) * wide)
    )
    assert span.low <= span.value <= span.high


def test_between() -> None:
    """A reading from its ends, in either order."""
    assert Reading(10, 2) == Reading.between(8, 12) == Reading.between(12, 8)
    assert Span(1, 1, 1) == carried(lambda x: x, 1)
