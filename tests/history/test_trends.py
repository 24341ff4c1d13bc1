"""Readings of a part become a series, in one unit, from which wear is reckoned."""

import math
from dataclasses import replace
from datetime import date, timedelta

import pytest

from saycheck.history.forecast import forecasts_of
from saycheck.history.records import Measured, Walked
from saycheck.history.renewed import renewed
from saycheck.history.sense import sense_of
from saycheck.history.sketch import sketch
from saycheck.history.trends import series_of

from .conftest import walked

LOADER = sense_of("wheel-loader")


def measured(value: float, unit: str = "mm", line: str = "cutting edge", **other: str) -> Measured:
    """A reading; its SI value is right for mm and inches."""
    si = {"mm": 0.001, "in": 0.0254}.get(unit, 1.0)
    unit_si = "m" if unit in ("mm", "in") else unit
    given = {"side": "none", "part": line, "attribute": ""} | other
    return Measured(
        line=line, value=value, unit=unit, plus_minus=0.5, value_si=value * si, unit_si=unit_si, **given
    )


def walk(day: str, hours: float | None, *readings: Measured) -> Walked:
    """A walk with readings and nothing else."""
    return replace(walked(day, hours=hours), measured=readings)


def test_one_series_a_part_in_the_unit_said_last() -> None:
    """Inches and millimetres of one edge are one series; 1 in is 25.4 mm (NIST SP 811, appendix B.8)."""
    walks = [walk("2025-03-01", 100, measured(1.0, "in")), walk("2025-04-01", 300, measured(22.0))]
    (series,) = series_of(walks, LOADER)
    assert ("cutting edge", "thickness", "mm") == (series.line, series.attribute, series.unit)
    assert [25.4, 22.0] == pytest.approx([point.value for point in series.points])
    assert 0.5 * 25.4 == pytest.approx(series.points[0].plus_minus)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (measured(20, line="front tyre", side="left"), measured(20, line="front tyre", side="right")),
        (measured(20, line="front tyre"), measured(5, "bar", line="front tyre")),
        (measured(20), measured(20, line="bucket")),
    ],
)
def test_what_is_not_one_series(first: Measured, second: Measured) -> None:
    """Two sides, two quantities, two parts: each alone, and one reading is no trend."""
    walks = [walk("2025-03-01", 100, first), walk("2025-04-01", 300, second)]
    assert [] == series_of(walks, LOADER)
    assert 2 == len(series_of(walks, LOADER, least=1))


@pytest.mark.parametrize("unit", ["count", "h", "finger"])
def test_no_series_of_counts(unit: str) -> None:
    """How many bolts, and the hour meter itself, are no wear."""
    walks = [walk(f"2025-0{month}-01", 100.0 * month, measured(month, unit)) for month in (1, 2, 3)]
    assert [] == series_of(walks, LOADER)


def test_the_rate_of_a_straight_wear() -> None:
    """An edge that loses 1 mm every 100 h falls 1 mm per 100 h, and no limit is made up."""
    walks = [walk(f"2025-0{n}-01", 100.0 * n, measured(30.0 - n)) for n in range(1, 7)]
    (series,) = series_of(walks, LOADER)
    assert (None, None) == series.limits
    found = series.wear()
    assert found is not None
    assert found.rate is not None
    assert -0.01 == pytest.approx(found.rate.value)
    assert "no limit known" == found.outlook


def test_a_published_limit_gives_hours() -> None:
    """A truck's steer tyre has one in the vocabulary: 3.2 mm, so 3 mm above it last 300 h at 1 mm per 100 h."""
    sense = sense_of("road-truck")
    line = next(part.name for part in sense.parts.values() if any(m.at_least == 3.2 for m in part.measures))
    walks = [walk(f"2025-0{n}-01", 100.0 * n, measured(12.2 - n, line=line)) for n in range(1, 7)]
    (series,) = series_of(walks, sense)
    assert (3.2, None) == series.limits
    found = series.wear(hours_per_day=4.0)
    assert found is not None
    assert found.remaining_h is not None
    assert 300 == pytest.approx(found.remaining_h.value)
    assert "limit 3.2" in sketch(series)


