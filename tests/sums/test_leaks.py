"""Leak classes I to III."""

import pytest

from saycheck.errors import SumError
from saycheck.sums.leaks import MEANING, Class, Level, leak, leak_in_words

from .conftest import Rows


def test_what_the_classes_mean(list_rows: Rows) -> None:
    """Source: army-leak in ../shared/outside/public-lists.json, read on pages of US Army manuals."""
    rows = {item["n"]: item["item"].lower() for item in list_rows("army-leak")}
    assert "no drops" in rows["Class I"]
    assert "no drops" in MEANING["I"]
    assert "do not fall" in rows["Class II"]
    assert "do not fall" in MEANING["II"]
    assert "form and fall" in rows["Class III"]
    assert "form and fall" in MEANING["III"]
    assert "report immediately" in rows["Class III status"] or "class iii" in rows["Class III status"]
    assert "fuel leak of any class" in rows["Class I-II exception"]


@pytest.mark.parametrize(
    ("leak_class", "fluid", "level", "at_once", "to_do"),
    [
        ("I", "hydraulic oil", "not looked at", False, "watch the level"),
        ("II", "coolant", "in range", False, "watch the level"),
        ("II", "coolant", "below the mark", True, "do not run it"),
        ("III", "engine oil", "in range", True, "report it at once"),
        ("I", "diesel", "in range", True, "fuel of any class"),  # a damp fuel line is no small thing
        ("III", "Fuel", "not looked at", True, "flames and sparks"),
    ],
)
def test_what_to_do(leak_class: Class, fluid: str, level: Level, at_once: bool, to_do: str) -> None:
    """Class, fluid and level together say what to do; fuel is reported at once whatever its class."""
    told = leak(leak_class, fluid=fluid, level=level)
    assert at_once == told.report_at_once
    assert to_do in told.to_do


@pytest.mark.parametrize(
    ("words", "leak_class"),
    [
        ("weeping a bit", "I"),
        ("damp round the seal", "I"),
        ("a film of oil on it", "I"),
        ("drops are forming but they're not falling", "II"),
        ("there's a drop hanging off it", "II"),
        ("dripping", "III"),
        ("a drip every minute", "III"),
        ("puddle on the ground", "III"),
        ("drops fall", "III"),
        ("pouring out", "III"),
        ("weeping but not dripping", "I"),
        ("weeping, and it drips when it's hot", "III"),
        ("no drips, just sweating", "I"),
        ("running down the rod", "III"),
        ("it weeps with the engine running", "I"),  # what runs is the engine
        ("soaking wet", "III"),
        ("losing oil", "III"),
        ("losing air", None),  # a hiss has no class
        ("leaking", None),  # whether drops form was not said
        ("not dripping", None),
        ("nothing wet", None),
    ],
)
def test_in_words(words: str, leak_class: Class | None) -> None:
    """What was said gives the class, the worst where there are two; what was not said is a question."""
    told = leak_in_words(words)
    assert leak_class == (told.leak_class if told else None)


def test_a_stream_stops_the_machine() -> None:
    """Source: army-leak, class III during use: a steady stream is turned off."""
    told = leak_in_words("oil is pouring out", fluid="hydraulic oil")
    assert told is not None
    assert (
        "Class III leak of hydraulic oil (drops form and fall): shut it down now and report it."
        == told.plainly
    )
    assert "Never feel for a leak by hand" in told.caution


def test_refused() -> None:
    """There is no class IV."""
    with pytest.raises(SumError) as told:
        leak("IV")  # type: ignore[arg-type]
    assert "there is no leak class 'IV'; it is I, II or III" == str(told.value)
    with pytest.raises(SumError) as level:
        leak("I", level="low")  # type: ignore[arg-type]
    assert "there is no fluid level 'low'; it is one of: in range, below the mark, not looked at" == str(
        level.value
    )
