"""When to reverse an edge."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.reading import Reading, Span
from saycheck.sums.reversible_edge import EdgeCosts, ReversibleEdge, reversible_edge

COSTS = EdgeCosts(edge=900, fitting=250, reversing=200, money="CAD")


def edge(thickness: Reading | float, **more: Any) -> ReversibleEdge:
    """An edge of 40 mm new, reversed by 15 mm, looked at every 50 h, wearing 0.9 ± 0.2 mm in 100 h."""
    wanted: dict[str, Any] = {
        "new_mm": 40.0,
        "reverse_by_mm": 15.0,
        "rate_mm_per_h": Reading(0.009, 0.002),
        "next_look_h": 50.0,
    }
    return reversible_edge(thickness, **(wanted | more))


@pytest.mark.parametrize(
    ("thickness", "wide", "when"),
    [
        (30, 0, "not yet"),
        (15.55, 0, "not yet"),  # even at 1.1 mm in 100 h it stands at 15 mm at the next look
        (15.54, 0, "reverse now"),
        (16.0, 0.5, "reverse now"),  # may be 15.5
        (15.0, 0, "reverse now"),
        (15.2, 0.5, "too close to call"),
        (14.4, 0.5, "missed"),
    ],
)
def test_when(thickness: float, wide: float, when: str) -> None:
    """The last thickness is the reversing point and what may wear until the next look."""
    told = edge(Reading(thickness, wide))
    assert when == told.when
    assert 15.55 == pytest.approx(told.last_mm)


@given(st.floats(15.01, 40), st.floats(0.001, 0.05), st.floats(0, 0.9), st.floats(0, 500), st.floats(0, 1))
def test_not_yet_is_never_too_late(
    thickness: float, rate: float, share: float, look: float, where: float
) -> None:
    """Simulated: whatever the true rate inside its ends, an edge told "not yet" can still be reversed next time."""
    told = edge(thickness, rate_mm_per_h=Reading(rate, rate * share), next_look_h=look)
    true_rate = rate * (1 - share + 2 * share * where)
    if told.when == "not yet":
        assert thickness - true_rate * look >= 15 - 1e-9


def test_what_missing_it_costs() -> None:
    """Counted out by hand: two lives of 25 mm for 1,350, against one of 25 mm for 1,150, at 0.009 mm an hour."""
    told = edge(30, costs=COSTS)
    life = 25 / 0.009
    assert told.missing_costs_per_h is not None
    assert 1150 / life - 1350 / (2 * life) == pytest.approx(told.missing_costs_per_h.value)
    assert told.in_time_per_h is not None
    assert told.missed_per_h is not None
    assert told.missed_per_h.value - told.in_time_per_h.value == pytest.approx(told.missing_costs_per_h.value)
    assert life == pytest.approx(told.life_h.value)


def test_a_missed_side_may_be_worn_further() -> None:
    """A side that stays on to 5 mm lives longer, so missing costs less."""
    soon, late = edge(30, costs=COSTS), edge(30, costs=COSTS, worn_out_mm=5.0)
    assert soon.missing_costs_per_h is not None
    assert late.missing_costs_per_h is not None
    assert late.missing_costs_per_h.value < soon.missing_costs_per_h.value
    assert 0.009 * (1150 / 35 - 1350 / 50) == pytest.approx(late.missing_costs_per_h.value)


def test_the_rate_of_a_history() -> None:
    """The rate of a wear forecast goes in as it is."""
    of_reading, of_rate = edge(30).left_h, edge(30, rate_mm_per_h=Span(0.009, 0.007, 0.011)).left_h
    assert (of_reading.value, of_reading.low, of_reading.high) == pytest.approx(
        (of_rate.value, of_rate.low, of_rate.high)
    )


@pytest.mark.parametrize(
    ("thickness", "more", "sentence"),
    [
        (
            30,
            {"costs": COSTS},
            "Not yet: 30 mm now, the last thickness to reverse it at is 15.6 mm, about 1,700 h (1,400 to 2,100) from "
            "its reversing point. Missing it would cost 0.17 CAD (0.13 to 0.21) an hour, 470 CAD over one life.",
        ),
        (
            15.3,
            {},
            "Reverse the edge now: 15.3 mm, and the last thickness to reverse it at is 15.6 mm; by the next look it "
            "may be too late.",
        ),
        (
            12,
            {"costs": COSTS},
            "Too late to reverse: 12 mm is below 15 mm; the second life is lost. Missing it costs 0.17 CAD (0.13 to "
            "0.21) an hour, 470 CAD over one life.",
        ),
        (
            15.6,
            {"costs": EdgeCosts(100, 50, 300)},
            "Not yet: 15.6 mm now, the last thickness to reverse it at is 15.6 mm, about 67 h (55 to 86) from its "
            "reversing point. At these costs reversing does not pay: wear the edge out and replace it.",
        ),
    ],
)
def test_plainly(thickness: float, more: dict[str, Any], sentence: str) -> None:
    """The sentence says when, and what missing it costs; the caution stands by."""
    assert sentence == edge(thickness, **more).plainly
    assert "lock it out" in edge(thickness).caution


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        (
            {"rate_mm_per_h": Reading(0.001, 0.002)},
            "a wear rate of −0.1 to 0.3 mm per 100 h cannot be reckoned with; it must be above nothing: measure more "
            "often",
        ),
        (
            {"reverse_by_mm": 41.0},
            "worn out at 41 mm, reversed at 41 mm and new at 40 mm do not follow each other; look them up in the "
            "maker's manual",
        ),
    ],
)
def test_refused(more: dict[str, Any], sentence: str) -> None:
    """A rate that may be nothing and sizes in the wrong order are refused."""
    with pytest.raises(SumError) as told:
        edge(30, **more)
    assert sentence == str(told.value)
