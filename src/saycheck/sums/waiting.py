"""Now against later: what doing a job now costs, what waiting costs, and when waiting pays.

Formulas: a way of doing the job costs parts and labour + hours down · (crew + machine an hour). Doing it now
costs N; waiting costs p · U + (1 − p) · L with p the chance that it fails in the period, U the cost when it
fails and L the cost at the end of the period when it does not. Waiting pays while p is below the break-even
chance (N − L) / (U − L), held to 0 to 1. With L = 0 this is the cost-loss ratio of Murphy 1977.
Units: any one money, hours; chances as shares of 1. Range: costs and hours of 0 or more; money only.
L matters: a job that has to be done anyway costs as much later, and then waiting gains only what the machine
would stand idle now; give L = 0 only where the job then goes away or costs nothing more.
Sources: Murphy 1977, Mon. Weather Rev. 105, 803–816 (from memory); a tornado's rows after Clemen, Making Hard
Decisions (from memory).
"""

import itertools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields

from saycheck.errors import SumError
from saycheck.sums.reading import Amount, Reading, Span, require
from saycheck.sums.wording import number, percent, spread

CAUTION = (
    "This reckons with money alone. Where a failure can hurt somebody it is no sum: make it safe or take it out of "
    "work first."
)
GUESSED = 0.25
"""Half width, as a share, that the tornado gives a number said without any; common practice, no source."""
ANY_MONEY = 1e12

NAMES = {
    "now_cost": "parts and labour now",
    "now_hours": "hours down now",
    "later_cost": "parts and labour later",
    "later_hours": "hours down later",
    "failed_cost": "parts and labour after a failure",
    "failed_hours": "hours down after a failure",
    "crew_per_h": "idle crew an hour",
    "machine_per_h": "idle machine an hour",
    "chance": "chance of failure",
}


@dataclass(frozen=True)
class Job:
    """What one way of doing the job costs: parts and labour, and the hours that crew and machine stand idle."""

    cost: Amount
    hours_down: Amount = 0.0


@dataclass(frozen=True)
class TornadoRow:
    """How far one number moves the verdict: cost of waiting less cost of doing it now, at both its ends.

    ``guessed`` is true where the number was given without a width and ±25 % stood in for it.
    """

    name: str
    low_input: float
    high_input: float
    at_low: float
    at_high: float
    guessed: bool

    @property
    def swing(self) -> float:
        """The length of its bar."""
        return abs(self.at_high - self.at_low)


@dataclass(frozen=True)
class Waiting:
    """Expected costs of both ways, the break-even chance and the rows of a tornado plot, longest first."""

    now: Span
    waiting: Span
    chance: Reading
    break_even: Span
    period: str
    rows: tuple[TornadoRow, ...]
    money: str = ""
    caution: str = CAUTION

    @property
    def verdict(self) -> str:
        """``now``, ``wait``, or ``too close to call`` where the numbers leave either open."""
        if self.chance.low > self.break_even.high or self.break_even.high <= 0:
            return "now"
        if self.chance.high < self.break_even.low or self.break_even.low >= 1:
            return "wait"
        return "too close to call"

    @property
    def difference(self) -> float:
        """What waiting is expected to cost more (above 0) or less than doing it now."""
        return self.waiting.value - self.now.value

    @property
    def plainly(self) -> str:
        """Two sentences for the foreman."""
        costs = (
            f"Doing it now costs {spread(self.now, self.money)}; waiting until {self.period} is expected to cost "
            f"{spread(self.waiting, self.money)}."
        )
        return f"{self._when()} {costs}"

    def _when(self) -> str:
        if self.break_even.value <= 0:
            return "Waiting does not pay at any chance of failure."
        if self.break_even.value >= 1:
            return f"Waiting pays even if it fails before {self.period}."
        ends = ""
        if percent(self.break_even.low) != percent(self.break_even.high):
            ends = f" ({number(100 * self.break_even.low, 2)} to {number(100 * self.break_even.high, 2)})"
        verdict = {
            "now": "so do it now",
            "wait": "so it can wait",
            "too close to call": "too close to call",
        }[self.verdict]
        return (
            f"Waiting pays only if the chance of failure before {self.period} is below "
            f"{percent(self.break_even.value)}{ends}; it is put at {_chance(self.chance)}, {verdict}."
        )


