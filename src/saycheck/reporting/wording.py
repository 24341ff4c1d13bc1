"""How a walk's values are said in plain words: states, sides, times, hours and measurements."""

from collections.abc import Sequence
from functools import lru_cache

from saycheck.models.walk import Finding, Measurement, Side

STATE_WORDS = {
    "writeup": "write up",
    "watch": "watch",
    "hidden": "hidden",
    "later": "later",
    "good": "good",
    "unclear": "unclear",
    "unsaid": "unsaid",
}
"""Each state by its word, the one that needs most from the owner first."""


@lru_cache(maxsize=65536)
def plain(text: str) -> str:
    """Words as one line that no control character in them can disturb."""
    shown = (letter if letter.isprintable() else " " for letter in text)
    return " ".join("".join(shown).split())


def with_side(part: str, side: Side) -> str:
    """A part with its side: "left mirror", "mirror, both sides"."""
    if side == "both":
        return f"{part}, both sides"
    if side == "none" or part.startswith(f"{side} "):
        return part
    return f"{side} {part}"


def clock(seconds: float) -> str:
    """A place in the sound: "2:05", "1:02:05"."""
    minutes, rest = divmod(int(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"


def length(seconds: float) -> str:
    """A length of time: "41 s", "12 min 4 s", "1 h 2 min"."""
    whole = round(seconds)
    if whole < 60:
        return f"{whole} s"
    if whole < 3600:
        return f"{whole // 60} min" + (f" {whole % 60} s" if whole % 60 else "")
    return f"{whole // 3600} h" + (f" {whole % 3600 // 60} min" if whole % 3600 // 60 else "")


def number(value: float) -> str:
    """A number as it is written by hand: 4,812, 0.25, 12."""
    if value == int(value):
        return f"{int(value):,}"
    return f"{value:,.4f}".rstrip("0")


def measured(measurement: Measurement) -> str:
    """A measurement with what is left open in it: "about 17 mm", "20 mil or mm"."""
    unit = "" if measurement.unit == "count" else measurement.unit
    units = " or ".join(dict.fromkeys([unit, *measurement.other_units])) if unit else ""
    text = " ".join(word for word in (number(measurement.value), units) if word)
    if measurement.plus_minus > 0 and unit:
        text += f" ± {number(measurement.plus_minus)}"
    return f"{text} ({measurement.judged})" if measurement.judged else text


def said_of(finding: Finding) -> str:
    """What a finding says of its part: "worn, 17 mm", "no crack"; a number alone where the state says the rest."""
    condition = f"no {finding.condition}" if finding.denied else finding.condition
    numbers = [measured(one) for one in finding.measurements]
    return ", ".join(numbers if numbers and condition == finding.state else [condition, *numbers])


def listed(names: Sequence[str]) -> str:
    """Names in a row: "a", "a and b", "a, b and c"."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"
