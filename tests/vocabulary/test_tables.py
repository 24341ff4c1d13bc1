"""What the tables of the outside data measure can be measured on a walk: part, attribute, unit.

``../shared/outside/tables.json`` holds figures of handbooks and rules by source; rows whose ``seen`` is
``memory`` were recalled. The sums made of these figures are tested where they are made; here it is only held
that the vocabulary asks for the number, in a unit that can be turned into the table's, and that a walker can
say each unit.
"""

import json
from pathlib import Path
from typing import Any

import pint
import pytest

from saycheck.understanding.findings import SPELLED
from saycheck.vocabulary.load import load, shared_tables
from saycheck.vocabulary.schema import Units

TABLES = Path(__file__).resolve().parents[3] / "shared" / "outside" / "tables.json"

if not TABLES.is_file():
    pytest.skip("../shared/outside/tables.json is not there", allow_module_level=True)

SOURCES: dict[str, dict[str, Any]] = {
    source["id"]: source for source in json.loads(TABLES.read_text(encoding="utf-8"))["sources"]
}

MEASURED = [
    ("pg-freeze", "wheel-loader", "coolant", "freeze point", "degC"),
    ("eg-freeze", "wheel-loader", "coolant", "freeze point", "degC"),  # all rows from memory
    ("battery-ocv-rule", "wheel-loader", "batteries", "voltage", "V"),
    ("battery-ocv-bci", "wheel-loader", "batteries", "specific gravity", "dimensionless"),  # from memory
    ("tyre-temp", "wheel-loader", "front tyre", "pressure", "psi"),
    ("steer-play", "road-truck", "steering", "play", "mm"),  # 49 CFR 393.209(b), from memory
]
LOOKED_AT = [
    ("msha-m1", "wheel-loader", "service brake", "brakes hold"),  # 30 CFR 56.14101 Table M-1
    ("msha-m2", "articulated-dump-truck", "service brake", "brakes hold"),  # Table M-2
]
"""Stopping distances: what the brake check rests on; the measured test itself is none of a walk."""


@pytest.mark.parametrize(("source", "kind", "part", "attribute", "unit"), MEASURED)
def test_table_can_be_measured(source: str, kind: str, part: str, attribute: str, unit: str) -> None:
    """A part asks for what the table gives, in a unit of the same quantity."""
    units: pint.UnitRegistry[Any] = pint.UnitRegistry()
    measures = {measure.attribute: measure.unit for measure in load(kind).part(part).measures}

    assert attribute in measures, SOURCES[source]["title"]
    assert units.Unit(unit).is_compatible_with(units.Unit(measures[attribute]))


@pytest.mark.parametrize(("source", "kind", "part", "check"), LOOKED_AT)
def test_table_has_its_check(source: str, kind: str, part: str, check: str) -> None:
    """What a table of a test run is about is looked at on a walk."""
    assert check in load(kind).part(part).checks, SOURCES[source]["title"]


SAID = {
    "inch": "in", "foot": "ft", "mile": "mile", "pound": "lb", "short ton": "ton", "pound-force": None, "psi": "psi",
    "bar": "bar", "kgf/cm2": None, "inHg": None, "US gallon": "gal", "US quart": "quart", "UK gallon": None,
    "lbf ft": "lbf ft", "horsepower": "hp", "metric horsepower": None, "mph": "mph", "degF": "degF", "kelvin": None,
}  # fmt: skip
"""The unit of units.toml for each row of NIST SP 811; None where nobody says it on a walk."""


@pytest.mark.parametrize("row", SOURCES["nist-units"]["items"], ids=lambda row: row["n"])
def test_unit_can_be_said_and_counts_right(row: dict[str, Any]) -> None:
    """Each unit that is said on a walk is known by name, and pint's factor is that of NIST SP 811."""
    ours = SAID[row["n"]]
    if ours is None:
        pytest.skip("nobody says this unit on a walk")
    known = {unit.name for table in shared_tables("units.toml", Units) for unit in table.unit}
    units: pint.UnitRegistry[Any] = pint.UnitRegistry()

    assert ours in known
    if ours == "degF":
        assert units.Quantity(1, "delta_degF").to("delta_degC").magnitude == pytest.approx(1 / row["value"])
        return
    target = row["unit"].replace("N m", "newton * meter").replace("km/h", "kilometer / hour")
    assert units.Quantity(1, SPELLED.get(ours, ours)).to(target).magnitude == pytest.approx(
        row["value"], rel=1e-4
    )


def test_every_table_is_held() -> None:
    """No table of the outside data is left out."""
    assert set(SOURCES) == {row[0] for row in [*MEASURED, *LOOKED_AT]} | {"nist-units"}
