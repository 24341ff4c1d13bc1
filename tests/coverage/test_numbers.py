"""Questions about numbers that are missing or can mean two things."""

import pytest

from saycheck.coverage.numbers import hours, how_much, units, wearing, worn
from saycheck.models.walk import Machine, Measurement
from saycheck.vocabulary.compiled import Vocabulary

from .conftest import Say


def number(value: float, unit: str, text: str = "", other_units: tuple[str, ...] = ()) -> Measurement:
    return Measurement(
        value=value, unit=unit, text=text, value_si=value, unit_si=unit, other_units=list(other_units)
    )


def test_wearing() -> None:
    """The conditions that call for a number are those the vocabulary marks."""
    assert {"worn", "worn out", "play"} == wearing()


@pytest.mark.parametrize(
    ("part", "more", "texts"),
    [
        ("cutting edge", {"condition": "worn"}, ["How thick is the cutting edge?"]),
        (
            "front tyre",
            {"condition": "worn", "side": "left"},
            ["How deep is the tread on the left front tyre?"],
        ),
        (
            "front tyre",
            {"condition": "worn", "side": "both"},
            ["How deep is the tread on the left and right front tyre?"],
        ),
        (
            "front tyre tread",
            {"line": "front tyre", "condition": "worn"},
            ["How deep is the tread on the front tyre?"],
        ),
        (
            "tilt cylinder pin",
            {"line": "tilt cylinder", "condition": "play"},
            ["How much play in the tilt cylinder pin?"],
        ),
        ("articulation joint", {"condition": "play"}, ["How much play in the articulation joint?"]),
        ("cutting edge", {"condition": "play"}, []),  # play is no thickness
        ("cutting edge", {"condition": "crack"}, []),
        ("cutting edge", {"condition": "worn", "denied": True, "state": "good"}, []),
        ("cutting edge bolt", {"line": "cutting edge", "condition": "worn"}, []),  # the bolt is not the edge
        ("mirrors", {"condition": "worn", "side": "left"}, []),  # nothing to measure
        ("wotsit", {"condition": "worn"}, []),
        ("cutting edge", {"condition": "worn", "measurements": [number(14, "mm")]}, []),
        (
            "cutting edge",
            {"condition": "worn", "measurements": [number(2, "count")]},
            ["How thick is the cutting edge?"],
        ),
    ],
)
def test_worn(toy: Vocabulary, say: Say, part: str, more: dict[str, object], texts: list[str]) -> None:
    """A wear part that is called worn is asked for its measure, where no number was given."""
    found = say(**{"part": part, "state": "watch", **more})

    assert texts == [q.text for q in worn(toy, [found])]


def test_worn_and_measured_apart(toy: Vocabulary, say: Say) -> None:
    """A number given in another sentence counts; the same part is asked for once."""
    edge = say("cutting edge", "watch", condition="worn")

    assert [] == list(worn(toy, [edge, say("cutting edge", measurements=[number(14, "mm")])]))
    assert 1 == len(list(worn(toy, [edge, say("cutting edge", "writeup", condition="worn")])))


@pytest.mark.parametrize(
    ("attribute", "name", "several", "text"),
    [
        ("thickness", "forks", False, "How thick are the forks?"),
        ("thickness", "left and right sprocket", True, "How thick are the left and right sprocket?"),
        ("length", "bucket teeth", False, "How long are the bucket teeth?"),
        ("elongation", "lift chains", False, "How much stretch in the lift chains?"),
        ("lining", "service brake", False, "How much lining is left on the service brake?"),
        ("diameter", "carrier roller", False, "What diameter is left on the carrier roller?"),
    ],
)
def test_how_much(attribute: str, name: str, several: bool, text: str) -> None:
    """Each measure has its own plain question."""
    assert text == how_much(attribute, name, several)


@pytest.mark.parametrize(
    ("said", "text", "part"),
    [
        (
            [("bucket", "fourteen mil")],
            "Bucket “fourteen mil”: millimetres or thousandths of an inch?",
            "bucket",
        ),
        (
            [("bucket", "two mil"), ("counterweight", "six mil")],
            "Bucket “two mil” and counterweight “six mil”: millimetres or thousandths of an inch?",
            None,
        ),
        (
            [("bucket", "two mil"), ("counterweight", "six mil"), ("engine", "one mil"), ("horn", "a mil")],
            "Bucket “two mil”, counterweight “six mil” and 2 more: millimetres or thousandths of an inch?",
            None,
        ),
    ],
)
def test_ambiguous_unit(say: Say, said: list[tuple[str, str]], text: str, part: str | None) -> None:
    """A unit that can mean two things is asked about once, with all its numbers as evidence."""
    found = [say(name, measurements=[number(14, "mm", words, ("thou",))]) for name, words in said]
    (asked,) = units(found)

    assert (text, "measure", part) == (asked.text, asked.kind, asked.about.part)
    assert len(said) == len(asked.evidence)


def test_plain_units_are_not_asked(say: Say) -> None:
    """A unit that can mean one thing only needs no question; two ambiguous ones need two."""
    plain = say("bucket", measurements=[number(14, "mm", "14 mm")])
    degrees = say("coolant", measurements=[number(-30, "degC", "thirty below", ("degF",))])
    mil = say("bucket", measurements=[number(2, "mm", "two mil", ("thou",))])

    assert [] == list(units([plain]))
    assert 2 == len(list(units([degrees, mil])))


@pytest.mark.parametrize(
    ("reading", "findings", "asked"),
    [(None, [], 1), (9146.0, [], 0), (None, ["hour meter"], 0), (0.0, [], 0)],
)
def test_hours(toy: Vocabulary, say: Say, reading: float | None, findings: list[str], asked: int) -> None:
    """The hour meter is asked for where nothing was said of it."""
    machine = Machine(kind=toy.kind, hours=reading)
    questions = list(hours(toy, machine, [say(part, "writeup") for part in findings]))

    assert ["What does the hour meter read?"] * asked == [q.text for q in questions]
    assert ["cab"] * asked == [q.about.zone for q in questions]
