"""Readings of one part along the walks of its unit: what a trend plot shows and what wear is reckoned from."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from saycheck.errors import SumError
from saycheck.history.records import Measured, Walked
from saycheck.history.sense import Sense
from saycheck.sums.conversions import convert
from saycheck.sums.reading import Reading
from saycheck.sums.wear import Wear, WearPoint, wear
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Measure, Units

COUNTED = frozenset(["count", "h", "hour", "finger", "thread", "mark"])
"""Units of readings that make no trend of wear."""
HOUR_METER = "hour meter"
WEARING = frozenset(["thickness", "thickness left", "depth", "length", "gap", "elongation", "lining"])
"""What wears, as against levels and pressures, which come and go."""


@dataclass(frozen=True)
class Point:
    """One reading: day and hour-meter reading of its walk, value and half width in the unit of its series."""

    day: str
    hours: float | None
    value: float
    plus_minus: float
    judged: str = ""
    renewed: str = ""
    folder: str = ""


@dataclass(frozen=True)
class Series:
    """The readings of one part on one side, oldest first, all in ``unit``, with a published limit if any.

    ``attribute`` is thickness, depth, pressure ..., empty where nobody told.
    """

    line: str
    side: str
    part: str
    attribute: str
    unit: str
    unit_si: str
    points: tuple[Point, ...]
    measure: Measure | None = None

    @property
    def limits(self) -> tuple[float | None, float | None]:
        """At least and at most, in ``unit``, from the vocabulary's published source; None where it has none."""
        if self.measure is None:
            return None, None
        low, high = (
            None if limit is None else convert(limit, self.measure.unit, self.unit).result.value
            for limit in (self.measure.at_least, self.measure.at_most)
        )
        return low, high

    def wear(self, hours_per_day: float | None = None, hours_now: float | None = None) -> Wear | None:
        """What the readings foretell; None where no hour meter was read, or what is measured is no wear."""
        points = [
            WearPoint(one.hours, Reading(one.value, one.plus_minus), date.fromisoformat(one.day), one.renewed)
            for one in self.points
            if one.hours is not None
        ]
        if not points or (self.measure and not self.measure.wear and self.measure.attribute not in WEARING):
            return None
        low, high = self.limits
        if low is not None and high is not None:
            return None
        latest = max(point.hours for point in points)
        now = hours_now if hours_now is not None and hours_now >= latest else None
        return wear(
            points, at_least=low, at_most=high, unit=self.unit, hours_per_day=hours_per_day, hours_now=now
        )


def series_of(walked: Sequence[Walked], sense: Sense, least: int = 2) -> list[Series]:
    """The series of a unit with readings of at least ``least`` walks, in the order in which they began."""
    found: dict[tuple[str, ...], list[tuple[Walked, Measured]]] = {}
    for walk in walked:
        for one in walk.measured:
            if one.unit not in COUNTED and one.line != HOUR_METER:
                measure = _measure(one, sense)
                name = measure.attribute if measure else one.attribute
                key = (one.line, one.side, one.unit_si, name or f"of {one.part}")
                found.setdefault(key, []).append((walk, one))
    return [
        _series(readings, sense)
        for readings in found.values()
        if len({walk.folder for walk, _ in readings}) >= least
    ]


def _measure(one: Measured, sense: Sense) -> Measure | None:
    """What was measured, as the vocabulary knows it: told by its name, else the only one of its dimension."""
    known = sense.measures(one.line)
    if one.attribute:
        return next((m for m in known if m.attribute == one.attribute), None)
    quantity = quantities().get(one.unit)
    fitting = [m for m in known if m.unit == one.unit or (quantity and quantities().get(m.unit) == quantity)]
    return fitting[0] if len(fitting) == 1 else None


@lru_cache(maxsize=1)
def quantities() -> dict[str, str]:
    """What each unit measures: length, pressure ..."""
    return {unit.name: unit.quantity for table in shared_tables("units.toml", Units) for unit in table.unit}


def _series(readings: Sequence[tuple[Walked, Measured]], sense: Sense) -> Series:
    last = readings[-1][1]
    measure = _measure(last, sense)
    points = tuple(point for walk, one in readings if (point := _point(walk, one, last.unit)))
    attribute = measure.attribute if measure else last.attribute
    return Series(last.line, last.side, last.part, attribute, last.unit, last.unit_si, points, measure)


def _point(walk: Walked, one: Measured, unit: str) -> Point | None:
    """The reading in another unit; None where it cannot be turned into that."""
    value = Reading(one.value, one.plus_minus)
    if one.unit != unit:
        try:
            value = convert(value, one.unit, unit).result
        except SumError:
            return None
    return Point(walk.day, walk.hours, value.value, value.plus_minus, one.judged, one.renewed, walk.folder)
