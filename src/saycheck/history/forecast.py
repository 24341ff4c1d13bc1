"""When a part that was measured reaches its published limit, as far as its readings foretell."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from saycheck.history.records import Walked
from saycheck.history.sense import Sense
from saycheck.history.trends import Series, series_of
from saycheck.sums.wear import Wear


@dataclass(frozen=True)
class Forecast:
    """A series with the day on which it meets its limit, the earliest such day, and the whole sentence."""

    series: Series
    wear: Wear
    day: str
    earliest: str | None

    @property
    def remaining_hours(self) -> float | None:
        """Hours left, None where there is no end to them."""
        span = self.wear.remaining_h
        return span.value if span and math.isfinite(span.value) else None


def forecasts_of(walked: Sequence[Walked], sense: Sense, hours_per_day: float | None) -> list[Forecast]:
    """What wears towards a published limit and on which day it is there, the soonest first.

    Nothing where the readings are too few or contradict each other, or where no limit is published.
    """
    now = next((walk.hours for walk in reversed(walked) if walk.hours is not None), None)
    found = []
    for series in series_of(walked, sense):
        if series.measure is None or (series.measure.at_least is None and series.measure.at_most is None):
            continue
        worn = series.wear(hours_per_day, now)
        if worn is None:
            continue
        if worn.outlook == "beyond the limit":
            found.append(Forecast(series, worn, series.points[-1].day, series.points[-1].day))
        elif worn.outlook == "foreseen" and worn.due[0] is not None:
            earliest = worn.due[1].isoformat() if worn.due[1] else None
            found.append(Forecast(series, worn, worn.due[0].isoformat(), earliest))
    return sorted(found, key=lambda one: one.day)
