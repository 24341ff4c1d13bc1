"""State of charge from rest voltage."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.battery import FREEZE_C, FREEZE_GRAVITY, TABLE_C, charge
from saycheck.sums.reading import Reading

from .conftest import Rows


def rows_of(table_rows: Rows, source: str, item: str) -> dict[float, float]:
    """Charge in percent and the value of one item."""
    found = {
        float(row["n"].rstrip("%")): float(row["value"])
        for row in table_rows(source)
        if row["item"] == item and row["n"].endswith("%")
    }
    assert 5 == len(found)
    return found


def test_council_table(table_rows: Rows) -> None:
    """Source: Battery Council International style table in ../shared/outside/tables.json, recalled from memory.

    The module has it from a battery maker's page; both agree.
    """
    for percent, volts in rows_of(table_rows, "battery-ocv-bci", "Open-circuit voltage at rest").items():
        assert percent == pytest.approx(charge(volts, TABLE_C).percent.value, abs=0.1)


def test_rule_of_thumb(table_rows: Rows) -> None:
    """Source: battery-ocv-rule in the same file, an informal table read on a page, to 0.1 V.

    Its rows from 25 % up lie between the ends for a reading as coarse as that; at 0 % it has 11.6 V, which
    saycheck calls flat as well.
    """
    for percent, volts in rows_of(table_rows, "battery-ocv-rule", "Open-circuit voltage at rest").items():
        span = charge(Reading(volts, 0.05), TABLE_C).percent
        assert span.low <= percent <= span.high
    assert 0 == charge(11.6, TABLE_C).percent.value


def test_rest(table_rows: Rows) -> None:
    """Source: the same table: 8 hours of rest at least; a shorter one is refused."""
    (least,) = [row["value"] for row in table_rows("battery-ocv-rule") if row["item"].endswith("minimum")]
    assert 70 < charge(12.45, 25, rested_h=least).percent.value
    with pytest.raises(SumError) as told:
        charge(12.45, 25, rested_h=least - 1)
    assert (
        "a battery that rested 7 h shows what the charger left on its plates; let it rest 8 h, better 24, and "
        "measure again" == str(told.value)
    )


@pytest.mark.parametrize(
    ("gravity", "fahrenheit"), [(1.1, 19), (1.15, 5), (1.2, -16), (1.25, -62), (1.28, -90)]
)
def test_acid_freezes(gravity: float, fahrenheit: float) -> None:
    """Source: US Army subcourse OD1002 and TM 5-1185, table of electrolyte freezing points, read on pages."""
    ours = dict(zip(FREEZE_GRAVITY, FREEZE_C, strict=True))[gravity]
    assert (fahrenheit - 32) / 1.8 == pytest.approx(ours, abs=0.06)


@pytest.mark.parametrize(
    ("volts", "nominal", "same"), [(24.9, 24, 12.45), (6.225, 6, 12.45)], ids=["two in a row", "three cells"]
)
def test_other_batteries(volts: float, nominal: int, same: float) -> None:
    """24 V and 6 V are read by the cell."""
    assert charge(same, 20).percent == charge(volts, 20, nominal_v=nominal).percent


@given(st.floats(11.9, 12.6), st.floats(0, 0.1), st.floats(0, 1), st.floats(-30, 50))
def test_the_truth_is_inside(volts: float, wide: float, where: float, celsius: float) -> None:
    """Whatever the voltage truly is, its charge lies between the ends; colder leaves more open, not less."""
    span = charge(Reading(volts, wide), celsius).percent
    truth = charge(volts - wide + 2 * wide * where, celsius).percent.value
    assert span.low <= truth <= span.high
    assert 0 <= span.low <= span.value <= span.high <= 100


@given(st.floats(11.5, 12.9), st.floats(0, 0.3))
def test_more_volts_are_more_charge(volts: float, more: float) -> None:
    """The charge never falls with the voltage, and what is charged more freezes later."""
    lesser, greater = charge(volts, 20), charge(min(volts + more, 12.95), 20)
    assert lesser.percent.value <= greater.percent.value
    assert lesser.freezes_c.value >= greater.freezes_c.value


def test_plainly() -> None:
    """The sentence says that rest is assumed, how full it is and whether to charge; frozen ones stay alone."""
    told = charge(Reading(12.1, 0.05), -15)
    assert (
        "12.1 ± 0.05 V at −15 °C: if it has rested 8 hours, it is 38 % (26 to 66) charged and needs charging; its "
        "acid would freeze near −16 °C." == told.plainly
    )
    assert "never charge or jump a frozen battery" in told.caution
    assert "12.7 V at 20 °C: it is 100 % (95 to 100) charged." == charge(12.7, 20, rested_h=10).plainly


@pytest.mark.parametrize(
    ("volts", "sentence"),
    [
        (
            13.4,
            "a rest voltage of 13.4 V for 12 V is outside 11.4 to 12.95 V for 12 V, where this sum holds; a lower one "
            "is a failed cell or not at rest, a higher one a charger's or another kind of battery",
        ),
        (
            10.5,
            "a rest voltage of 10.5 V for 12 V is outside 11.4 to 12.95 V for 12 V, where this sum holds; a lower one "
            "is a failed cell or not at rest, a higher one a charger's or another kind of battery",
        ),
    ],
)
def test_refused(volts: float, sentence: str) -> None:
    """A charger's voltage and a failed cell are no states of charge."""
    with pytest.raises(SumError) as told:
        charge(volts, 20)
    assert sentence == str(told.value)


def test_no_such_battery() -> None:
    """48 V are no vehicle battery of lead."""
    with pytest.raises(SumError) as told:
        charge(48, 20, nominal_v=48)
    assert "there is no table for a battery of 48 V; it is 6, 12 or 24 V" == str(told.value)
