"""When a finding and a label speak of the same part, and when two numbers are the same."""

from functools import cache
from typing import Any

from saycheck.models.walk import Finding, Measurement
from saycheck.scoring.labels import Amount

PART_AGREES = 60
"""Token-set ratio in percent from which two part names are taken for the same part."""

NUMBER_AGREES = 0.005
"""Relative difference up to which two measurements are the same, after conversion."""

_UNITS = {
    "%": "percent",
    "A": "ampere",
    "L": "liter",
    "N m": "newton * meter",
    "V": "volt",
    "gal": "gallon",
    "h": "hour",
    "in": "inch",
    "lbf ft": "force_pound * foot",
}


def part_agreement(part: str, finding: Finding) -> float:
    """How well a labelled part name fits a finding, 0 to 100: its part, zone and part, or words."""
    from rapidfuzz import fuzz

    names = (finding.part, finding.heard_as, f"{finding.zone} {finding.part}")
    return max(fuzz.token_set_ratio(part.lower(), _plain(name)) for name in names)


def _plain(name: str) -> str:
    return name.lower().replace("_", " ").replace("-", " ")


def same_amount(label: Amount, found: Measurement) -> bool:
    """Whether a measurement is the labelled one, in whatever unit; counts have no unit."""
    try:
        wanted, got = _quantity(label.value, label.unit), _quantity(found.value, found.unit)
        if not wanted.is_compatible_with(got):
            return False
        x, y = wanted.to_base_units().magnitude, got.to_base_units().magnitude
    except Exception:  # pint raises anything from AttributeError to AssertionError for text that is no unit
        return False
    return bool(abs(x - y) <= max(NUMBER_AGREES * abs(x), 1e-9))


def _quantity(value: float, unit: str) -> Any:
    unit = _UNITS.get(unit, unit)
    return _registry().Quantity(value, "dimensionless" if unit in ("count", "") else unit)


@cache
def _registry() -> Any:
    """Pint's own units, none of ours, so that a slip in our definitions cannot hide here."""
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
