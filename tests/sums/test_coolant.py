"""Freeze points of glycol in water."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.coolant import LEFT_OPEN_C, freeze_point, freeze_protection, needed_percent, to_exchange
from saycheck.sums.reading import Reading

from .conftest import Rows

GLYCOLS = ("ethylene", "propylene")
ASHRAE = {"ethylene": "AEG", "propylene": "APG"}
MELINDER = {"ethylene": "MEG", "propylene": "MPG"}
PURE_DENSITY = {"ethylene": 1113.2, "propylene": 1036.1}
"""Density of pure glycol at 20 °C in kg/m³, CRC Handbook (from memory)."""


@pytest.fixture(scope="module")
def coolprop() -> Any:
    """CoolProp, where it is installed."""
    return pytest.importorskip("CoolProp.CoolProp")


def frozen(coolprop: Any, fluid: str, share: float) -> float:
    """The freeze point in °C of a mixture that CoolProp knows."""
    at = coolprop.PropsSI("T_FREEZE", "T", 300, "P", 101325, f"INCOMP::{fluid}[{share}]")
    return float(at) - 273.15


@pytest.mark.parametrize("glycol", GLYCOLS)
def test_over_the_whole_range(coolprop: Any, glycol: str) -> None:
    """Source: CoolProp, volume-based ASHRAE curves, 10 to 60 % by half percents: within 0.25 °C throughout."""
    percents = [10 + half / 2 for half in range(101)]
    away = [
        abs(freeze_point(glycol, percent).value - frozen(coolprop, ASHRAE[glycol], percent / 100))
        for percent in percents
    ]
    assert 101 == len(away)
    assert max(away) < 0.25


@pytest.mark.parametrize("glycol", GLYCOLS)
@pytest.mark.parametrize("mass", [0.15, 0.2, 0.3, 0.4, 0.5, 0.55])
def test_another_set_of_curves(coolprop: Any, glycol: str, mass: float) -> None:
    """Source: Melinder 2010 as in CoolProp, by mass, brought to volume by its own density at 20 °C.

    It is never warmer than the warm end that saycheck goes by, and at most 2.5 °C off the value.
    """
    density = coolprop.PropsSI("D", "T", 293.15, "P", 101325, f"INCOMP::{MELINDER[glycol]}[{mass}]")
    volume = 100 * mass * density / PURE_DENSITY[glycol]
    span, other = freeze_point(glycol, volume), frozen(coolprop, MELINDER[glycol], mass)
    assert other <= span.high
    assert abs(other - span.value) <= 2.5


def test_handbook_propylene(table_rows: Rows) -> None:
    """Source: Lange's Handbook of Chemistry, 15th edition, table 5.13, read on a page: inside what is left open."""
    rows = [
        (float(item["n"].split()[0]), item["value"])
        for item in table_rows("pg-freeze")
        if item["item"] == "Freezing point" and item["unit"] == "degC"
    ]
    inside = [(percent, celsius) for percent, celsius in rows if percent >= 10]
    assert 9 == len(inside)
    for percent, celsius in inside:
        span = freeze_point("propylene", percent)
        assert span.low <= celsius <= span.high, percent


def test_handbook_ethylene(table_rows: Rows) -> None:
    """Source: eg-freeze in ../shared/outside/tables.json, recalled from memory, good to about 2 °C."""
    rows = [(float(item["n"].split()[0]), item["value"]) for item in table_rows("eg-freeze")]
    assert 6 == len(rows)
    for percent, celsius in rows:
        assert celsius == pytest.approx(freeze_point("ethylene", percent).value, abs=2)


@given(st.sampled_from(GLYCOLS), st.floats(11, 58), st.floats(0, 1), st.floats(0, 1))
def test_more_glycol_freezes_later(glycol: str, percent: float, wide: float, where: float) -> None:
    """The freeze point only falls with the concentration, and the truth lies between the ends."""
    span = freeze_point(glycol, Reading(percent, wide))
    truth = freeze_point(glycol, percent - wide + 2 * wide * where).value
    assert span.low <= truth <= span.high
    assert freeze_point(glycol, percent + 1).value < freeze_point(glycol, percent).value


@pytest.mark.parametrize(
    ("glycol", "percent", "coldest", "verdict"),
    [
        ("ethylene", 50, -30, "within"),
        ("ethylene", 40, -28, "beyond"),
        ("ethylene", 45, -30, "too close to call"),
        ("propylene glycol", 50, -25, "within"),
        ("Propylene", 30, -20, "beyond"),
    ],
)
def test_against_the_coldest_day(glycol: str, percent: float, coldest: float, verdict: str) -> None:
    """Held against the coldest day, with what table and inhibitors leave open."""
    assert verdict == freeze_protection(glycol, percent, coldest).check.verdict


@given(st.sampled_from(GLYCOLS), st.integers(-50, -6))
def test_what_is_needed_is_enough(glycol: str, coldest: int) -> None:
    """The least percent on the safe side is called within, one percent less is not."""
    percent = needed_percent(glycol, coldest)
    if percent is None:
        assert "within" != freeze_protection(glycol, 60, coldest).check.verdict
        return
    assert "within" == freeze_protection(glycol, percent, coldest).check.verdict
    if percent > 10:
        assert freeze_point(glycol, percent - 1).value + LEFT_OPEN_C > coldest


@given(st.floats(5, 1000), st.floats(0, 40), st.floats(0, 20))
def test_exchange(litres: float, have: float, more: float) -> None:
    """A balance of the glycol: what stays and what is filled in make the wanted concentration."""
    out = to_exchange(litres, have, have + more).value
    assert have + more == pytest.approx(((litres - out) * have + out * 100) / litres)


def test_plainly() -> None:
    """The sentence names mixture, freeze point, day and what would be enough."""
    assert (
        "Ethylene glycol at 40 ± 2 % by volume freezes at −24.8 °C (−29.1 to −20.8); too close to call on a day of "
        "−28 °C; 45 % is on the safe side." == freeze_protection("ethylene", Reading(40, 2), -28).plainly
    )
    assert freeze_protection("ethylene", 60, -58).plainly.endswith(
        "no mixture up to 60 % is on the safe side: ask the coolant's maker."
    )
    assert "only when it is cold" in freeze_protection("ethylene", 40, -28).caution


@pytest.mark.parametrize(
    ("glycol", "percent", "sentence"),
    [
        ("glycerol", 40, "there is no freeze table for 'glycerol'; it is ethylene or propylene glycol"),
        (
            "ethylene",
            70,  # it freezes earlier again
            "a glycol concentration of 70 % by volume is outside 10 to 60 % by volume, where this sum holds; "
            "read the concentration again, by refractometer",
        ),
    ],
)
def test_refused(glycol: str, percent: float, sentence: str) -> None:
    """Outside the table it refuses."""
    with pytest.raises(SumError) as told:
        freeze_point(glycol, percent)
    assert sentence == str(told.value)
