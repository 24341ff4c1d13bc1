"""A reading with what its words leave open: the number that goes into every sum.

The half width is a bound, not a standard deviation: "seventeen millimetres" is 17 ± 0.5, the true value
lies between 16.5 and 17.5. Sums carry bounds through by their ends, which is exact where the sum only
rises or only falls with the reading, and all of them do.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from saycheck.errors import SumError


@dataclass(frozen=True)
class Reading:
    """A value and half the width that its words leave open, both in the unit that the sum names."""

    value: float
    plus_minus: float = 0.0

    def __post_init__(self) -> None:
        if not (math.isfinite(self.value) and math.isfinite(self.plus_minus) and self.plus_minus >= 0):
            raise SumError(
                f"a reading of {self.value:g} ± {self.plus_minus:g} is no number to reckon with; "
                "give a finite value and a half width of 0 or more"
            )

    @property
    def low(self) -> float:
        """The least it can be."""
        return self.value - self.plus_minus

    @property
    def high(self) -> float:
        """The most it can be."""
        return self.value + self.plus_minus

    @classmethod
    def between(cls, low: float, high: float) -> "Reading":
        """The reading whose ends these are, in either order."""
        return cls((low + high) / 2, abs(high - low) / 2)


Amount = Reading | float
"""What sums take: a reading, or a plain number that leaves nothing open."""


def reading(amount: Amount) -> Reading:
    """The amount as a reading."""
    return amount if isinstance(amount, Reading) else Reading(float(amount))


@dataclass(frozen=True)
class Span:
    """The value that a sum gives, and the ends between which it lies for all that the readings leave open."""

    value: float
    low: float
    high: float


def carried(sum_of: Callable[[float], float], amount: Amount) -> Span:
    """A sum that only rises or only falls with one reading, worked out for the reading and both its ends."""
    at = reading(amount)
    ends = (sum_of(at.low), sum_of(at.high))
    return Span(sum_of(at.value), min(ends), max(ends))


def require(name: str, amount: Amount, low: float, high: float, unit: str = "", hint: str = "") -> Reading:
    """The amount as a reading; a :class:`SumError` where an end of it lies outside ``low`` to ``high``."""
    at = reading(amount)
    if at.low < low or at.high > high:
        unit = f" {unit}" if unit else ""
        said = f"{at.value:g}" + (f" ± {at.plus_minus:g}" if at.plus_minus else "") + unit
        if math.isinf(high):
            span = f"{low:g}{unit} up"
        elif math.isinf(low):
            span = f"anything up to {high:g}{unit}"
        else:
            span = f"{low:g} to {high:g}{unit}"
        raise SumError(
            f"{name} of {said} is outside {span}, where this sum holds; {hint or 'check the number'}"
        )
    return at
