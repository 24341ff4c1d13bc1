"""Readings of one part along the hours."""

from datetime import date

import pytest

from saycheck.errors import SumError
from saycheck.sums.reading import Reading
from saycheck.sums.series import WearPoint, contradiction, latest_series


def points(
    *rows: tuple[float, float], wide: float = 0.5, renewed: dict[float, str] | None = None
) -> list[WearPoint]:
    """Readings at hours; ``renewed`` names the hours at which a new series begins."""
    starts = renewed or {}
    return [WearPoint(hours, Reading(value, wide), renewed=starts.get(hours, "")) for hours, value in rows]


def test_in_the_order_of_hours() -> None:
    """Readings come in any order."""
    assert [1000, 1200, 1400] == [p.hours for p in latest_series(points((1400, 18), (1000, 22), (1200, 20)))]
    assert [] == latest_series([])


@pytest.mark.parametrize("why", ["part replaced", "edge reversed"])
def test_a_new_series(why: str) -> None:
    """What was measured before a new part or a reversed edge is left out."""
    series = latest_series(points((1000, 12), (1200, 25), (1400, 23), renewed={1200: why}))
    assert [(1200, why), (1400, "")] == [(point.hours, point.renewed) for point in series]


def test_the_last_renewal_counts() -> None:
    """Of two renewals the later one begins the series."""
    series = latest_series(
        points((1, 9), (2, 25), (3, 12), (4, 25), renewed={2: "part replaced", 4: "edge reversed"})
    )
    assert [4] == [point.hours for point in series]


@pytest.mark.parametrize(
    ("rows", "toward", "told"),
    [
        ([(1000, 22), (1200, 20), (1400, 18)], -1, ""),
        ([(1000, 22), (1200, 20), (1400, 20.4), (1600, 19)], -1, ""),  # half a millimetre back is chance
        (
            [(1000, 22), (1200, 18), (1400, 22)],
            -1,
            "it went from 18 ± 0.5 mm at 1,200 h to 22 ± 0.5 mm at 1,400 h, which wear cannot do: was the part "
            "replaced, the edge reversed, or one of them misread?",
        ),
        ([(1000, 1.0), (1200, 2.9)], 1, ""),  # a gap that grows
        (
            [(1000, 1.0), (1200, 4.5), (1400, 0.8)],
            1,
            "it went from 4.5 ± 0.5 mm at 1,200 h to 0.8 ± 0.5 mm at 1,400 h, which wear cannot do: was the part "
            "replaced, the edge reversed, or one of them misread?",
        ),
        ([], -1, ""),
    ],
)
def test_what_wear_cannot_do(rows: list[tuple[float, float]], toward: int, told: str) -> None:
    """A step back beyond words and chance becomes a question that names both readings."""
    assert told == contradiction(points(*rows), toward, "mm")


def test_the_meter_went_back() -> None:
    """Fewer hours on a later day."""
    later = WearPoint(1200, Reading(19), date(2026, 1, 1))
    told = contradiction([WearPoint(1000, Reading(20), date(2026, 6, 1)), later], -1, "mm")
    assert (
        "1,200 h on 2026-01-01 lie before 1,000 h on 2026-06-01: was the hour meter replaced or misread?"
        == told
    )


def test_no_hours_below_nothing() -> None:
    """Hours below nothing are no reading of a meter."""
    with pytest.raises(SumError) as told:
        latest_series(points((-5, 20)))
    assert "an hour-meter reading of -5 cannot be; read the meter again" == str(told.value)
