"""At what age to replace a part before it fails, where its life is known.

Policy: replace at failure or at age T, whichever comes first. Cost an hour in the long run:
C(T) = (Cp · R(T) + Cf · (1 − R(T))) / ∫₀ᵀ R, with Cp the cost of a planned replacement and Cf that of a failure.
The best age solves h(T) · ∫₀ᵀ R + R(T) = Cf / (Cf − Cp); its left side only rises where the part wears (shape above
1), else there is no such age and the part runs to failure.
Units: hours, any one money. Range: Weibull life (see weibull.py), Cf above Cp, a new part as good as the first.
Source: Barlow and Hunter 1960, Operations Research 8, 90–100 (from memory).
"""

import itertools
import math
from dataclasses import dataclass

from saycheck.errors import SumError
from saycheck.sums.reading import Amount, Reading, Span, carried, require
from saycheck.sums.weibull import SHAPES, Weibull
from saycheck.sums.wording import amount, number, percent

NEAR = 1.05
"""Ages that cost at most this share of the least are called near enough."""
ANY_MONEY = 1e12
CAUTION = (
    "A life is that of parts of one kind at one kind of work. Where a failure can hurt somebody the maker's interval "
    "holds, whatever money says."
)


@dataclass(frozen=True)
class AgeReplacement:
    """The best age to replace at, in hours, and what it costs an hour against running to failure.

    ``best_age_h`` is None where running to failure is cheapest; its ``high`` is infinite where the readings
    allow that. ``near_h`` are the ages between which it costs at most 5 % more.
    """

    life: Weibull
    planned_cost: Reading
    failure_cost: Reading
    best_age_h: Span | None
    near_h: tuple[float, float] | None
    cost_per_h: float
    to_failure_per_h: float
    money: str = ""
    caution: str = CAUTION

    @property
    def saved(self) -> float:
        """The share of the cost of running to failure that is saved."""
        return 1 - self.cost_per_h / self.to_failure_per_h

    @property
    def plainly(self) -> str:
        """One or two sentences for the foreman."""
        run = amount(self.to_failure_per_h, self.money)
        if self.best_age_h is None or self.near_h is None:
            why = "does not wear out" if self.life.shape <= 1 else "hardly wears out"
            return (
                f"No age to replace it at: it {why} (Weibull shape {number(self.life.shape, 2)}), so running it to "
                f"failure is cheapest, {run} an hour."
            )
        low, high = number(self.best_age_h.low, 2), number(self.best_age_h.high, 2)
        ends = "" if low == high else f" ({low} to {high})"
        fails = percent(1 - self.life.survival(self.best_age_h.value))
        cost = amount(self.cost_per_h, self.money)
        early, late = (number(age, 2) for age in self.near_h)
        return (
            f"Replace it at {number(self.best_age_h.value, 2)} h{ends}: that costs {cost} an hour against {run} when "
            f"run to failure, {percent(self.saved)} less, and {fails} still fail before. Anything from {early} to "
            f"{late} h costs at most 5 % more."
        )


def cost_per_hour(life: Weibull, planned_cost: float, failure_cost: float, age_h: float) -> float:
    """The long-run cost an hour when the part is replaced at an age (infinite: run to failure)."""
    if math.isinf(age_h):
        return failure_cost / life.mean_h
    left: float = life.survival(age_h)
    return (planned_cost * left + failure_cost * (1 - left)) / life.mean_up_to(age_h)


def best_age(life: Weibull, planned_cost: float, failure_cost: float) -> float:
    """The age in hours that costs least; infinite where running to failure does."""
    if life.shape <= 1:
        return math.inf
    goal = failure_cost / (failure_cost - planned_cost)
    low, high = 0.0, life.end_h

    def rises(age: float) -> float:
        return life.hazard(age) * life.mean_up_to(age) + life.survival(age)

    if rises(high) < goal:
        return math.inf
    while high - low > 1e-12 * high:
        middle = (low + high) / 2
        low, high = (low, middle) if rises(middle) > goal else (middle, high)
    return (low + high) / 2


def age_replacement(
    planned_cost: Amount,
    failure_cost: Amount,
    *,
    shape: Amount | Span,
    scale_h: Amount | Span,
    money: str = "",
) -> AgeReplacement:
    """The best age to replace a part at, from the costs and its Weibull life.

    All carry what they leave open; a fit (weibull.py) gives shape and scale as spans.

    Raises :class:`SumError` for costs of 0 or less, and where a failure may cost no more than the planned job.
    """
    planned = require("a planned cost", planned_cost, 1e-9, ANY_MONEY)
    failure = require("a cost of failure", failure_cost, 1e-9, ANY_MONEY)
    if failure.low <= planned.high:
        raise SumError(
            f"a failure at {failure.value:g} that costs no more than the planned job at {planned.value:g} needs no "
            "planning; count the hours down and the idle crew as well"
        )
    shapes, scales = _span(shape), _span(scale_h)
    for end in (shapes.low, shapes.high):
        require("a Weibull shape", end, *SHAPES)
    for end in (scales.low, scales.high):
        require("a Weibull scale", end, 1e-6, 1e9, "h")
    life = Weibull(shapes.value, scales.value)
    best = best_age(life, planned.value, failure.value)
    corners = [
        best_age(Weibull(b, s), p, f)
        for b, s, p, f in itertools.product(*((x.low, x.high) for x in (shapes, scales, planned, failure)))
    ]
    finite = not math.isinf(best)
    return AgeReplacement(
        life,
        planned,
        failure,
        Span(best, min(corners), max(corners)) if finite else None,
        _near(life, planned.value, failure.value, best) if finite else None,
        cost_per_hour(life, planned.value, failure.value, best),
        cost_per_hour(life, planned.value, failure.value, math.inf),
        money,
    )


def _span(amount: Amount | Span) -> Span:
    return amount if isinstance(amount, Span) else carried(lambda value: value, amount)


def _near(life: Weibull, planned: float, failure: float, best: float) -> tuple[float, float]:
    """The ages on both sides of the best at which it costs 5 % more; infinite where it never does."""
    most = NEAR * cost_per_hour(life, planned, failure, best)

    def reach(outside: float) -> float:
        inside = best
        while abs(outside - inside) > 1e-9 * best:
            middle = (inside + outside) / 2
            if cost_per_hour(life, planned, failure, middle) <= most:
                inside = middle
            else:
                outside = middle
        return inside

    end = life.end_h
    later = math.inf if cost_per_hour(life, planned, failure, end) <= most else reach(end)
    return reach(best * 1e-9), later
