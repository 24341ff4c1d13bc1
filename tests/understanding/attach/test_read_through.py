"""What is told in words that no table knows: statements of what the encoder alone sees."""

from collections.abc import Callable

import pytest

from saycheck.understanding import throughout
from saycheck.understanding.pipeline import attached
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading

KIND = "wheel-loader"
Telling = Callable[[str], None]


@pytest.fixture
def telling(monkeypatch: pytest.MonkeyPatch) -> Telling:
    """Has the encoder say that the words of a stretch, found by its words, tell something, and no others."""

    def stand_in(words: str) -> None:
        def told(reading: Reading) -> list[float]:
            at = reading.text.find(words)
            return [float(at <= token.start < at + len(words)) for token in reading.tokens]

        monkeypatch.setattr(throughout, "telling", told)

    return stand_in


def read_in(text: str) -> list[tuple[str, str, Statement]]:
    """(part, words, statement) of every statement that was only read."""
    reading, made = attached(text, KIND)
    return [(s.subject.part.name, reading.quote(s.start, s.end), s) for s in made if "read" in s.marks]


@pytest.mark.parametrize(
    ("text", "words", "expected"),
    [
        (
            "Horn works. Wipers. Like a gate they are.",
            "Like a gate they are",
            ("windscreen wiper", "Like a gate they are"),
        ),
        ("Horn works. Danced!", "Danced", ("horn", "Danced")),  # all of its sentence
        ("Horn works. Never mind, danced.", "danced", None),  # one word among others
        (
            "Horn works. Never mind, how she danced, eh.",
            ", how she danced,",
            ("horn", "how she danced"),
        ),  # no marks at its ends
    ],
)
def test_what_is_told_in_other_words(
    telling: Telling, text: str, words: str, expected: tuple[str, str] | None
) -> None:
    """It is said of the part that was spoken of last."""
    telling(words)
    assert ([expected] if expected else []) == [(part, told) for part, told, _ in read_in(text)]


def test_of_no_part_nothing_is_told(telling: Telling) -> None:
    """Before any part was named, or long after it, there is nothing that words could be about."""
    telling("it danced all day")
    assert not read_in("Well now, it danced all day.")
    assert not read_in(f"Horn works. {'We had our tea then. ' * 6}Well, and it danced all day.")


def test_what_rules_have_found_stays_theirs(telling: Telling) -> None:
    """Words that stand in a statement are told once."""
    telling("Horn is cracked")
    assert not read_in("Horn is cracked.")


def test_what_stands_beside_what_rules_found_is_more_of_it(telling: Telling) -> None:
    """A number that the rules gave to a part has the words before it."""
    telling("Dear me what do we see two hundred and thirty volts")
    assert not read_in("Isolator. Dear me what do we see two hundred and thirty volts, my friends.")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Bonnet. Radiator, left.", "Radiator, left"),  # a name and a place say nothing
        ("Horn. What a day we have no cracks in the bucket.", "What a day we have no"),  # no mark between
    ],
)
def test_what_says_nothing_by_itself(telling: Telling, text: str, words: str) -> None:
    """A heading, and the beginning of what the rules have found, are no statements."""
    telling(words)
    assert not read_in(text)


def test_without_an_encoder_nothing_is_read() -> None:
    """A single sentence is no narration: rules alone decide."""
    assert not read_in("Horn works. It danced.")
