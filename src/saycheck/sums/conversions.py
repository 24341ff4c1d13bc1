"""Torque, pressure, volume, temperature and other units, one into another.

Formula: pint's, by the exact definitions of the units; temperatures with their offset. Range: whatever
pint holds; temperatures not below absolute zero. Gallons, quarts and tons are those of the United States
unless "imperial" stands before them. Source: NIST SP 811, appendix B (checked in the tests).
"""

from dataclasses import dataclass
from functools import cache
from typing import Any

from saycheck.errors import SumError
from saycheck.models.walk import Measurement
from saycheck.sums.reading import Amount, Reading, reading
from saycheck.sums.wording import said

SPELLED = {
    "%": "percent", "A": "ampere", "L": "liter", "l": "liter", "N m": "newton * meter", "Nm": "newton * meter",
    "V": "volt", "h": "hour", "in": "inch", "lb": "pound", "lbf ft": "foot_pound", "ft lb": "foot_pound",
    "lb ft": "foot_pound", "ft lbf": "foot_pound", "lbf in": "inch * force_pound", "in lb": "inch * force_pound",
    "kgf m": "kilogram_force * meter", "kgf/cm2": "kilogram_force / centimeter ** 2", "thou": "thou",
    "gal": "gallon", "imperial gal": "imperial_gallon", "imperial gallon": "imperial_gallon",
    "imperial quart": "imperial_quart", "ton": "short_ton", "tonne": "metric_ton", "hp": "horsepower",
    "metric hp": "metric_horsepower", "mL": "milliliter", "km/h": "kilometer / hour", "mph": "mile / hour",
    "kVA": "kilovolt * ampere", "inHg": "inHg", "°C": "degC", "°F": "degF", "C": "degC", "F": "degF", "K": "kelvin",
    "min": "minute", "s": "second", "Torr": "torr", "rpm": "rpm",
}  # fmt: skip
"""Units as the trade writes them, in pint's spelling, where pint would read them otherwise or not at all."""


@dataclass(frozen=True)
class Conversion:
    """A reading in one unit and the same in another."""

    given: Reading
    from_unit: str
    result: Reading
    to_unit: str
    caution: str = ""

    @property
    def plainly(self) -> str:
        """One sentence for the foreman."""
        return f"{said(self.given, self.from_unit)} is {said(self.result, self.to_unit)}."


@cache
def _registry() -> Any:
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


def _unit(name: str) -> Any:
    """The unit that a name of the trade or of pint means; a :class:`SumError` for anything else."""
    try:
        return _registry().Unit(SPELLED.get(name.strip(), name.strip()))
    except Exception as error:  # pint raises anything from AttributeError to AssertionError for such text
        raise SumError(
            f"there is no unit '{name}'; write it as psi, bar, N m, lbf ft, L, gal or °C"
        ) from error


def convert(value: Amount, from_unit: str, to_unit: str) -> Conversion:
    """The reading in another unit, its half width with it.

    Raises :class:`SumError` for an unknown unit, for two units of different kinds and for a temperature
    below absolute zero.
    """
    at = reading(value)
    start, goal = _unit(from_unit), _unit(to_unit)
    if not start.is_compatible_with(goal):
        raise SumError(
            f"{said(at, from_unit)} cannot be turned into {to_unit}, which measures something else; "
            "choose a unit of the same kind"
        )
    quantity = _registry().Quantity
    warm = start.is_compatible_with("kelvin")
    if warm and float(quantity(at.low, start).to("kelvin").magnitude) < 0:
        raise SumError(f"{said(at, from_unit)} is below absolute zero, −273.15 °C; check the number")
    low, middle, high = (float(quantity(x, start).to(goal).magnitude) for x in (at.low, at.value, at.high))
    return Conversion(at, from_unit, Reading(middle, abs(high - low) / 2), to_unit)


def measured_in(measurement: Measurement, unit: str) -> Reading:
    """A measurement of a walk as a reading in ``unit``, with what its words leave open.

    A measurement whose unit may be two things ("mil") is refused, since a number is never guessed.
    """
    if measurement.other_units:
        units = " or ".join([measurement.unit, *measurement.other_units])
        raise SumError(f"'{measurement.text}' may be {units}; ask which before you reckon with it")
    at = Reading(measurement.value, measurement.plus_minus)
    if measurement.unit == unit:
        return at
    return convert(at, measurement.unit, unit).result
