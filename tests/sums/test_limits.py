"""Measurements against limits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.limits import check_limit
from saycheck.sums.reading import Reading


@pytest.mark.parametrize(
    ("value", "wide", "least", "most", "verdict"),
    [
        (17, 0.5, 10, None, "within"),
        (9, 0.5, 10, None, "beyond"),
        (10.2, 0.5, 10, None, "too close to call"),
        (10, 0, 10, None, "within"),  # a value on the limit keeps it
        (10.5, 0.5, 10, None, "within"),  # and so does an end
        (9.5, 0.5, 10, None, "too close to call"),
        (3.2, 0.1, None, 3, "beyond"),
        (3.0, 0.1, None, 3, "too close to call"),
        (2.5, 0.1, None, 3, "within"),
        (5, 0.1, 4, 6, "within"),
        (6.2, 0.1, 4, 6, "beyond"),
        (5, 2, 4, 6, "too close to call"),  # wider than the limits are apart
    ],
)
def test_verdict(value: float, wide: float, least: float | None, most: float | None, verdict: str) -> None:
    """Only what holds for every value that the words leave open is called."""
    assert verdict == check_limit(Reading(value, wide), at_least=least, at_most=most).verdict


def test_plainly() -> None:
    """The sentence names reading, limit, source and margin, and asks for another measurement where close."""
    within = check_limit(Reading(17, 0.5), at_least=10, unit="mm", source="maker's manual")
    assert "Within the limit by 7 mm: 17 ± 0.5 mm against at least 10 mm (maker's manual)." == within.plainly
    beyond = check_limit(3.4, at_most=3, unit="%")
    assert "Beyond the limit by 0.4 %: 3.4 % against at most 3 %." == beyond.plainly
    close = check_limit(Reading(10, 0.5), at_least=10, at_most=20, unit="mm")
    assert "Too close to call: 10 ± 0.5 mm against 10 to 20 mm: measure again, finer." == close.plainly


def test_no_limit() -> None:
    """Without a limit, and with limits that exclude each other, it is refused."""
    with pytest.raises(SumError) as none:
        check_limit(17, unit="mm")
    assert "there is no limit to hold 17 mm against; look it up in the maker's manual" == str(none.value)
    with pytest.raises(SumError) as never:
        check_limit(17, at_least=5, at_most=4, unit="mm")
    assert "a limit of at least 5 and at most 4 mm can never be kept; check it" == str(never.value)


@given(st.floats(-100, 100), st.floats(0, 10), st.floats(-100, 100), st.floats(0, 1))
def test_the_truth_is_never_called_wrong(value: float, wide: float, limit: float, where: float) -> None:
    """Whatever the true value between the ends: within never breaks the limit, beyond never keeps it."""
    at = Reading(value, wide)
    truth = min(max(at.low + where * (at.high - at.low), at.low), at.high)
    verdict = check_limit(at, at_least=limit).verdict
    assert not (verdict == "within" and truth < limit)
    assert not (verdict == "beyond" and truth >= limit)


@given(st.floats(-100, 100), st.floats(0, 10), st.floats(0, 10), st.floats(-100, 100))
def test_more_doubt_calls_no_more(value: float, wide: float, wider: float, limit: float) -> None:
    """A wider reading is either called the same or not called."""
    fine = check_limit(Reading(value, wide), at_most=limit).verdict
    coarse = check_limit(Reading(value, wide + wider), at_most=limit).verdict
    assert coarse in (fine, "too close to call")
