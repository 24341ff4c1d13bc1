"""A number that may be of several things is asked for, and the answer settles against which limit it is held."""

import json

import pytest

from saycheck.asking.keep import made_of
from saycheck.asking.matter import Matter
from saycheck.asking.understand import understand
from saycheck.coverage.questions import questions
from saycheck.models.walk import Walk
from saycheck.page.choices import by_place, choices
from saycheck.standing import after
from saycheck.vocabulary.load import load

TEXT = "Forks are worn twelve percent."


@pytest.fixture
def forks(make_walk: object) -> Matter:
    """The question for what a number said of forks is of."""
    kind = "telehandler"
    percent = {"value": 12, "unit": "percent", "text": "twelve percent", "value_si": 12, "unit_si": "percent",
               "plus_minus": 0.5}  # fmt: skip
    found = {
        "id": "f1", "zone": "front", "part": "forks", "line": "forks", "side": "none", "check": "worn",
        "state": "watch", "condition": "worn", "heard_as": "forks", "confidence": 0.9,
        "measurements": [percent], "evidence": [{"char_start": 0, "char_end": len(TEXT)}],
    }  # fmt: skip
    assert callable(make_walk)
    walk: Walk = make_walk(TEXT, machine={"kind": kind, "unit": "nine", "hours": 10}, findings=[found])
    asked = [one for one in questions(load(kind), walk) if one.id.startswith("measure-which")]
    assert [
        "Forks “twelve percent”: thickness left, thickness worn away, straightness or tip difference?"
    ] == [one.text for one in asked]
    walk = walk.model_copy(update={"questions": asked})
    return Matter(asked[0], after(walk, [], load(kind)), load(kind))


# The limits: ISO 5057:1993 and ANSI/ITSDF B56.1, 6.2.8, as the vocabulary restates them: 90 % of the thickness
# left, tips 3 % of the blade length apart.
@pytest.mark.parametrize(
    ("words", "value", "attribute", "judged"),
    [
        ("worn away", 88, "thickness left", "beyond"),
        ("that's gone", 88, "thickness left", "beyond"),
        ("that's what is left", 12, "thickness left", "beyond"),
        ("the tips", 12, "tip difference", "beyond"),
        ("straightness", 12, "straightness", "beyond"),
    ],
)
def test_which_measure(forks: Matter, words: str, value: float, attribute: str, judged: str) -> None:
    """The answer names the measure, and its limit judges the number; what is worn away is taken from the whole."""
    answer = understand(forks, words)
    assert answer.wish is not None
    edit = made_of(answer.wish, forks, forks.standing)
    standing = after(forks.standing.heard, [edit], forks.vocabulary)
    (one,) = standing.walk.findings[0].measurements
    assert (value, attribute, judged) == (one.value, one.attribute, one.judged)
    assert forks.question.id not in [each.id for each in standing.walk.questions]


def test_unknown_measure(forks: Matter) -> None:
    """A word that names none of them, or two, settles nothing."""
    assert ["unknown", "unknown"] == [understand(forks, words).kind for words in ("thickness", "banana")]


def test_choices_on_the_page(forks: Matter) -> None:
    """The same can be answered with one key; nothing is taken for granted by Enter."""
    shown = choices(forks.question, by_place(forks.standing.walk.findings), [])
    words = ["Leave it open", "Thickness left", "Thickness worn away", "Straightness", "Tip difference"]
    assert words == [one.words for one in shown]
    (number,) = json.loads(shown[2].wish)["patches"][0]["measurements"]
    assert (88, "percent", "thickness left") == (number["value"], number["unit"], number["attribute"])
