"""A reversible edge: the last thickness at which reversing keeps the second life, and what missing it costs.

A bolt-on edge wears on one side; turned in time, its other side lives as long again. Worn past the point up to
which it may be reversed, the second life is lost.

Formulas: last thickness = reversing point + rate · hours to the next look; hours left = (thickness − reversing
point) / rate; one life L = (new − reversing point) / rate; cost per hour when reversed in time
= (edge + fitting + reversing) / (2 L), when missed = (edge + fitting) / ((new − worn out) / rate), worn out being
where the missed side must come off. The difference is what missing it costs. Units: mm of whatever the maker
measures (thickness or what stands out below the base), hours, any money. Range: both sides alike, wear in a
straight line, rate above nothing. The reversing point is the maker's; none is shipped.
Source: plain arithmetic; the practice of reversing before the base edge wears is that of the trade, no source.
"""

from dataclasses import dataclass, replace
from typing import Literal

from saycheck.errors import SumError
from saycheck.sums.reading import Amount, Reading, Span, reading, require
from saycheck.sums.wording import amount, number, said, spread

When = Literal["not yet", "reverse now", "missed", "too close to call"]
CAUTION = (
    "Lower the attachment onto blocks, stop the engine, lock it out and relieve the pressure before anybody goes "
    "under or in front of it; an edge is heavy and sharp: lift it with gear, fit new bolts to the maker's torque."
)
ANY_MONEY = 1e12


@dataclass(frozen=True)
class EdgeCosts:
    """What an edge, fitting it and reversing it cost, in one money; crew and idle machine included."""

    edge: float
    fitting: float
    reversing: float
    money: str = ""

    def __post_init__(self) -> None:
        for name in ("edge", "fitting", "reversing"):
            require(f"a cost of {name}", getattr(self, name), 0, ANY_MONEY, "")


@dataclass(frozen=True)
class ReversibleEdge:
    """When to reverse; mm and hours. Costs an hour are None where no costs were given.

    ``last_mm`` is the thickness below which the next look may come too late. ``missing_costs_per_h`` below 0
    means that reversing does not pay.
    """

    thickness_mm: Reading
    reverse_by_mm: float
    last_mm: float
    rate_mm_per_h: Span
    next_look_h: float
    when: When
    left_h: Span
    life_h: Span
    in_time_per_h: Span | None = None
    missed_per_h: Span | None = None
    missing_costs_per_h: Span | None = None
    money: str = ""
    caution: str = CAUTION

    @property
    def plainly(self) -> str:
        """One or two sentences for the foreman."""
        at = said(self.thickness_mm, "mm")
        last = f"the last thickness to reverse it at is {amount(self.last_mm, 'mm')}"
        point = amount(self.reverse_by_mm, "mm")
        told = {
            "not yet": f"Not yet: {at} now, {last}, about {spread(self.left_h, 'h', 2)} from its reversing point",
            "reverse now": f"Reverse the edge now: {at}, and {last}; by the next look it may be too late",
            "missed": f"Too late to reverse: {at} is below {point}; the second life is lost",
            "too close to call": f"Too close to call: {at} against {point}: measure again, finer",
        }[self.when]
        return f"{told}.{self._money()}"

    def _money(self) -> str:
        if self.missing_costs_per_h is None:
            return ""
        if self.missing_costs_per_h.value <= 0:
            return " At these costs reversing does not pay: wear the edge out and replace it."
        verb = "costs" if self.when == "missed" else "would cost"
        return (
            f" Missing it {verb} {spread(self.missing_costs_per_h, self.money, 2)} an hour, "
            f"{amount(self.missing_costs_per_h.value * self.life_h.value, self.money, 2)} over one life."
        )


def reversible_edge(
    thickness_mm: Amount,
    *,
    new_mm: float,
    reverse_by_mm: float,
    rate_mm_per_h: Span | Amount,
    next_look_h: float,
    worn_out_mm: float | None = None,
    costs: EdgeCosts | None = None,
) -> ReversibleEdge:
    """When to reverse an edge, from its thickness now and its wear rate (``Wear.rate`` or a reading).

    ``next_look_h`` are the hours until somebody measures again; ``worn_out_mm`` is where a missed side has to
    come off, the reversing point unless given. Raises :class:`SumError` for sizes in the wrong order and for a
    rate that may be nothing.
    """
    rate = _span(rate_mm_per_h)
    if not 0 < rate.low <= rate.value <= rate.high:
        raise SumError(
            f"a wear rate of {number(100 * rate.low)} to {number(100 * rate.high)} mm per 100 h cannot be reckoned "
            "with; it must be above nothing: measure more often"
        )
    worn_out = reverse_by_mm if worn_out_mm is None else worn_out_mm
    if not 0 <= worn_out <= reverse_by_mm < new_mm:
        raise SumError(
            f"worn out at {worn_out:g} mm, reversed at {reverse_by_mm:g} mm and new at {new_mm:g} mm do not follow "
            "each other; look them up in the maker's manual"
        )
    hint = "measure where the new edge was measured"
    at = require("an edge thickness", thickness_mm, 0, new_mm * 1.05, "mm", hint)
    look = require("the hours to the next look", next_look_h, 0, 10_000, "h").value
    last = reverse_by_mm + rate.high * look
    known = ReversibleEdge(
        thickness_mm=at,
        reverse_by_mm=reverse_by_mm,
        last_mm=min(last, new_mm),
        rate_mm_per_h=rate,
        next_look_h=look,
        when=_when(at, reverse_by_mm, last),
        left_h=Span(
            max(at.value - reverse_by_mm, 0) / rate.value,
            max(at.low - reverse_by_mm, 0) / rate.high,
            max(at.high - reverse_by_mm, 0) / rate.low,
        ),
        life_h=_over(new_mm - reverse_by_mm, rate),
    )
    return known if costs is None else _with_costs(known, costs, new_mm, worn_out)


def _with_costs(known: ReversibleEdge, costs: EdgeCosts, new_mm: float, worn_out_mm: float) -> ReversibleEdge:

    in_time = (costs.edge + costs.fitting + costs.reversing) / (2 * (new_mm - known.reverse_by_mm))
    missed = (costs.edge + costs.fitting) / (new_mm - worn_out_mm)
    return replace(
        known,
        in_time_per_h=_times(in_time, known.rate_mm_per_h),
        missed_per_h=_times(missed, known.rate_mm_per_h),
        missing_costs_per_h=_times(missed - in_time, known.rate_mm_per_h),
        money=costs.money,
    )


def _when(at: Reading, reverse_by_mm: float, last_mm: float) -> When:
    if at.high < reverse_by_mm:
        return "missed"
    if at.low < reverse_by_mm:
        return "too close to call"
    return "reverse now" if at.low < last_mm else "not yet"


def _span(rate: Span | Amount) -> Span:
    if isinstance(rate, Span):
        return rate
    at = reading(rate)
    return Span(at.value, at.low, at.high)


def _over(length: float, rate: Span) -> Span:
    return Span(length / rate.value, length / rate.high, length / rate.low)


def _times(factor: float, rate: Span) -> Span:
    ends = sorted((factor * rate.low, factor * rate.high))
    return Span(factor * rate.value, ends[0], ends[1])
