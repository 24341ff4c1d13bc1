"""Units into one another, against NIST SP 811."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.models.walk import Measurement
from saycheck.sums.conversions import convert, measured_in
from saycheck.sums.reading import Reading

from .conftest import Rows

NIST = [
    # row of the table, unit, in which the table has it
    ("inch", "in", "m"),
    ("foot", "ft", "m"),
    ("mile", "mile", "m"),
    ("pound", "lb", "kg"),
    ("short ton", "ton", "kg"),
    ("pound-force", "lbf", "N"),
    ("psi", "psi", "Pa"),
    ("bar", "bar", "Pa"),
    ("kgf/cm2", "kgf/cm2", "Pa"),
    ("inHg", "inHg", "Pa"),
    ("US gallon", "gal", "L"),
    ("US quart", "quart", "L"),
    ("UK gallon", "imperial gal", "L"),
    ("lbf ft", "lbf ft", "N m"),
    ("horsepower", "hp", "W"),
    ("metric horsepower", "metric hp", "W"),
    ("mph", "mph", "km/h"),
]


@pytest.mark.parametrize(("row", "unit", "si"), NIST)
def test_nist_factor(table_rows: Rows, row: str, unit: str, si: str) -> None:
    """Source: NIST SP 811, appendix B.8, as in ../shared/outside/tables.json.

    Foot, inch and horsepower were read on a page, the rest is marked there as recalled from memory or
    recomputed from definitions; each agrees in all digits that the table gives, which are 4 at least.
    """
    given_there = next(item["value"] for item in table_rows("nist-units") if item["n"] == row)
    digits = max(len(f"{given_there:.12g}".replace(".", "").strip("0")), 4)
    relative = 1e-9 if digits >= 9 else 0.5001 * 10 ** (1 - digits) if row == "horsepower" else 2e-7
    assert given_there == pytest.approx(convert(1, unit, si).result.value, rel=relative)


@pytest.mark.parametrize(
    ("value", "unit", "other", "expected"),
    [
        # NIST SP 811, appendix B.8, seven digits, from memory
        (1, "lbf in", "N m", 0.1129848),
        (1, "kgf m", "N m", 9.80665),
        (1, "lbf ft", "N m", 1.355818),
        (1, "psi", "kPa", 6.894757),
        (14.50377, "psi", "bar", 1.0),
        (1, "thou", "mm", 0.0254),
        (212, "°F", "°C", 100),
        (-40, "degF", "degC", -40),
        (0, "C", "K", 273.15),
    ],
)
def test_trade_spellings(value: float, unit: str, other: str, expected: float) -> None:
    """Units as the trade writes them; temperatures with their offset."""
    assert expected == pytest.approx(convert(value, unit, other).result.value, rel=1e-6)


@given(st.floats(-40, 200), st.floats(0, 5))
def test_there_and_back(celsius: float, wide: float) -> None:
    """A reading comes back as it went; the width of a temperature takes the factor and no offset."""
    there = convert(Reading(celsius, wide), "degC", "degF").result
    assert 1.8 * wide == pytest.approx(there.plus_minus, abs=1e-9)
    back = convert(there, "degF", "degC").result
    assert (celsius, wide) == pytest.approx((back.value, back.plus_minus), abs=1e-9)


def test_plainly() -> None:
    """The sentence has no more digits than the words leave."""
    assert "35 ± 1 psi is 2.413 ± 0.069 bar." == convert(Reading(35, 1), "psi", "bar").plainly


@pytest.mark.parametrize(
    ("value", "unit", "other", "sentence"),
    [
        (
            35,
            "psi",
            "N m",
            "35 psi cannot be turned into N m, which measures something else; choose a unit of the same kind",
        ),
        (1, "smoot ]", "m", "there is no unit 'smoot ]'; write it as psi, bar, N m, lbf ft, L, gal or °C"),
        (-300, "degC", "degF", "−300 degC is below absolute zero, −273.15 °C; check the number"),
    ],
)
def test_refused(value: float, unit: str, other: str, sentence: str) -> None:
    """What cannot be converted is said in one sentence."""
    with pytest.raises(SumError) as told:
        convert(value, unit, other)
    assert sentence == str(told.value)


def measurement(value: float, unit: str, wide: float, *others: str) -> Measurement:
    """A measurement of a walk."""
    return Measurement(
        value=value,
        unit=unit,
        text=f"{value:g} {unit}",
        value_si=value,
        unit_si="m",
        plus_minus=wide,
        other_units=list(others),
    )


def test_a_measurement_of_a_walk() -> None:
    """A measurement becomes a reading in the unit of the sum with what its words leave open."""
    assert Reading(17, 0.5) == measured_in(measurement(17, "mm", 0.5), "mm")
    inches = measured_in(measurement(0.5, "in", 0.0625), "mm")
    assert (12.7, 1.5875) == pytest.approx((inches.value, inches.plus_minus))


def test_an_ambiguous_unit_is_asked() -> None:
    """ "Twenty mil" is never guessed."""
    with pytest.raises(SumError) as told:
        measured_in(measurement(20, "mm", 0.5, "thou"), "mm")
    assert "'20 mm' may be mm or thou; ask which before you reckon with it" == str(told.value)
