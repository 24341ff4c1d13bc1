"""What a wear forecast says in plain words."""

import math
from datetime import date
from typing import TYPE_CHECKING

from saycheck.sums.reading import Span
from saycheck.sums.wording import amount, number, percent, spread

if TYPE_CHECKING:
    from saycheck.sums.wear import Wear


def plainly(result: "Wear") -> str:
    """One or two sentences for the foreman."""
    since = f" since {result.began}" if result.began else ""
    many = len(result.points)
    if result.outlook == "beyond the limit":
        return f"Beyond the limit of {_limit(result)} now{_at_rate(result)}."
    if result.outlook == "contradictory":
        return f"The readings contradict each other: {result.why.rstrip('.')}{'' if result.why.endswith('?') else '.'}"
    if result.outlook == "too few":
        return f"Too few readings{since} to foresee anything: {result.why}{_at_rate(result)}."
    assert result.rate is not None
    if result.outlook == "no limit known":
        way = "Rises" if result.rate.value > 0 else "Falls"
        turned = result.rate if result.rate.value > 0 else _turned(result.rate)
        return (
            f"{way} {_per_hundred(turned, result.unit)}{since}, from {many} readings; without a limit nothing can "
            "be foreseen: look it up in the maker's manual."
        )
    assert result.remaining_h is not None
    sure = f"from {many} readings{since}, at least {percent(result.confidence)} sure"
    if result.outlook == "no clear wear":
        early = result.remaining_h.low
        least = f"; at worst the limit comes after {amount(early, 'h', 2)}" if math.isfinite(early) else ""
        return f"No clear wear towards {_limit(result)}, {sure}{least}: measure again."
    rough = " Rough: this looks further ahead than the readings reach back." if result.rough else ""
    return (
        f"Wears {_per_hundred(result.rate, result.unit)}; about {_hours(result.remaining_h)} left to "
        f"{_limit(result)}{_days(result)} ({sure}).{rough}"
    )


def _limit(result: "Wear") -> str:
    if result.at_least is not None:
        return f"at least {amount(result.at_least, result.unit, 6)}"
    return f"at most {amount(result.at_most or 0.0, result.unit, 6)}"


def _at_rate(result: "Wear") -> str:
    if result.rate is None or result.rate.value <= 0:
        return ""
    return f"; so far {amount(100 * result.rate.value, result.unit, 2)} per 100 h"


def _turned(span: Span) -> Span:
    return Span(-span.value, -span.high, -span.low)


def _per_hundred(span: Span, unit: str) -> str:
    per = Span(100 * span.value, 100 * span.low, 100 * span.high)
    return f"{spread(per, unit, 2)} per 100 h"


def _hours(span: Span) -> str:
    low, high = number(span.low, 2), number(span.high, 2)
    return f"{number(span.value, 2)} h ({low} to {high})"


def _days(result: "Wear") -> str:
    expected, early, late = result.due
    if expected is None:
        return ""
    ends = ""
    if early is not None:
        ends = (
            f" ({_day(early)} to {_day(late)})" if late is not None else f" ({_day(early)} at the earliest)"
        )
    return f", around {_day(expected)}{ends} at {number(result.hours_per_day or 0.0)} h a day"


def _day(on: date) -> str:
    return f"{on.day} {on:%B %Y}"