def test_a_forecast_has_a_day() -> None:
    """The same tyre at the hours a day that its walks show: 300 h at 100 h in 31.5 days are 94 whole days."""
    sense = sense_of("road-truck")
    walks = [walk(f"2025-{n:02}-01", 100.0 * n, measured(12.2 - n, line="steer tyre")) for n in range(1, 7)]
    (found,) = forecasts_of(walks, sense, 100 / 31.5)
    assert (date(2025, 6, 1) + timedelta(days=94)).isoformat() == found.day
    assert found.earliest is not None
    assert found.earliest < found.day
    assert 300 == pytest.approx(found.remaining_hours)


@pytest.mark.parametrize(
    ("values", "days"),
    [
        ([9.0, 8.0], []),  # two readings foretell nothing
        ([6.0, 9.0, 7.0], []),  # it cannot grow back: it is asked, not reckoned
        ([5.0, 4.0, 3.0], ["2025-03-01"]),  # beyond 3.2 mm already: due when it was measured
    ],
)
def test_no_forecast_is_made_up(values: list[float], days: list[str]) -> None:
    """Too few or contradictory readings have no day; what is beyond its limit is due at once."""
    walks = [
        walk(f"2025-0{n}-01", 100.0 * n, measured(v, line="steer tyre")) for n, v in enumerate(values, 1)
    ]
    assert days == [one.day for one in forecasts_of(walks, sense_of("road-truck"), 4.0)]


@pytest.mark.parametrize(("kind", "line", "unit"), [("wheel-loader", "hydraulic oil", "percent")])
def test_a_level_does_not_wear(kind: str, line: str, unit: str) -> None:
    """Levels come and go: no wear is reckoned from them."""
    walks = [walk(f"2025-0{n}-01", 100.0 * n, measured(90.0 - n, unit, line=line)) for n in range(1, 5)]
    (series,) = series_of(walks, sense_of(kind))
    assert "level" == series.attribute
    assert series.wear() is None


def test_wear_needs_the_hour_meter() -> None:
    """Without one hour-meter reading there is no wear, but still a trend over days."""
    walks = [walk(f"2025-0{n}-01", None, measured(30.0 - n)) for n in range(1, 4)]
    (series,) = series_of(walks, LOADER)
    assert series.wear() is None
    assert "2025-01-01" in sketch(series)


@pytest.mark.parametrize(
    ("words", "why"),
    [
        ("new cutting edge, forty millimetres", "part replaced"),
        ("edge was replaced, forty millimetres", "part replaced"),
        ("we flipped the edge, twenty five mil", "edge reversed"),
        ("edge has been turned, twenty five mil", "edge reversed"),
        ("cutting edge is eighteen millimetres", ""),
        ("needs a new edge, eighteen millimetres", ""),  # wanted, not done
        ("should be turned, eighteen millimetres", ""),
        ("good as new, forty millimetres", ""),
        ("we turned it down", "edge reversed"),
    ],
)
def test_words_that_begin_a_new_series(words: str, why: str) -> None:
    """What was done begins a new series; what is only wanted does not."""
    assert why == renewed(words)


def test_a_new_edge_begins_anew() -> None:
    """The rate is that of the new edge alone."""
    values = [30.0, 25.0, 20.0, 40.0, 39.0, 38.0]
    readings = [measured(value)._replace(renewed="part replaced" if value == 40 else "") for value in values]
    walks = [walk(f"2025-0{n}-01", 100.0 * n, one) for n, one in enumerate(readings, 1)]
    (series,) = series_of(walks, LOADER)
    found = series.wear()
    assert found is not None
    assert found.rate is not None
    assert "part replaced" == found.began
    assert -0.01 == pytest.approx(found.rate.value)
    assert 1 == sketch(series).count("+")


@pytest.mark.parametrize("values", [[5.0, 5.0], [1.0, 2.0], [0.0, 1e9], [-3.5, 7.25, 0.0]])
def test_a_sketch_holds_every_reading(values: list[float]) -> None:
    """Each reading is a mark, no line is wider than a terminal, the ends are written."""
    walks = [walk(f"2025-0{n}-01", 100.0 * n, measured(value)) for n, value in enumerate(values, 1)]
    (series,) = series_of(walks, LOADER)
    drawn = sketch(series)
    assert len(values) == drawn.count("o")
    assert all(len(line) <= 76 for line in drawn.splitlines())
    assert f"{100 * len(values)} h" in drawn
    assert not any(math.isnan(point.value) for point in series.points)
