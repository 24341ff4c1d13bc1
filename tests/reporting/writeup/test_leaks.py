"""The class of a leak on the page: from the words said, never more than they say."""

from collections.abc import Callable

import pytest

from saycheck.leaking import question_of
from saycheck.models.review import Standing
from saycheck.models.walk import Evidence, Finding, Walk
from saycheck.reporting.writeup.leaks import NOT_TOLD, leaked

There = Callable[..., Standing]


@pytest.fixture
def there(make_walk: Callable[..., Walk]) -> There:
    """Makes a walk of a text as it stands, with what was answered to its questions."""

    def of(text: str, answers: dict[str, str] | None = None) -> Standing:
        walk = make_walk(text)
        return Standing(walk=walk, heard=walk, answers=answers or {})

    return of


def finding(text: str, part: str, condition: str = "leak", denied: bool = False) -> Finding:
    """A finding on all of a text."""
    return Finding(
        id="f1", zone="front", part=part, side="none", check="leaking", state="watch", condition=condition,
        denied=denied, heard_as=part, confidence=0.9, evidence=[Evidence(char_start=0, char_end=len(text))],
    )  # fmt: skip


@pytest.mark.parametrize(
    ("text", "part", "said"),
    [
        (
            "lift cylinder is weeping",
            "lift cylinder",
            "class I, as said: wet or discoloured, but no drops form",
        ),
        ("drops are forming on it", "tilt cylinder", "class II, as said: drops form but do not fall"),
        ("it is dripping", "engine", "class III, as said: drops form and fall"),
        ("lift cylinder is leaking", "lift cylinder", NOT_TOLD),
    ],
)  # source of the classes: US Army TM 5-3895-383-24, see saycheck.sums.leaks
def test_class_as_said(there: There, text: str, part: str, said: str) -> None:
    """Weeping is class I, hanging drops II, falling ones III; "leaking" alone tells no class."""
    (line,) = leaked(finding(text, part), there(text))
    assert said == line.value
    assert (said == NOT_TOLD) == (line.source == "")


def test_fuel_is_reported_whatever_its_class(there: There) -> None:
    """A weep of fuel is told at once."""
    (line,) = leaked(finding("fuel tank is weeping", "fuel tank"), there("fuel tank is weeping"))
    assert "report it at once, fuel of any class, and keep flames and sparks away" == line.verdict


@pytest.mark.parametrize(
    ("part", "condition", "denied"),
    [("air tank", "leak", False), ("engine", "leak", True), ("engine", "crack", False)],
)
def test_nothing_else_has_a_class(there: There, part: str, condition: str, denied: bool) -> None:
    """Air, a leak that is not there and any other trouble have none."""
    assert [] == leaked(finding("it is dripping", part, condition, denied), there("it is dripping"))


def test_class_as_answered(there: There) -> None:
    """What was answered when the class was asked for counts, and more than the words of the walk."""
    one = finding("lift cylinder is leaking", "lift cylinder")
    answers = {question_of(one): "drops form but do not fall: they hang"}
    (line,) = leaked(one, there("lift cylinder is leaking", answers))
    assert "class II, as said: drops form but do not fall" == line.value
