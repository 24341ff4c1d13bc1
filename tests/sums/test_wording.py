"""Numbers in plain words."""

import pytest

from saycheck.sums.reading import Reading, Span
from saycheck.sums.wording import amount, number, percent, said, spread


@pytest.mark.parametrize(
    ("value", "digits", "shown"),
    [
        (1234.5, 3, "1,230"),
        (0.045678, 3, "0.0457"),
        (12.0, 3, "12"),
        (0, 3, "0"),
        (-15.04, 3, "−15"),
        (999.96, 4, "1,000"),
        (9.996, 3, "10"),
        (float("inf"), 3, "no end"),
    ],
)
def test_number(value: float, digits: int, shown: str) -> None:
    """No more digits than asked for, thousands parted, a true minus sign."""
    assert shown == number(value, digits)


@pytest.mark.parametrize(
    ("at", "shown"),
    [
        (Reading(17, 0.5), "17 ± 0.5 mm"),
        (Reading(2.413165, 0.068948), "2.413 ± 0.069 mm"),
        (Reading(1250, 50), "1,250 ± 50 mm"),
        (Reading(12.45), "12.45 mm"),
        (Reading(-15, 1), "−15 ± 1 mm"),
    ],
)
def test_said(at: Reading, shown: str) -> None:
    """A reading is shown no finer than what its words leave open."""
    assert shown == said(at, "mm")


def test_spread_and_percent() -> None:
    """Ends are shown only where they can be told apart."""
    assert "12 mm (11 to 13)" == spread(Span(12, 11, 13), "mm")
    assert "12 mm" == spread(Span(12, 12.001, 12.002), "mm")
    assert ("7.1 %", "42 %", "12") == (percent(0.0712), percent(0.42), amount(12, ""))
