"""Measurements of a walk against the published limits of the vocabulary."""

from typing import Any

import pytest

from saycheck.limits import doubted, held_against, judged
from saycheck.models.walk import Evidence, Finding, Measurement, Source, Transcript, Walk, Word
from saycheck.run import Asked, Heard, walk_of
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load


@pytest.fixture(scope="module")
def forklift() -> Vocabulary:
    """A lift truck: its chains have one published limit, its forks have four."""
    return load("counterbalance-forklift")


def number(value: float, unit: str, wide: float = 0.0, **more: Any) -> Measurement:
    """A measurement as said."""
    return Measurement(
        value=value,
        unit=unit,
        text=f"{value:g} {unit}",
        value_si=value,
        unit_si=unit,
        plus_minus=wide,
        **more,
    )


def chains(*measurements: Measurement, **more: Any) -> Finding:
    """What was said of the lift chains."""
    wanted: dict[str, Any] = {
        "id": "f1", "zone": "front", "part": "lift chains", "side": "none", "check": "worn", "state": "good",
        "condition": "measured", "heard_as": "lift chains", "confidence": 0.9, "line": "lift chains",
        "measurements": list(measurements), "evidence": [Evidence(char_start=0, char_end=5)],
    }  # fmt: skip
    return Finding(**(wanted | more))


@pytest.mark.parametrize(
    ("value", "wide", "verdict"),
    [
        (2.1, 0.05, "within"),
        (3.4, 0.05, "beyond"),
        (3.0, 0.05, "too close to call"),
        (3.2, 0.5, "too close to call"),
    ],
)
def test_judged(forklift: Vocabulary, value: float, wide: float, verdict: str) -> None:
    """The limit of a lift chain is 3 %; what the words leave open counts."""
    (finding,) = judged([chains(number(value, "percent", wide))], forklift)
    assert [verdict] == [one.judged for one in finding.measurements]


@pytest.mark.parametrize(
    "finding",
    [
        chains(number(3.4, "count")),  # no unit was said
        chains(number(3.4, "mm")),  # that is no share
        chains(number(3.4, "percent"), condition="crack"),  # the number of a crack
        chains(number(3.4, "percent", other_units=["degree"])),  # two things
        chains(number(85, "percent"), part="forks", line="forks"),  # thickness, straightness or the tips?
        chains(number(3.4, "percent"), part="wotsit", line=None),
        chains(),
    ],
)
def test_not_judged(forklift: Vocabulary, finding: Finding) -> None:
    """Where it is not clear which limit holds, none is used."""
    (told,) = judged([finding], forklift)
    assert [None] * len(finding.measurements) == [one.judged for one in told.measurements]


def test_told_by_its_attribute(forklift: Vocabulary) -> None:
    """Of four limits of a fork the one is used whose name was said; its source comes with it."""
    worn = chains(number(85, "percent", attribute="thickness left"), part="forks", line="forks")
    check = held_against(worn.measurements[0], worn, forklift)
    assert check is not None
    assert ("beyond", 90) == (check.verdict, check.at_least)
    assert "ISO 5057" in check.source


def test_an_old_verdict_does_not_stay(forklift: Vocabulary) -> None:
    """A verdict that no longer holds goes."""
    (told,) = judged([chains(number(3.4, "mm", judged="beyond"))], forklift)
    assert told.measurements[0].judged is None


def test_good_and_beyond_is_doubted(forklift: Vocabulary) -> None:
    """ "Three point four percent, fine": word and number contradict each other, so a person looks."""
    good, bad = (
        chains(number(3.4, "percent")),
        chains(number(3.4, "percent"), state="writeup", condition="worn"),
    )
    first, second = doubted([good, bad], forklift)
    assert ["called good, but beyond the published limit of at most 3 percent"] == first.review_reasons
    assert first.needs_review
    assert second == bad
    assert [chains(number(2.1, "percent"))] == doubted([chains(number(2.1, "percent"))], forklift)


def walk(text: str) -> Walk:
    """A walk of a lift truck from a text."""
    words, at = [], 0
    for word in text.split():
        at = text.index(word, at)
        words.append(Word(text=word, char_start=at, char_end=at + len(word)))
        at += len(word)
    heard = Heard(Transcript(text=text, words=words), Source(name="text", sha256="0" * 64))
    return walk_of(heard, load("counterbalance-forklift"), Asked(machine="counterbalance-forklift"))


def test_from_words_to_the_verdict() -> None:
    """Said, judged, doubted; and what is too close to call is asked."""
    told = walk("Lift chain stretch is three point four percent, fine.")
    (found,) = [one for one in told.findings if one.part == "lift chains"]
    assert [
        "Lift chains: “three point four percent” is beyond at most 3 percent, yet called good. Measure again?"
    ] == [one.text for one in told.questions if one.id.startswith("measure-again")]
    assert (["beyond"], True) == ([one.judged for one in found.measurements], found.needs_review)
    asked = walk("Lift chain stretch is three percent, fine.").questions
    assert ["Lift chains: “three percent” is too close to at most 3 percent to call. Measure again?"] == [
        one.text for one in asked if one.id.startswith("measure-again")
    ]
