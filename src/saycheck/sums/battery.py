"""State of charge of a flooded lead-acid battery from its rest voltage, with temperature.

Formula: the voltage is brought to 27 °C by 1.2 to 4.3 mV for each degree and 12 V, then read off the table
between its rows. Units: V, °C, percent. Range: flooded lead-acid, 6 cells a 12 V battery, at rest 8 hours
or more with nothing drawing current, −30 to 50 °C, 11.4 to 12.95 V; sealed AGM and gel batteries by their
maker's table.

Sources: the voltage table of the Battery Council International as a battery maker's page restates it
(12.65 V full, 1.265 specific gravity, at 26.7 °C). On temperature sources differ and both are carried: 0.2 mV
for each cell and degree by thermodynamics (from memory), the value used; 24 mV for 12 V and 10 °F by the same
page, the other end. Freeze points by specific gravity: US Army subcourse OD1002 and TM 5-1185; specific
gravity by charge from the same table as the voltage. The table itself is good to about 5 % of charge (common
practice, no source).
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from saycheck.errors import SumError
from saycheck.sums.reading import Amount, Reading, Span, reading, require
from saycheck.sums.wording import amount, number, said, spread

REST_V = (11.89, 12.06, 12.24, 12.45, 12.65)
CHARGE_PERCENT = (0.0, 25.0, 50.0, 75.0, 100.0)
GRAVITY = (1.120, 1.155, 1.190, 1.225, 1.265)
TABLE_C = 26.7
V_PER_C = (0.0012, 0.0043)
TABLE_WIDTH_PERCENT = 5.0
FREEZE_GRAVITY = (1.0, 1.1, 1.15, 1.2, 1.25, 1.28)
FREEZE_C = (0.0, -7.2, -15.0, -26.7, -52.2, -67.8)
REST_H = 8.0
CAUTION = (
    "Wear eye protection, keep sparks and flames away, never charge or jump a frozen battery. A battery can show "
    "a good voltage and still fail under load: only a load test tells."
)


@dataclass(frozen=True)
class Charge:
    """State of charge in percent from a rest voltage; ``freezes_c`` is where its acid then freezes, in °C."""

    volts: Reading
    nominal_v: int
    at_c: float
    rested_h: float | None
    percent: Span
    freezes_c: Span
    source: str = "Battery Council International table as restated by a battery maker"
    caution: str = CAUTION

    @property
    def plainly(self) -> str:
        """One sentence for the foreman."""
        rest = f"if it has rested {REST_H:g} hours, it" if self.rested_h is None else "it"
        state = (
            "needs charging"
            if self.percent.high < 75
            else "should be charged"
            if self.percent.low < 75
            else ""
        )
        told = f" and {state}" if state else ""
        cold = f"; its acid would freeze near {amount(self.freezes_c.high, '°C', 2)}" if state else ""
        return (
            f"{said(self.volts, 'V')} at {number(self.at_c)} °C: {rest} is {spread(self.percent, '%', 2)} "
            f"charged{told}{cold}."
        )


def charge(volts: Amount, at_c: float, *, nominal_v: int = 12, rested_h: float | None = None) -> Charge:
    """State of charge of a battery of 6, 12 or 24 V from its rest voltage at ``at_c``.

    ``rested_h`` is how long nothing charged it or drew from it; None where nobody knows. Raises
    :class:`SumError` for a rest shorter than 8 h and outside the range above.
    """
    if nominal_v not in (6, 12, 24):
        raise SumError(f"there is no table for a battery of {nominal_v} V; it is 6, 12 or 24 V")
    if rested_h is not None and not rested_h >= REST_H:
        raise SumError(
            f"a battery that rested {rested_h:g} h shows what the charger left on its plates; let it rest "
            f"{REST_H:g} h, better 24, and measure again"
        )
    cold = require("a battery temperature", at_c, -30, 50, "°C").value
    given = reading(volts)
    scale = 12 / nominal_v
    hint = "a lower one is a failed cell or not at rest, a higher one a charger's or another kind of battery"
    at = require(
        "a rest voltage",
        Reading(given.value * scale, given.plus_minus * scale),
        11.4,
        12.95,
        "V for 12 V",
        hint,
    )
    shifts = [rate * (TABLE_C - cold) for rate in V_PER_C]
    ends = [_percent(volt + shift) for volt in (at.low, at.high) for shift in shifts]
    percent = Span(
        _percent(at.value + shifts[0]),
        max(min(ends) - TABLE_WIDTH_PERCENT, 0.0),
        min(max(ends) + TABLE_WIDTH_PERCENT, 100.0),
    )
    frozen = [_freezes(x) for x in (percent.value, percent.high, percent.low)]
    return Charge(given, nominal_v, cold, rested_h, percent, Span(*frozen))


def _percent(volts: float) -> float:
    return _between(REST_V, CHARGE_PERCENT, volts)


def _freezes(percent: float) -> float:
    return _between(FREEZE_GRAVITY, FREEZE_C, _between(CHARGE_PERCENT, GRAVITY, percent))


def _between(given: Sequence[float], wanted: Sequence[float], at: float) -> float:
    """Read off a table between its rows; the first and last row hold beyond its ends."""
    if not given[0] < at < given[-1]:
        return wanted[0] if at <= given[0] else wanted[-1]
    row = bisect_right(given, at) - 1
    share = (at - given[row]) / (given[row + 1] - given[row])
    return wanted[row] + share * (wanted[row + 1] - wanted[row])
