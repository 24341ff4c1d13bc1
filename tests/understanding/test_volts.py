"""Volts whose point was left out."""

import pytest

from saycheck.understanding.pipeline import understand

KIND = "wheel-loader"


@pytest.mark.parametrize(
    ("text", "volts"),
    [
        ("Batteries. Twelve eight and twelve seven.", [12.8, 12.7]),
        ("Alternator's charging at fourteen two, good.", [14.2]),
        ("Battery is at twenty-four nine volts.", [24.9]),
        ("Battery is twelve point four.", [12.4]),
    ],
)
def test_whole_volts_and_tenths_are_one_number(text: str, volts: list[float]) -> None:
    """Source: common practice, no source; that is how a meter is read aloud."""
    (found,) = understand(text, KIND).findings
    assert [(v, "V") for v in volts] == [(m.value, m.unit) for m in found.measurements]


@pytest.mark.parametrize(
    "text",
    [
        "Front tyre is twelve, six nuts loose on it.",  # nothing electric
        "Battery is good. Next the front tyre, forty two nuts gone.",  # no volts of a machine
    ],
)
def test_other_numbers_stay_two(text: str) -> None:
    """Two numbers in a row may be two things."""
    measured = [m.unit for f in understand(text, KIND).findings for m in f.measurements]
    assert "V" not in measured
