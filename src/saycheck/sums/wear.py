"""How fast a part wears, from the history of its unit, and how long it lasts to its limit.

Formulas: rate = Theil–Sen slope of the readings over the hours, counted towards the limit; level now = the
line's value at the hours now, through the median of the readings; remaining = (level − limit) / rate. The
interval of the remaining hours takes the worst of both ends of the slope and of the level, each as sure as was
asked for; simulated histories hold it to that (tests). From three to five readings it is as sure as they allow,
which ``confidence`` tells. What the words leave open counts in full for the level, since one gauge and one eye
lean one way in all readings.
Units: hours and the unit of the readings. Range: 3 readings or more of one series, wear in a straight line;
what lies further ahead than the readings reach back is called rough.
Sources: Sen 1968 for the slope; the order statistics of the median (binomial) for the level.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from statistics import fmean, median
from typing import Literal

from saycheck.errors import SumError
from saycheck.sums.limits import check_limit
from saycheck.sums.reading import Span, require
from saycheck.sums.series import WearPoint, contradiction, latest_series
from saycheck.sums.theil_sen import Slope, theil_sen
from saycheck.sums.wear_words import plainly

__all__ = ["Wear", "WearPoint", "wear"]

Outlook = Literal[
    "foreseen", "beyond the limit", "no limit known", "no clear wear", "too few", "contradictory"
]
LEAST_POINTS = 3
FAR_DAYS = 36_500
CAUTION = (
    "A forecast from past wear: other ground, another operator or another material changes it. Measure again "
    "well before the day it names."
)


@dataclass(frozen=True)
class Wear:
    """Rate towards the limit in ``unit`` an hour, and remaining hours to the limit from ``hours_now``.

    ``rate`` is None without two readings; it counts as it rises where no limit is known. ``remaining_h`` is
    None where nothing can be foreseen; its ``high`` is infinite where the readings allow no wear at all.
    ``due`` are the expected, the earliest and the latest day (None: none can be named). ``why`` says what
    stands in the way of a forecast, ``confidence`` how sure the intervals are (0 to 1).
    """

    outlook: Outlook
    unit: str
    points: tuple[WearPoint, ...]
    at_least: float | None
    at_most: float | None
    hours_now: float | None
    rate: Span | None = None
    level: Span | None = None
    remaining_h: Span | None = None
    hours_per_day: float | None = None
    due: tuple[date | None, date | None, date | None] = (None, None, None)
    confidence: float = 0.0
    rough: bool = False
    why: str = ""
    caution: str = CAUTION

    @property
    def began(self) -> str:
        """Why this series began, in the words given: "part replaced"; empty for the first."""
        return self.points[0].renewed if self.points else ""

    @property
    def plainly(self) -> str:
        """One or two sentences for the foreman."""
        return plainly(self)


def wear(
    points: Sequence[WearPoint],
    *,
    at_least: float | None = None,
    at_most: float | None = None,
    unit: str = "mm",
    hours_per_day: float | None = None,
    hours_now: float | None = None,
    today: date | None = None,
    confidence: float = 0.95,
) -> Wear:
    """What the readings of a part foretell; ``today`` and ``hours_now`` are those of the last one unless given.

    Raises :class:`SumError` where both limits are given, for hours that cannot be, for more than 24 hours a
    day and for a confidence outside 0.5 to 0.999. Too few or contradictory readings are no error: the result
    says so.
    """
    if at_least is not None and at_most is not None:
        raise SumError(
            f"wear runs towards one limit, not to {at_least:g} and {at_most:g} {unit} both; give the one it nears"
        )
    require("a confidence", confidence, 0.5, 0.999)
    if hours_per_day is not None:
        require("a day's work", hours_per_day, 0.01, 24, "hours", "give hours on a usual day")
    series = latest_series(points)
    now = hours_now if hours_now is not None else (series[-1].hours if series else None)
    if series and now is not None and now < series[-1].hours:
        raise SumError(
            f"the hours now, {now:g}, lie before the last reading at {series[-1].hours:g} h; read the meter again"
        )
    known = Wear("too few", unit, tuple(series), at_least, at_most, now, hours_per_day=hours_per_day)
    toward = -1 if at_least is not None else 1
    if at_least is None and at_most is None:
        return _without_limit(known, confidence)
    last = check_limit(series[-1].value, at_least=at_least, at_most=at_most, unit=unit) if series else None
    against = contradiction(series, toward, unit)
    if against:
        return replace(known, outlook="contradictory", why=against)
    slope = _slope(series, confidence)
    if last and last.verdict == "beyond":
        rate = _toward(slope, toward) if slope else None
        return replace(known, outlook="beyond the limit", rate=rate, remaining_h=Span(0.0, 0.0, 0.0))
    if slope is None or len({point.hours for point in series}) < LEAST_POINTS:
        rate = _toward(slope, toward) if slope else None
        return replace(known, rate=rate, why=_too_few(len(series)))
    return _foreseen(known, slope, toward, today, confidence)


def _foreseen(known: Wear, slope: Slope, toward: int, today: date | None, confidence: float) -> Wear:
    series, now = known.points, known.hours_now
    limit = known.at_least if known.at_least is not None else known.at_most
    assert now is not None
    assert limit is not None
    rate = _toward(slope, toward)
    known = replace(known, rate=rate, confidence=min(slope.confidence, confidence))
    if rate.high <= 0:
        way = "fall" if toward > 0 else "rise"
        why = f"they {way}, away from the limit: was it measured at another place, or was the part replaced?"
        return replace(known, outlook="contradictory", why=why)
    level, sure = _level(series, slope.value, now, confidence)
    left = toward * (limit - level.value)
    ends = []
    for one in (slope.low, slope.high):
        at, _ = _level(series, one, now, confidence)
        ends += [_hours(toward * (limit - end), toward * one) for end in (at.low, at.high)]
    remaining = Span(_hours(left, rate.value), max(min(ends), 0.0), max(ends))
    reach = series[-1].hours - series[0].hours
    return replace(
        known,
        outlook="foreseen" if rate.low > 0 else "no clear wear",
        level=level,
        remaining_h=remaining,
        due=_due(remaining, known.hours_per_day, today or series[-1].on),
        confidence=min(known.confidence, sure),
        rough=remaining.value > reach,
        why="" if rate.low > 0 else "the readings show no wear beyond chance",
    )


def _without_limit(known: Wear, confidence: float) -> Wear:
    slope = _slope(known.points, confidence)
    if slope is None or len({point.hours for point in known.points}) < LEAST_POINTS:
        rate = _toward(slope, 1) if slope else None
        return replace(known, rate=rate, why=_too_few(len(known.points)))
    return replace(known, outlook="no limit known", rate=_toward(slope, 1), confidence=slope.confidence)


def _level(series: Sequence[WearPoint], slope: float, now: float, confidence: float) -> tuple[Span, float]:
    """The line's value at the hours now for one slope, with the interval of the median and how sure it is."""
    rank, sure = _median_rank(len(series), confidence)
    moved = sorted(point.value.value + slope * (now - point.hours) for point in series)
    middle, wide = median(moved), fmean(point.value.plus_minus for point in series)
    low, high = math.hypot(middle - moved[rank - 1], wide), math.hypot(moved[-rank] - middle, wide)
    return Span(middle, middle - low, middle + high), sure


