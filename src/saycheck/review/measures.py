"""A number that a reviewer types, with its unit, as a measurement of a finding."""

from collections.abc import Sequence
from functools import cache
from typing import Any

from saycheck.errors import ReviewError
from saycheck.limits import WORN_AWAY
from saycheck.models.walk import Measurement
from saycheck.models.wishes import Number
from saycheck.sums.conversions import SPELLED
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Units

COUNTED = frozenset(["count", "finger", "thread", "mark"])
"""What is counted and has no other unit."""


@cache
def known_units() -> tuple[str, ...]:
    """The units that people say on a walk, by their short names, in the order of the vocabulary."""
    names = [unit.name for table in shared_tables("units.toml", Units) for unit in table.unit]
    return tuple(dict.fromkeys([*names, "count"]))


def measurement(
    value: float, unit: str, plus_minus: float = 0.0, attribute: str | None = None
) -> Measurement:
    """A measurement of ``value`` in ``unit``, as said and in SI.

    Raises:
        ReviewError: there is no such unit.
    """
    unit = unit.strip() or "count"
    value_si, unit_si = _si(value, unit)
    number = f"{value:g}"
    return Measurement(
        value=value,
        unit=unit,
        text=number if unit == "count" else f"{number} {unit}",
        value_si=value_si,
        unit_si=unit_si,
        plus_minus=plus_minus,
        attribute=attribute,
    )


def in_unit(said: Measurement, unit: str) -> Measurement:
    """A measurement whose unit was left open, in the one that was meant."""
    value_si, unit_si = _si(said.value, unit)
    return said.model_copy(
        update={"unit": unit, "value_si": value_si, "unit_si": unit_si, "other_units": [], "judged": None}
    )


def number_in(said: Measurement, unit: str) -> Number:
    """A measurement as a person asks for it: in ``unit`` where its own was left open, else as it was said."""
    left_open = bool(said.other_units)
    meant = unit if left_open else said.unit
    return Number(value=said.value, unit=meant, plus_minus=said.plus_minus, unit_told=left_open)


def number_of(said: Measurement, what: str) -> Number:
    """A measurement as a person asks for it, of ``what``, one of ``limits.choices_of`` ("thickness worn away")."""
    number = Number(value=said.value, unit=said.unit, plus_minus=said.plus_minus, attribute=what)
    rest = next((name for name, away in WORN_AWAY.items() if away == what), None)
    return number.model_copy(update={"value": 100 - said.value, "attribute": rest}) if rest else number


def numbers_taking(said: Sequence[Measurement], one: Measurement, what: str) -> list[Number]:
    """All measurements of a finding as they were said, but ``one`` (that very object) taken as one of ``what``."""
    return [number_of(each, what) if each is one else number_in(each, each.unit) for each in said]


def _si(value: float, unit: str) -> tuple[float, str]:
    if unit in COUNTED:
        return value, unit
    try:
        quantity = _registry().Quantity(value, SPELLED.get(unit, unit)).to_base_units()
        return float(quantity.magnitude), f"{quantity.units:~}" or "1"
    except Exception as error:  # pint raises all kinds of errors for what is no unit
        raise ReviewError(f"there is no unit '{unit[:40]}'; write it as mm, in, bar, psi, L or °C") from error


@cache
def _registry() -> Any:
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
