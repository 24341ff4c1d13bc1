"""How long a part lasts, from the history of its unit."""

import math
import random
from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.reading import Reading
from saycheck.sums.wear import Wear, WearPoint, wear

START = date(2026, 1, 5)
EDGE = [(1000, 22), (1200, 20), (1400, 18.5), (1600, 16.5), (1800, 15), (2000, 13.5)]


def points(rows: Sequence[tuple[float, float]], wide: float = 0.5, dated: bool = False) -> list[WearPoint]:
    """Readings at hours, 40 hours a week where dated."""
    return [
        WearPoint(
            hours, Reading(value, wide), START + timedelta(days=round(hours - 1000) // 6) if dated else None
        )
        for hours, value in rows
    ]


def test_a_straight_line_is_read_off() -> None:
    """1 mm in 100 h from 22 mm to 10 mm: 1,200 h from the first reading, nothing left open."""
    line = wear(points([(1000 + 100 * k, 22 - k) for k in range(6)], wide=0), at_least=10)
    assert "foreseen" == line.outlook
    assert line.rate is not None
    assert line.remaining_h is not None
    assert (0.01, 0.01, 0.01) == pytest.approx((line.rate.value, line.rate.low, line.rate.high))
    assert (700, 700, 700) == pytest.approx(
        (line.remaining_h.value, line.remaining_h.low, line.remaining_h.high)
    )


def test_an_edge() -> None:
    """Rate, hours and days with their ends, and how sure; hours and dates fit each other."""
    told = wear(points(EDGE, dated=True), at_least=10, hours_per_day=6)
    assert "foreseen" == told.outlook
    assert told.rate is not None
    assert told.remaining_h is not None
    assert 0.85 == pytest.approx(100 * told.rate.value, abs=0.01)
    assert told.remaining_h.low < 400 < told.remaining_h.high
    last = told.points[-1].on
    assert last is not None
    hours = (told.remaining_h.value, told.remaining_h.low, told.remaining_h.high)
    assert [last + timedelta(days=math.floor(h / 6)) for h in hours] == list(told.due)
    assert (
        "Wears 0.85 mm (0.73 to 1) per 100 h; about 390 h (160 to 660) left to at least 10 mm, around 24 August 2026 "
        "(17 July 2026 to 8 October 2026) at 6 h a day (from 6 readings, at least 95 % sure)." == told.plainly
    )


def test_from_the_hours_now() -> None:
    """Hours run since the last reading are hours less, and days count from today."""
    then, now = (
        wear(points(EDGE, dated=True), at_least=10, hours_per_day=6),
        wear(points(EDGE), at_least=10, hours_per_day=6, hours_now=2060, today=date(2026, 7, 1)),
    )
    assert then.remaining_h is not None
    assert now.remaining_h is not None
    assert 60 == pytest.approx(then.remaining_h.value - now.remaining_h.value)
    assert date(2026, 7, 1) + timedelta(days=math.floor(now.remaining_h.value / 6)) == now.due[0]


def test_a_reading_that_rises_to_its_limit() -> None:
    """Chain elongation or play runs up to a limit."""
    told = wear(points([(100.0 * k, 0.3 + 0.1 * k) for k in range(5)], wide=0.02), at_most=3, unit="%")
    assert told.remaining_h is not None
    assert 2300 == pytest.approx(told.remaining_h.value)
    assert told.rough  # 2,300 h ahead on 400 h of readings
    assert told.plainly.endswith("Rough: this looks further ahead than the readings reach back.")


@pytest.mark.parametrize(
    ("rows", "wanted", "outlook", "sentence"),
    [
        (
            [],
            {"at_least": 10},
            "too few",
            "Too few readings to foresee anything: there is none yet.",
        ),
        (
            EDGE[:1],
            {"at_least": 10},
            "too few",
            "Too few readings to foresee anything: one gives nothing to check a forecast by; 3 at different hours are "
            "the least.",
        ),
        (
            EDGE[:2],
            {"at_least": 10},
            "too few",
            "Too few readings to foresee anything: 2 give nothing to check a forecast by; 3 at different hours are the "
            "least; so far 1 mm per 100 h.",
        ),
        (
            EDGE,
            {"at_least": 15},
            "beyond the limit",
            "Beyond the limit of at least 15 mm now; so far 0.85 mm per 100 h.",
        ),
        (
            EDGE,
            {},
            "no limit known",
            "Falls 0.85 mm (0.73 to 1) per 100 h, from 6 readings; without a limit nothing can be foreseen: look it up "
            "in the maker's manual.",
        ),
        (
            [*EDGE, (2200, 22)],
            {"at_least": 10},
            "contradictory",
            "The readings contradict each other: it went from 13.5 ± 0.5 mm at 2,000 h to 22 ± 0.5 mm at 2,200 h, "
            "which wear cannot do: was the part replaced, the edge reversed, or one of them misread?",
        ),
        (
            [(100.0 * k, 12 + 0.6 * k) for k in range(6)],
            {"at_least": 10},
            "contradictory",
            "The readings contradict each other: they rise, away from the limit: was it measured at another place, or "
            "was the part replaced?",
        ),
        (
            [(0, 12), (100, 12.2), (200, 11.9), (300, 12.1), (400, 12)],
            {"at_least": 10},
            "no clear wear",
            None,
        ),
    ],
)
def test_what_stands_in_the_way(
    rows: list[tuple[float, float]], wanted: dict[str, Any], outlook: str, sentence: str | None
) -> None:
    """Where nothing can be foreseen it says why, in one sentence."""
    told = wear(points(rows), **wanted)
    assert outlook == told.outlook
    if sentence:
        assert sentence == told.plainly
    else:
        assert told.plainly.startswith("No clear wear towards at least 10 mm, from 5 readings")


def test_a_new_part_starts_anew() -> None:
    """Readings of the old part do not count, and the sentence says since when."""
    fresh = [WearPoint(2200, Reading(25, 0.2), renewed="part replaced")]
    fresh += points([(2400, 23), (2600, 21.2), (2700, 20.5)], wide=0.2)
    told = wear([*points(EDGE), *fresh], at_least=10)
    assert (4, "part replaced") == (len(told.points), told.began)
    assert "from 4 readings since part replaced, at least 88 % sure" in told.plainly


@pytest.mark.parametrize("said_to", [0.0, 1.0], ids=["as read", "to the whole millimetre"])
@pytest.mark.parametrize("many", [3, 4, 6, 12])
def test_the_hours_hold_the_truth_as_often_as_told(said_to: float, many: int) -> None:
    """400 simulated histories a row: rate and remaining hours hold the truth at least as often as told.

    Less what chance allows (3 sigma). Readings scatter by 0.4 mm, and are said exactly or to the millimetre.
    """
    rng = random.Random(f"{said_to}{many}")
    rate_inside = hours_inside = total = 0
    told = 0.0
    for _ in range(400):
        slope, new = rng.uniform(0.004, 0.008), 22 + rng.random()
        hours = sorted(rng.uniform(0, 1000) for _ in range(many))
        values = [new - slope * at + rng.gauss(0, 0.4) for at in hours]
        said = [Reading(round(value), 0.5) if said_to else Reading(value) for value in values]
        result = wear([WearPoint(h, v) for h, v in zip(hours, said, strict=True)], at_least=10)
        if result.remaining_h is None or result.rate is None:  # contradictory: no promise was made
            continue
        total += 1
        told += result.confidence
        rate_inside += result.rate.low <= slope <= result.rate.high
        hours_inside += result.remaining_h.low <= (new - 10) / slope - hours[-1] <= result.remaining_h.high
    told /= total
    chance = 3 * (told * (1 - told) / total) ** 0.5
    assert total > 350
    assert rate_inside / total >= told - chance
    assert hours_inside / total >= told - chance


@example(
    rows=[(0.0, 1.0, 0.0), (1.0, 0.0, 0.0), (2.225073858507203e-309, 0.0, 0.0)], limit=0.0, which="at_least"
)
@given(
    st.lists(st.tuples(st.floats(0, 5000), st.floats(0, 60), st.floats(0, 2)), max_size=12),
    st.floats(0, 40),
    st.sampled_from(["at_least", "at_most"]),
)
def test_any_history_gets_an_answer(rows: list[tuple[float, float, float]], limit: float, which: str) -> None:
    """Whatever was measured, there is a sentence, and the ends stand in their order."""
    told: Wear = wear([WearPoint(h, Reading(v, w)) for h, v, w in rows], **{which: limit})  # type: ignore[arg-type]
    assert told.plainly.endswith((".", "?"))
    for span in (told.rate, told.remaining_h):
        if span:
            assert span.low <= span.value <= span.high
    if told.remaining_h:
        assert told.remaining_h.low >= 0


@given(st.floats(0.1, 24), st.floats(0.1, 24))
def test_more_hours_a_day_come_sooner(one: float, other: float) -> None:
    """Longer days bring the day nearer."""
    slow, fast = sorted((one, other))
    days = [wear(points(EDGE, dated=True), at_least=10, hours_per_day=each).due[0] for each in (slow, fast)]
    assert days[0] is not None
    assert days[1] is not None
    assert days[1] <= days[0]


@pytest.mark.parametrize(
    ("wanted", "sentence"),
    [
        (
            {"at_least": 10, "at_most": 20},
            "wear runs towards one limit, not to 10 and 20 mm both; give the one it nears",
        ),
        (
            {"at_least": 10, "hours_per_day": 25},
            "a day's work of 25 hours is outside 0.01 to 24 hours, where this sum holds; give hours on a usual day",
        ),
        (
            {"at_least": 10, "hours_now": 1500},
            "the hours now, 1500, lie before the last reading at 2000 h; read the meter again",
        ),
    ],
)
def test_refused(wanted: dict[str, Any], sentence: str) -> None:
    """What cannot be is refused."""
    with pytest.raises(SumError) as told:
        wear(points(EDGE), **wanted)
    assert sentence == str(told.value)