def _median_rank(points: int, confidence: float) -> tuple[int, float]:
    """Which smallest and largest reading bound the median, and how sure that is."""
    rank, tail = 1, 1
    while rank < points // 2 and 1 - 2 * (tail + math.comb(points, rank)) / 2**points >= confidence:
        tail += math.comb(points, rank)
        rank += 1
    return rank, max(1 - 2 * tail / 2**points, 0.0)


def _slope(series: Sequence[WearPoint], confidence: float) -> Slope | None:
    # Hour meters tell tenths: readings nearer than a thousandth of an hour were made at the same hours.
    hours = [round(point.hours, 3) for point in series]
    if len(set(hours)) < 2:
        return None
    return theil_sen(hours, [point.value for point in series], confidence)


def _toward(slope: Slope, toward: int) -> Span:
    low, high = sorted((toward * slope.low, toward * slope.high))
    return Span(toward * slope.value, low, high)


def _hours(left: float, rate: float) -> float:
    """Hours until so much is worn; without end where nothing wears."""
    if left <= 0:
        return 0.0
    return left / rate if rate > 0 else math.inf


def _due(
    remaining: Span, hours_per_day: float | None, start: date | None
) -> tuple[date | None, date | None, date | None]:
    def day(hours: float) -> date | None:
        if hours_per_day is None or start is None or not hours / hours_per_day < FAR_DAYS:
            return None
        return start + timedelta(days=math.floor(hours / hours_per_day))

    return day(remaining.value), day(remaining.low), day(remaining.high)


def _too_few(points: int) -> str:
    if points == 0:
        return "there is none yet"
    many = "one gives" if points == 1 else f"{points} give"
    return f"{many} nothing to check a forecast by; {LEAST_POINTS} at different hours are the least"
