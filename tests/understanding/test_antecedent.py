"""Of which part something is said where another name stands nearer."""

from collections.abc import Callable, Iterator

import pytest

from saycheck.understanding import antecedent
from saycheck.understanding.antecedent import Antecedents, settle
from saycheck.understanding.linear import STANDING_IN, Linear
from saycheck.understanding.pipeline import attached
from saycheck.understanding.statements import Statement

KIND = "wheel-loader"
Statements = Callable[..., list[Statement]]


@pytest.fixture
def sure() -> Iterator[None]:
    """A model that always takes the part named last before."""
    STANDING_IN["antecedents"] = Linear(["another", "own"], [2.0, 0.0], {})
    yield
    del STANDING_IN["antecedents"]


def test_parts_named_before_the_last_first() -> None:
    """Other parts, each once, from the nearest back, not beyond what is said."""
    reading, made = attached(
        "Fan belt is tight. Radiator is clean. The fan belt again. Horn works, seat belt's torn.", KIND
    )
    known = Antecedents(reading, made)
    assert ["horn", "fan belt", "radiator"] == [n.subject.part.name for n in known.others(made[-1])]


def test_too_far_back_is_nothing() -> None:
    """A part is not looked for more than a few sentences back."""
    reading, made = attached("Fan belt is tight. One. Two. Three. Four. Horn is broken.", KIND)
    assert [] == Antecedents(reading, made).others(made[-1])


def test_the_part_that_is_meant(sure: None) -> None:
    """The statement is given the other part, without a claim to words that name it; its own side stands."""
    reading, made = attached("Handrail on the left. The lamp on the right is cracked.", KIND)
    settle(reading, made)
    subject = made[-1].subject
    assert ("handrail", -1, True, "right") == (
        subject.part.name,
        subject.start,
        subject.carried,
        subject.side,
    )


def test_what_is_said_again_keeps_its_part(sure: None) -> None:
    """ "Ditto" was said of a part on purpose."""
    reading, made = attached("Left mirror is cracked. Right mirror ditto.", KIND)
    settle(reading, made)
    assert ("mirrors", "right") == (made[-1].subject.part.name, made[-1].subject.side)


def test_a_list_is_not_one_part(sure: None) -> None:
    """Parts of a list of which the same words are said are each meant."""
    reading, made = attached("Hoses and mirrors all good.", KIND)
    settle(reading, made)
    assert ["loader hoses", "mirrors"] == [s.subject.part.name for s in made]


def test_without_weights_the_rules_decide(monkeypatch: pytest.MonkeyPatch) -> None:
    """The nearest name it is."""
    monkeypatch.setattr(antecedent, "trained", lambda name: None)
    reading, made = attached("Handrail. The windscreen is cracked.", KIND)
    settle(reading, made)
    assert "windscreen" == made[-1].subject.part.name


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("Windscreen is cracked.", "windscreen"),
        ("Fan belt is tight. Radiator is leaking.", "radiator"),
        ("Left lift cylinder, rod's bright. Seat belt is torn.", "seat belt"),
    ],
)
def test_a_plain_name_stays(statements: Statements, text: str, part: str) -> None:
    """What is plainly said of the part beside it is left there by the shipped weights."""
    assert part == statements(text)[-1].subject.part.name