@dataclass(frozen=True)
class _Inputs:
    now_cost: float
    now_hours: float
    later_cost: float
    later_hours: float
    failed_cost: float
    failed_hours: float
    crew_per_h: float
    machine_per_h: float
    chance: float


def now_or_later(
    *,
    now: Job,
    later: Job,
    failed: Job,
    crew_per_h: Amount,
    machine_per_h: Amount,
    chance: Amount,
    period: str = "the end of the period",
    money: str = "",
) -> Waiting:
    """Compare doing a job now with waiting; ``period`` completes "before …" ("spring"), ``money`` names the money.

    ``later`` is what the job still costs at the end of the period if nothing fails. Raises
    :class:`SumError` for costs or hours below nothing, a chance outside 0 to 1, and where a failure costs no
    more than the job later: then nothing is at stake.
    """
    given = {
        "now_cost": now.cost, "now_hours": now.hours_down, "later_cost": later.cost,
        "later_hours": later.hours_down, "failed_cost": failed.cost, "failed_hours": failed.hours_down,
        "crew_per_h": crew_per_h, "machine_per_h": machine_per_h,
    }  # fmt: skip
    at = {name: require(NAMES[name], value, 0, ANY_MONEY) for name, value in given.items()}
    at["chance"] = require("a chance of failure", chance, 0, 1, hint="give it as a share, 0.07 for 7 %")
    middle = _inputs({name: one.value for name, one in at.items()})
    if _failed(middle) <= _later(middle):
        raise SumError(
            f"a failure at {_failed(middle):g} costs no more than the job later at {_later(middle):g}, so nothing is "
            "at stake; count the hours down and the idle crew as well"
        )
    corners = [
        _inputs(dict(zip(at, values, strict=True))) for values in itertools.product(*_ends(at.values()))
    ]
    return Waiting(
        now=_spread(_now(middle), [_now(one) for one in corners]),
        waiting=_spread(_wait(middle), [_wait(one) for one in corners]),
        chance=at["chance"],
        break_even=_spread(_break_even(middle), [_break_even(one) for one in corners]),
        period=period,
        rows=_tornado(middle, at),
        money=money,
    )


def _tornado(middle: _Inputs, at: Mapping[str, Reading]) -> tuple[TornadoRow, ...]:
    rows = []
    for one in fields(_Inputs):
        given = at[one.name]
        guessed = given.plus_minus == 0
        low = given.value * (1 - GUESSED) if guessed else given.low
        high = given.value * (1 + GUESSED) if guessed else given.high
        if one.name == "chance":
            high = min(high, 1.0)
        ends = [_difference(_inputs({**vars(middle), one.name: value})) for value in (low, high)]
        rows.append(TornadoRow(NAMES[one.name], low, high, ends[0], ends[1], guessed))
    return tuple(sorted((row for row in rows if row.swing > 0), key=lambda row: -row.swing))


def _inputs(values: Mapping[str, float]) -> _Inputs:
    return _Inputs(**values)


def _ends(readings: Iterable[Reading]) -> list[tuple[float, ...]]:
    return [(one.low, one.high) if one.plus_minus else (one.value,) for one in readings]


def _idle(one: _Inputs, hours: float) -> float:
    return hours * (one.crew_per_h + one.machine_per_h)


def _now(one: _Inputs) -> float:
    return one.now_cost + _idle(one, one.now_hours)


def _later(one: _Inputs) -> float:
    return one.later_cost + _idle(one, one.later_hours)


def _failed(one: _Inputs) -> float:
    return one.failed_cost + _idle(one, one.failed_hours)


def _wait(one: _Inputs) -> float:
    return one.chance * _failed(one) + (1 - one.chance) * _later(one)


def _difference(one: _Inputs) -> float:
    return _wait(one) - _now(one)


def _break_even(one: _Inputs) -> float:
    at_stake = _failed(one) - _later(one)
    if at_stake <= 0:  # at this corner a failure costs no more than the job: only what is saved now counts
        return 1.0 if _now(one) > _later(one) else 0.0
    return min(max((_now(one) - _later(one)) / at_stake, 0.0), 1.0)


def _spread(value: float, others: list[float]) -> Span:
    return Span(value, min(others), max(others))


def _chance(chance: Reading) -> str:
    if not chance.plus_minus:
        return percent(chance.value)
    return f"{number(100 * chance.low, 2)} to {percent(chance.high)}"
