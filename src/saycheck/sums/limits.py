"""A measurement against a limit: within, beyond, or too close to call.

Rule: *within* only where every value that the words leave open keeps the limit, *beyond* only where none
does, else *too close to call*: measure again, finer. A value on the limit keeps it. Any unit, the same for
reading and limit.

Source: the decision rule of ISO 14253-1 and of JCGM 106:2012, with the half width as the uncertainty and no
further guard band (both from memory).
"""

import math
from dataclasses import dataclass
from typing import Literal

from saycheck.errors import SumError
from saycheck.sums.reading import Amount, Reading, reading
from saycheck.sums.wording import amount, said

Verdict = Literal["within", "beyond", "too close to call"]


@dataclass(frozen=True)
class LimitCheck:
    """What a limit says of a reading; ``margin`` is how far within (above 0) or beyond the nearest limit it is.

    ``margin``, ``at_least``, ``at_most`` and the reading are in ``unit``.
    """

    verdict: Verdict
    reading: Reading
    unit: str
    at_least: float | None
    at_most: float | None
    margin: float
    source: str = ""
    caution: str = ""

    @property
    def limit(self) -> str:
        """The limit in words: "at least 10 mm"."""
        if self.at_least is not None and self.at_most is not None:
            return f"{amount(self.at_least, '', 6)} to {amount(self.at_most, self.unit, 6)}"
        if self.at_least is not None:
            return f"at least {amount(self.at_least, self.unit, 6)}"
        return f"at most {amount(self.at_most or 0.0, self.unit, 6)}"

    @property
    def plainly(self) -> str:
        """One sentence for the foreman."""
        source = f" ({self.source})" if self.source else ""
        words = f"{said(self.reading, self.unit)} against {self.limit}{source}"
        if self.verdict == "too close to call":
            return f"Too close to call: {words}: measure again, finer."
        return f"{self.verdict.capitalize()} the limit by {amount(abs(self.margin), self.unit)}: {words}."


def check_limit(
    value: Amount,
    *,
    at_least: float | None = None,
    at_most: float | None = None,
    unit: str = "",
    source: str = "",
) -> LimitCheck:
    """Hold a reading against ``at_least``, ``at_most`` or both, all in ``unit``.

    Raises :class:`SumError` without a limit and where the least allowed is above the most.
    """
    at = reading(value)
    limits = [limit for limit in (at_least, at_most) if limit is not None]
    if not limits or not all(math.isfinite(limit) for limit in limits):
        raise SumError(
            f"there is no limit to hold {said(at, unit)} against; look it up in the maker's manual"
        )
    if at_least is not None and at_most is not None and at_least > at_most:
        raise SumError(
            f"a limit of at least {at_least:g} and at most {at_most:g} {unit} can never be kept; check it"
        )
    least = at_least if at_least is not None else -math.inf
    most = at_most if at_most is not None else math.inf
    verdict: Verdict = "too close to call"
    if least <= at.low and at.high <= most:
        verdict = "within"
    elif at.high < least or most < at.low:
        verdict = "beyond"
    margin = min(at.value - least, most - at.value)
    return LimitCheck(verdict, at, unit, at_least, at_most, margin, source)
