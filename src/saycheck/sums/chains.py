"""Elongation of a lift or drive chain in percent.

Formula: elongation = 100 · (length − new length) / new length, the new length being links times pitch,
measured under light load over as many links as can be reached. Units: mm in, percent out. Range: new length
50 to 20,000 mm, elongation up to 10 %. Limits of a leaf (lift) chain: from 2 % a competent person sets the
day of replacement, from 3 % it is replaced at once; supplier and machine makers' manuals, no standard's
clause read; the truck maker's own limit may be 2 %. Other chains: the maker's manual.
"""

from dataclasses import dataclass

from saycheck.errors import SumError
from saycheck.sums.limits import LimitCheck, check_limit
from saycheck.sums.reading import Amount, Reading, Span, require
from saycheck.sums.wording import number, said, spread

SOURCE = "chain suppliers' and machine makers' manuals"
DISCARD_PERCENT = 3.0
WATCH_PERCENT = 2.0
CAUTION = (
    "Lower and block the load and lock the machine out before you measure; keep hands out of chains and "
    "sheaves. Both chains of a pair are replaced together."
)


@dataclass(frozen=True)
class ChainWear:
    """Elongation of a chain in percent, held against ``limit_percent``; lengths in mm."""

    length_mm: Reading
    new_mm: float
    elongation_percent: Span
    check: LimitCheck
    watch_percent: float
    source: str
    caution: str = CAUTION

    @property
    def watch(self) -> bool:
        """Whether it may have reached the point at which a competent person sets the day of replacement."""
        return self.elongation_percent.high >= self.watch_percent

    @property
    def plainly(self) -> str:
        """One sentence for the foreman."""
        words = {
            "within": "within the limit",
            "beyond": "beyond the limit: replace the chains before the next lift",
            "too close to call": "too close to call: measure again, over more links",
        }
        told = words[self.check.verdict]
        if self.check.verdict == "within" and self.watch:
            told += ", but a competent person should now set the day of replacement"
        limit = number(self.check.at_most or 0.0)
        return (
            f"The chain has grown {spread(self.elongation_percent, '%', 2)} ({said(self.length_mm, 'mm')} for "
            f"{number(self.new_mm, 5)} mm new), against a limit of {limit} %: {told}."
        )


def chain_wear(
    length_mm: Amount,
    new_mm: float,
    *,
    limit_percent: float = DISCARD_PERCENT,
    watch_percent: float = WATCH_PERCENT,
    source: str = SOURCE,
) -> ChainWear:
    """Elongation from a measured length and the new length (links times pitch), both in mm.

    Raises :class:`SumError` outside the range above, and for a chain shorter than new by more than the
    reading leaves open.
    """
    new = require("a new chain length", new_mm, 50, 20_000, "mm", "it is links times pitch").value
    now = require("a chain length", length_mm, 0, 1.1 * new, "mm", "count the links again")
    if now.high < new:
        raise SumError(
            f"a chain of {said(now, 'mm')} is shorter than its {number(new, 6)} mm when new; count the links again"
        )
    grown = Span(*(100 * (one - new) / new for one in (now.value, now.low, now.high)))
    check = check_limit(
        Reading.between(grown.low, grown.high), at_most=limit_percent, unit="%", source=source
    )
    return ChainWear(now, new, grown, check, min(watch_percent, limit_percent), source)
