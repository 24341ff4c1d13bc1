"""Numbers of sums in plain words: no more digits than anyone should trust."""

import math

from saycheck.sums.reading import Reading, Span


def number(value: float, digits: int = 3) -> str:
    """A number with so many digits that count: 1234.5 is "1,230", 0.04567 is "0.0457", 12.0 is "12"."""
    if value == 0 or not math.isfinite(value):
        return "0" if value == 0 else ("no end" if value > 0 else "less than anything")
    places = digits - 1 - math.floor(math.log10(abs(value)))
    shown = round(value, places)
    text = f"{shown:,.{max(places, 0)}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return text.replace("-", "−")


def percent(share: float) -> str:
    """A share of 1 in percent: 0.0712 is "7.1 %", 0.42 is "42 %"."""
    return f"{number(100 * share, 2)} %"


def amount(value: float, unit: str, digits: int = 3) -> str:
    """A number with its unit."""
    return f"{number(value, digits)} {unit}".rstrip()


def said(at: Reading, unit: str) -> str:
    """A reading as it was given, no finer than its half width: "17 ± 0.5 mm", "2.413 ± 0.069 bar"."""
    if not at.plus_minus:
        return amount(at.value, unit, 6)
    places = max(1 - math.floor(math.log10(at.plus_minus)), 0)
    value = f"{at.value:,.{places}f}".replace("-", "−")
    value = value.rstrip("0").rstrip(".") if "." in value else value
    return f"{value} ± {number(at.plus_minus, 2)} {unit}".rstrip()


def spread(span: Span, unit: str, digits: int = 3) -> str:
    """A result with its ends where they differ in what is shown: "12 mm (11 to 13)"."""
    low, high = number(span.low, digits), number(span.high, digits)
    ends = "" if low == high else f" ({low} to {high})"
    return amount(span.value, unit, digits) + ends
