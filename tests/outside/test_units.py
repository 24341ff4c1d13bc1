"""Unit factors against NIST SP 811 and against pint's own definitions."""

import json
from collections.abc import Callable
from typing import Any

import pytest

from saycheck.understanding.findings import Units
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Unit
from saycheck.vocabulary.schema import Units as UnitTable

COUNTED = {"count", "finger", "thread", "mark"}
"""Trade units that are counted and have no SI value."""

KNOWN = [unit for table in shared_tables("units.toml", UnitTable) for unit in table.unit]

MEASURED_IN = {
    "length": "m",
    "pressure": "Pa",
    "voltage": "V",
    "current": "A",
    "share": "",
    "temperature": "K",
    "time": "s",
    "volume": "m**3",
    "torque": "N*m",
    "speed": "rad/s",
    "velocity": "m/s",
    "mass": "kg",
    "frequency": "1/s",
    "power": "W",
    "turns": "rad",
}
"""An SI unit of each kind of quantity the vocabulary names."""


@pytest.fixture(scope="module")
def registry() -> Any:
    """Pint as it comes, without definitions of ours."""
    import pint

    return pint.UnitRegistry()


@pytest.fixture(scope="module")
def units() -> Units:
    """The program's own conversion."""
    return Units()


@pytest.mark.parametrize(
    ("row", "unit", "scale", "tolerance"),
    [
        ("inch", "in", 1, 1e-9),
        ("foot", "ft", 1, 1e-9),
        ("mile", "mile", 1, 1e-9),
        ("pound", "lb", 1, 1e-9),
        ("short ton", "ton", 1, 1e-8),
        ("psi", "psi", 1, 1e-9),
        ("bar", "bar", 1, 1e-9),
        ("US gallon", "gal", 1000, 1e-9),  # the table has litres, SI has cubic metres
        ("US quart", "quart", 1000, 1e-8),
        ("lbf ft", "lbf ft", 1, 1e-9),
        ("horsepower", "hp", 1, 1e-5),  # the table gives four digits
        ("mph", "mph", 3.6, 1e-9),  # the table has km/h, SI has m/s
    ],
)
def test_factor(
    outside: Callable[[str], str], units: Units, row: str, unit: str, scale: float, tolerance: float
) -> None:
    """Source: NIST SP 811, appendix B.8, as in ../shared/outside/tables.json.

    Foot, inch and horsepower were read on a page; the rest is marked there as recalled from memory or
    recomputed from definitions.
    """
    expected = table_row(outside, row)
    value, _ = units.si(1, unit)
    assert expected == pytest.approx(value * scale, rel=tolerance)


@pytest.mark.parametrize("degrees", [-40.0, 32.0, 212.0])
def test_fahrenheit(outside: Callable[[str], str], units: Units, degrees: float) -> None:
    """Source: NIST SP 811, appendix B.8 (marked as recalled): degC = (degF - 32) / 1.8, K = degC + 273.15."""
    expected = (degrees - 32) / table_row(outside, "degF") + table_row(outside, "kelvin")
    assert expected == pytest.approx(units.si(degrees, "degF")[0])


def table_row(outside: Callable[[str], str], name: str) -> float:
    """A value of the table of unit factors."""
    sources: list[dict[str, Any]] = json.loads(outside("tables.json"))["sources"]
    items = next(source["items"] for source in sources if source["id"] == "nist-units")
    return float(next(item["value"] for item in items if item["n"] == name))


@pytest.mark.parametrize(
    "unit", [u for u in KNOWN if u.name not in COUNTED], ids=lambda unit: unit.sayings[0]
)
def test_kind_of_unit(units: Units, registry: Any, unit: Unit) -> None:
    """Source: pint's own definitions; each unit of the vocabulary measures what the vocabulary says."""
    _, unit_si = units.si(1, unit.name)
    assert registry.Unit(MEASURED_IN[unit.quantity]).is_compatible_with("" if unit_si == "1" else unit_si)


def test_every_unit_is_known() -> None:
    """The vocabulary has units, and each kind of them has its measure here."""
    assert KNOWN
    assert {unit.quantity for unit in KNOWN if unit.name not in COUNTED} <= set(MEASURED_IN)
