"""Of which part something is said where another name stands nearer."""

from collections.abc import Callable, Iterator

import numpy as np
import pytest

from saycheck.understanding import antecedent
from saycheck.understanding.antecedent import Antecedents, Choice, likelihoods, settle
from saycheck.understanding.encoder import Read
from saycheck.understanding.encoder import trained as trained_encoder
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


def test_the_encoder_is_asked_of_the_own_part_first() -> None:
    """Then of those named before, the last named first; each with a number for everything that is told of it."""
    reading, made = attached("Fan belt is tight. Horn works, seat belt's torn.", KIND)
    choices = Antecedents(reading, made).pointed(made[-1])
    assert ["seat belt", "horn", "fan belt"] == [c.subject.part.name for c in choices]
    assert [1.0, 0.0, 0.0] == [c.told[Choice.TOLD.index("own")] for c in choices]
    assert {len(Choice.TOLD)} == {len(c.told) for c in choices}
    words = reading.all_words
    assert ["horn", "fan belt"] == [" ".join(words[c.start : c.end]).lower() for c in choices[1:]]


@pytest.mark.parametrize("start", [0, 200])
def test_likelihoods_are_shares(start: int) -> None:
    """All choices together make 1; one whose name was not read together with the statement has none of it."""
    encoder = trained_encoder()
    assert encoder is not None
    subject = attached("Horn works.", KIND)[1][0].subject
    meaning = np.random.default_rng(3).standard_normal((50, 384)).astype(np.float32)
    made = Read(meaning, [(start, meaning)], encoder.heads)
    told = (0.5,) * len(Choice.TOLD)
    near, far = (Choice(subject, at, at + 2, told) for at in (start + 5, start - 100 if start else start + 9))
    (shares,) = likelihoods(made, [(range(start + 20, start + 24), [near, far])])
    assert 1 == pytest.approx(float(shares.sum()), abs=1e-5)
    assert (shares[1] == 0) == (start > 0)
