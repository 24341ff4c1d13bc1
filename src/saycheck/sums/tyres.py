"""Tyre pressure at another temperature.

Formula: (p2 + b) / T2 = (p1 + b) / T1 with gauge pressures p, the outside air pressure b and absolute
temperatures T in kelvin: a sealed tyre whose volume stays the same. Units: kPa and °C. Range: −50 to 90 °C,
gauge pressure 0 to 1,500 kPa. Real air changes up to 4.2 % more than the formula says (1.2 % at 350 kPa), and a
tyre stretches a little: 5 % of the change is left open. Source: the law of Gay-Lussac; outside air at sea
level 101.325 kPa (ISO 2533).
"""

from dataclasses import dataclass

from saycheck.sums.conversions import convert
from saycheck.sums.reading import Amount, Reading, Span, require
from saycheck.sums.wording import amount, number, said, spread

SEA_LEVEL_KPA = 101.325
ZERO_C = 273.15
REAL_AIR = 0.05
CAUTION = (
    "Set pressures on a cold tyre and never bleed a warm one. Inflate from beside the tread, with a clip-on "
    "chuck and a long hose; a tyre that has run flat or below 80 % goes to the tyre fitter (common practice)."
)


@dataclass(frozen=True)
class TyrePressure:
    """The pressure that a tyre will show: gauge pressures in kPa, temperatures in °C."""

    given_kpa: Reading
    given_c: Reading
    then_kpa: Span
    then_c: float
    shown_in: str = "kPa"
    caution: str = CAUTION

    @property
    def change_kpa(self) -> float:
        """How much it rises (above 0) or falls."""
        return self.then_kpa.value - self.given_kpa.value

    @property
    def plainly(self) -> str:
        """One sentence for the foreman."""
        one = 1.0 if self.shown_in == "kPa" else convert(1, "kPa", self.shown_in).result.value
        given = Reading(self.given_kpa.value * one, self.given_kpa.plus_minus * one)
        then = Span(*(end * one for end in (self.then_kpa.value, self.then_kpa.low, self.then_kpa.high)))
        way = "more" if self.change_kpa > 0 else "less"
        return (
            f"A tyre with {said(given, self.shown_in)} at {said(self.given_c, '°C')} will show "
            f"{spread(then, self.shown_in)} at {number(self.then_c)} °C, "
            f"{amount(abs(self.change_kpa) * one, self.shown_in, 2)} {way}, without having lost any air."
        )


def tyre_pressure(
    gauge_kpa: Amount,
    at_c: Amount,
    then_c: float,
    *,
    outside_kpa: float = SEA_LEVEL_KPA,
    shown_in: str = "kPa",
) -> TyrePressure:
    """The gauge pressure in kPa at ``then_c`` of a tyre that has ``gauge_kpa`` at ``at_c``.

    ``outside_kpa`` is the air pressure of the place: about 12 kPa less for each 1,000 m of height; ``shown_in`` is the
    unit of the sentence, for those whose gauge shows psi or bar. Raises
    :class:`SumError` outside the range above.
    """
    pressure = require("a gauge pressure", gauge_kpa, 0, 1500, "kPa")
    warm = require("a tyre temperature", at_c, -50, 90, "°C")
    require("a tyre temperature", then_c, -50, 90, "°C")
    require("an outside air pressure", outside_kpa, 45, 110, "kPa")

    def then(gauge: float, celsius: float) -> float:
        return (gauge + outside_kpa) * (then_c + ZERO_C) / (celsius + ZERO_C) - outside_kpa

    middle = then(pressure.value, warm.value)
    air = REAL_AIR * abs(middle - pressure.value)
    span = Span(middle, then(pressure.low, warm.high) - air, then(pressure.high, warm.low) + air)
    return TyrePressure(pressure, warm, span, then_c, shown_in)
