"""The hour meter read aloud, and hours that are no reading."""

from collections.abc import Callable

import pytest

from saycheck.understanding.hours import readings
from saycheck.understanding.pipeline import Understood
from saycheck.understanding.text import Reading

Read = Callable[..., Reading]
Understand = Callable[..., Understood]


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("Hour meter reads 11,482 hours.", 11482),
        ("Hour meter says nine thousand one hundred and forty six.", 9146),
        ("Hours, nine one four six.", 9146),
        ("Clock's on six two oh four.", 6204),
        ("Meter is showing four thousand eight hundred.", 4800),
        ("Four thousand eight hundred and twelve on the clock.", 4812),
        ("She's got sixty two oh four hours on her.", 6204),
        ("2314.5 hours.", 2314.5),
        ("Clock shows three one nine five.", 3195),
        ("Hour window says eight nine one seven.", 8917),
        ("She's done eleven thousand hours.", 11000),
        ("Oil's fine, meter reads 5312.", 5312),
        # asked for first, told in the next breath
        ("How many hours? Four one six two.", 4162),
        ("Hours, where's it gone, there, four one six two.", 4162),
        ("What's on the clock? Seven thousand and thirty.", 7030),
        ("The hours on the dash are two nine five four.", 2954),
        ("Hour meter has stopped at five two seven one.", 5271),
        ("Fourteen thousand and ten on her clock.", 14010),
        ("It says four one six two on the engine hours.", 4162),
        # put right
        ("Hours, four one two six. No, four one six two.", 4162),
        ("Hours four thousand two hundred, sorry, I mean four thousand six hundred and two.", 4602),
        # what only sounds as if it put it right
        ("Hours are four one two six. No leaks. Front left tyre one hundred and ten.", 4126),
        ("Hours, four one two six, no leaks on the hoses, fuel is at two hundred.", 4126),
        ("Hours, four one two six, sorry, I forgot the tyres, front left one hundred and ten.", 4126),
        ("Hours four one two six. No, wait, the fleet number is five five one.", 4126),
    ],
)
def test_reading(read: Read, text: str, hours: float) -> None:
    """A reading is hours in the hundreds and more, or a bare number beside the meter's name."""
    assert [hours] == [value for _, value in readings(read(text))]


@pytest.mark.parametrize(
    "text",
    [
        "Change the oil every five hundred hours.",
        "Next service in two hundred and fifty hours.",
        "Belt lasted about three hundred hours.",
        "It took two hours.",
        "Back in an hour.",
        "Oil change is due after five hundred hours.",
        "Measure that pin again at two thousand hours.",
        "Give it a two hundred hours and look.",
        "There's four thousand hours of dust in here.",
        "The filter is three hundred hours overdue.",
        "Filter was changed at four hundred hours.",
        "Filter is two hundred hours overdue.",
        "Tyre is at forty eight psi.",
        "Clock is broken.",
        "Oil pressure meter reads 200.",
        "The pump's done 5312 hours.",
        "Service is five hundred hours overdue.",
        "Hours I'll read later. Relief pressure, 2500 psi.",
        "Clock is broken. Front tyre, four one six two.",
        "Temperature clock? Two one five oh.",
        "Hour meter works. Serial number is four one six two.",
        "Ran it two hours this morning. Idles high at two thousand two hundred.",
        "Hour meter's dead. Two thousand and nineteen model.",
        "How many hours on it? No idea. Unit number two two seven nine.",
        "Two hundred and ten on the temperature clock.",
    ],
)
def test_no_reading(read: Read, text: str) -> None:
    """Intervals, lives and times of the day are no reading."""
    assert [] == readings(read(text))


def test_reading_becomes_a_finding(understood: Understand) -> None:
    """The reading stands on the walk and is a finding of its own, with its words as evidence."""
    text = "Hour meter reads 11,482 hours. Bucket is good."
    walk = understood(text)
    meter = next(f for f in walk.findings if f.part == "hour meter")
    assert (11482, "good", [(11482, "h")]) == (
        walk.hours,
        meter.state,
        [(m.value, m.unit) for m in meter.measurements],
    )
    assert "11,482 hours" == text[meter.evidence[0].char_start : meter.evidence[0].char_end]


def test_no_hours_said(understood: Understand) -> None:
    """Where nobody read the meter the hours stay unknown."""
    assert understood("Bucket is good.").hours is None
