"""Amounts as a person types them."""

import pytest

from saycheck.errors import SumError
from saycheck.sums.amounts import amount_of, measured
from saycheck.sums.reading import Reading


@pytest.mark.parametrize(
    ("text", "value", "wide", "unit"),
    [
        ("17", 17, 0, ""),
        ("17±0.5", 17, 0.5, ""),
        ("17 ± 0.5 mm", 17, 0.5, "mm"),
        ("17+-0.5mm", 17, 0.5, "mm"),
        ("17 +/- 0.5", 17, 0.5, ""),
        ("50psi", 50, 0, "psi"),
        ("120 lbf ft", 120, 0, "lbf ft"),
        ("-15", -15, 0, ""),
        ("−15 °C", -15, 0, "°C"),
        ("5 °F", 5, 0, "°F"),
        (".5", 0.5, 0, ""),
        ("1/2 in", 0.5, 0, "in"),
        ("1,250.5 h", 1250.5, 0, "h"),
        ("40±2 %", 40, 2, "%"),
    ],
)
def test_measured(text: str, value: float, wide: float, unit: str) -> None:
    """Number, half width and unit, each as it stands."""
    assert (Reading(value, wide), unit) == measured(text)


def test_in_the_unit_wanted() -> None:
    """A bare number is in the unit of the sum, another unit is turned into it."""
    assert Reading(17, 0.5) == amount_of("17±0.5", "mm")
    assert (25.4, 2.54) == pytest.approx(
        (amount_of("1±0.1 in", "mm").value, amount_of("1±0.1 in", "mm").plus_minus)
    )
    assert -15 == pytest.approx(amount_of("5 °F", "degC").value)


@pytest.mark.parametrize(
    ("text", "unit", "sentence"),
    [
        ("thick", "mm", "'thick' is no amount; write it as 17, 17±0.5 or 17±0.5mm"),
        ("", "mm", "'' is no amount; write it as 17, 17±0.5 or 17±0.5mm"),
        ("1/0", "mm", "'1/0' divides by nothing; write the number out"),
        ("17 kg", "", "'17 kg' has a unit where a bare number is wanted; leave 'kg' out"),
        ("17,5", "mm", "'17,5' is no amount; write it as 17, 17±0.5 or 17±0.5mm"),  # never read as 175
        (
            "17 kg",
            "mm",
            "17 kg cannot be turned into mm, which measures something else; choose a unit of the same kind",
        ),
    ],
)
def test_refused(text: str, unit: str, sentence: str) -> None:
    """What is no amount is refused in one sentence."""
    with pytest.raises(SumError) as told:
        amount_of(text, unit)
    assert sentence == str(told.value)
