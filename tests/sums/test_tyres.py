"""Tyre pressure at another temperature."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.conversions import convert
from saycheck.sums.reading import Reading
from saycheck.sums.tyres import SEA_LEVEL_KPA, tyre_pressure

from .conftest import Rows


@pytest.mark.parametrize(
    ("row", "psi"), [("gas law 35 psig", 35), ("gas law 65 psig", 65), ("gas law 100 psig", 100)]
)
def test_gas_law(table_rows: Rows, row: str, psi: float) -> None:
    """Source: tyre-temp in ../shared/outside/tables.json, gas law from 70 °F, marked there as computed, 2 digits."""
    expected = next(item["value"] for item in table_rows("tyre-temp") if item["n"] == row)
    kpa, cold, warm = (
        convert(psi, "psi", "kPa").result.value,
        convert(70, "degF", "degC").result.value,
        convert(80, "degF", "degC").result.value,
    )
    change = convert(tyre_pressure(kpa, cold, warm).change_kpa, "kPa", "psi").result.value
    assert expected == pytest.approx(change, abs=0.006)


def test_rules_of_thumb(table_rows: Rows) -> None:
    """Source: tyre retailers' rules in tyre-temp, 1 psi for 10 or for 12 °F; they hold near 35 psi, as told there."""
    rules = [item["item"] for item in table_rows("tyre-temp") if item["n"].startswith("rule")]
    assert 2 == len(rules)
    kpa = convert(35, "psi", "kPa").result.value
    per_ten = convert(tyre_pressure(kpa, 21.1, 21.1 + 10 / 1.8).change_kpa, "kPa", "psi").result.value
    assert 10 / 12 < per_ten < 1


@pytest.mark.parametrize("kpa", [100.0, 350.0, 700.0, 1000.0, 1500.0])
@pytest.mark.parametrize("then", [-50.0, -20.0, 0.0, 60.0, 90.0])
def test_real_air(kpa: float, then: float) -> None:
    """Source: CoolProp, air as a real gas at the same density: it lies between the ends, 5 % of the change each way."""
    properties = pytest.importorskip("CoolProp.CoolProp")
    absolute = (kpa + SEA_LEVEL_KPA) * 1000
    density = properties.PropsSI("D", "T", 293.15, "P", absolute, "Air")
    real = properties.PropsSI("P", "T", then + 273.15, "D", density, "Air") / 1000 - SEA_LEVEL_KPA
    ours = tyre_pressure(kpa, 20, then)
    assert ours.then_kpa.low <= real <= ours.then_kpa.high
    assert ours.then_kpa.high - ours.then_kpa.low == pytest.approx(0.1 * abs(ours.change_kpa))
    if kpa == 350:
        assert real - kpa == pytest.approx(ours.change_kpa, rel=0.012)


@given(st.floats(50, 1000), st.floats(-40, 60), st.floats(-40, 60), st.floats(0, 20), st.floats(0, 5))
def test_there_and_back(kpa: float, at: float, then: float, wide: float, wide_c: float) -> None:
    """Warmed and cooled again it is what it was; the truth lies between the ends; warmer is more."""
    there = tyre_pressure(kpa, at, then)
    assert kpa == pytest.approx(
        tyre_pressure(max(there.then_kpa.value, 0), then, at).then_kpa.value, rel=1e-9
    ) or (there.then_kpa.value < 0)
    assert (there.change_kpa > 0) == (then > at) or there.change_kpa == pytest.approx(0, abs=1e-9)
    open_span = tyre_pressure(Reading(kpa, min(wide, kpa)), Reading(at, wide_c), then).then_kpa
    for true_kpa in (kpa - min(wide, kpa), kpa, kpa + min(wide, kpa)):
        for true_c in (at - wide_c, at, at + wide_c):
            truth = tyre_pressure(true_kpa, true_c, then).then_kpa.value
            assert open_span.low - 1e-9 <= truth <= open_span.high + 1e-9


def test_height_matters() -> None:
    """At 3,000 m, with about 70 kPa outside, the same tyre changes less."""
    assert tyre_pressure(350, 20, -15, outside_kpa=70).change_kpa > tyre_pressure(350, 20, -15).change_kpa


def test_plainly() -> None:
    """The sentence says how much and that no air was lost; the caution says where to stand."""
    told = tyre_pressure(Reading(350, 5), 20, -15)
    assert (
        "A tyre with 350 ± 5 kPa at 20 °C will show 296 kPa (289 to 303) at −15 °C, 54 kPa less, without having "
        "lost any air." == told.plainly
    )
    assert "never bleed a warm one" in told.caution


@pytest.mark.parametrize(
    ("kpa", "at", "sentence"),
    [
        (
            1600,
            20,
            "a gauge pressure of 1600 kPa is outside 0 to 1500 kPa, where this sum holds; check the number",
        ),
        (
            350,
            120,
            "a tyre temperature of 120 °C is outside -50 to 90 °C, where this sum holds; check the number",
        ),
    ],
)
def test_refused(kpa: float, at: float, sentence: str) -> None:
    """Outside its range it refuses."""
    with pytest.raises(SumError) as told:
        tyre_pressure(kpa, at, 0)
    assert sentence == str(told.value)
