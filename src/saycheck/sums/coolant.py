"""Freeze point of ethylene or propylene glycol in water, against the coldest day of the site.

Formula: between the rows of the table below, straight lines. Units: percent by volume, °C. Range: 10 to 60 %
by volume, plain glycol in water; above that the freeze point of ethylene glycol rises again. Source: the
volume-based curves of the ASHRAE Handbook Fundamentals as CoolProp 8.0 (fluids AEG and APG) gives them, every
5 %, rounded to 0.1 °C; straight lines are off by less than 0.25 °C. Sources differ: for propylene glycol Lange's
Handbook of Chemistry (15th edition, table 5.13) is up to 1.4 °C warmer and Melinder 2010 up to 2.0 °C, for
ethylene glycol Melinder is up to 2.2 °C colder; inhibited products differ as well. So 2 °C each way is left open.
"""

from bisect import bisect_right
from dataclasses import dataclass
from typing import Literal

from saycheck.errors import SumError
from saycheck.sums.limits import LimitCheck, check_limit
from saycheck.sums.reading import Amount, Reading, Span, reading, require
from saycheck.sums.wording import number, said, spread

Glycol = Literal["ethylene", "propylene"]

PERCENT = (10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60)
FREEZE_C: dict[Glycol, tuple[float, ...]] = {
    "ethylene": (-3.6, -6.1, -9.0, -12.1, -15.7, -19.9, -24.8, -30.5, -37.1, -44.4, -52.0),
    "propylene": (-3.4, -5.2, -7.4, -10.0, -13.1, -16.9, -21.5, -27.0, -33.7, -41.6, -51.1),
}
LEFT_OPEN_C = 2.0
CAUTION = (
    "Open a cooling system only when it is cold: hot coolant is under pressure and scalds. Glycol poisons people "
    "and animals; catch it. The coolant maker's own table and the engine maker's mixture come first."
)


@dataclass(frozen=True)
class FreezeProtection:
    """The freeze point of a mixture in °C, held against the coldest day in °C; percent by volume."""

    glycol: Glycol
    percent: Reading
    freeze_c: Span
    coldest_c: float
    check: LimitCheck
    needed_percent: float | None
    source: str = "ASHRAE Handbook Fundamentals, by CoolProp 8.0"
    caution: str = CAUTION

    @property
    def plainly(self) -> str:
        """One sentence for the foreman."""
        words = {
            "within": "it holds on a day of",
            "beyond": "it freezes on a day of",
            "too close to call": "too close to call on a day of",
        }
        need = ""
        if self.check.verdict != "within":
            need = (
                f"; {number(self.needed_percent)} % is on the safe side"
                if self.needed_percent is not None
                else "; no mixture up to 60 % is on the safe side: ask the coolant's maker"
            )
        return (
            f"{self.glycol.capitalize()} glycol at {said(self.percent, '%')} by volume freezes at "
            f"{spread(self.freeze_c, '°C')}; {words[self.check.verdict]} {number(self.coldest_c)} °C{need}."
        )


def freeze_point(glycol: str, percent: Amount) -> Span:
    """The freeze point in °C of a mixture by volume, with its ends for reading and table together."""
    kind = _kind(glycol)
    hint = "read the concentration again, by refractometer"
    at = require("a glycol concentration", percent, PERCENT[0], PERCENT[-1], "% by volume", hint)
    return Span(
        _freeze(kind, at.value), _freeze(kind, at.high) - LEFT_OPEN_C, _freeze(kind, at.low) + LEFT_OPEN_C
    )


def freeze_protection(glycol: str, percent: Amount, coldest_c: float) -> FreezeProtection:
    """Whether a mixture holds on the coldest day.

    Raises :class:`SumError` for another glycol, a concentration outside 10 to 60 % and a day outside
    −60 to 10 °C.
    """
    coldest = require("a coldest day", coldest_c, -60, 10, "°C").value
    freeze = freeze_point(glycol, percent)
    check = check_limit(Reading.between(freeze.low, freeze.high), at_most=coldest, unit="°C")
    kind = _kind(glycol)
    return FreezeProtection(kind, reading(percent), freeze, coldest, check, needed_percent(kind, coldest))


def needed_percent(glycol: str, coldest_c: float) -> float | None:
    """The least whole percent by volume that is on the safe side on the coldest day; None above 60 %."""
    kind = _kind(glycol)
    for percent in range(PERCENT[0], PERCENT[-1] + 1):
        if _freeze(kind, percent) + LEFT_OPEN_C <= coldest_c:
            return float(percent)
    return None


def to_exchange(system_l: Amount, have_percent: float, want_percent: float) -> Span:
    """Litres to drain and replace with pure concentrate to get from one concentration to a higher one.

    Formula: system · (want − have) / (100 − have), mixed well; volumes taken as adding up, which is right to
    about 1 %.
    """
    system = require("a cooling system", system_l, 0.5, 2000, "L")
    have = require("a glycol concentration", have_percent, 0, 60, "% by volume").value
    want = require("a wanted concentration", want_percent, have, 60, "% by volume").value
    share = (want - have) / (100 - have)
    return Span(system.value * share, system.low * share, system.high * share)


def _kind(glycol: str) -> Glycol:
    for kind in FREEZE_C:
        if glycol.strip().lower() in (kind, f"{kind} glycol"):
            return kind
    raise SumError(f"there is no freeze table for '{glycol}'; it is ethylene or propylene glycol")


def _freeze(kind: Glycol, percent: float) -> float:
    table = FREEZE_C[kind]
    at = min(bisect_right(PERCENT, percent), len(PERCENT) - 1) - 1
    share = (percent - PERCENT[at]) / (PERCENT[at + 1] - PERCENT[at])
    return table[at] + share * (table[at + 1] - table[at])
