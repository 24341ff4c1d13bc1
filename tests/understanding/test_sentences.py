"""Where a sentence ends when the transcript has marks, lines or pauses."""

import pytest

from saycheck.understanding.sentences import cut
from saycheck.understanding.text import Reading, Token, split


def reading(text: str, pauses: dict[int, float] | None = None) -> Reading:
    """A reading of plain words, with pauses in s before the words that begin at the offsets given."""
    held = pauses or {}
    tokens = [Token(w.lower(), a, b, held.get(a, 0.0)) for w, a, b in split(text)]
    return Reading(text, tokens)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Bucket is good. Edge is worn.", ["Bucket is good.", "Edge is worn."]),
        ("Bucket is good! Edge?", ["Bucket is good!", "Edge?"]),
        ("Bucket is good; edge is worn.", ["Bucket is good;", "edge is worn."]),
        ("Bucket good, edge worn.", ["Bucket good, edge worn."]),  # a comma parts clauses, not sentences
        ("Bucket good\nedge worn", ["Bucket good", "edge worn"]),  # a new line is a new thought
        ("Well... bucket.", ["Well...", "bucket."]),  # several marks end one sentence
        ("12.6 volts.", ["12.6 volts."]),  # a decimal point ends nothing
        ("no marks at all", ["no marks at all"]),
    ],
)
def test_marks(text: str, expected: list[str]) -> None:
    """Sentences end at marks and lines."""
    given = reading(text)
    assert expected == [given.quote(a, b) for a, b in cut(given)]


@pytest.mark.parametrize(("pause", "expected"), [(0.1, 1), (0.69, 1), (0.7, 2), (3.0, 2)])
def test_long_pause(pause: float, expected: int) -> None:
    """A pause of 0.7 s or more ends a sentence; a breath does not."""
    assert expected == len(cut(reading("bucket good edge worn", {12: pause})))


@pytest.mark.parametrize("text", ["", "a", "One. Two. Three", "...", "x\n\ny;z"])
def test_every_token_in_one_sentence(text: str) -> None:
    """Sentences follow one another without gap or overlap."""
    given = reading(text)
    assert list(range(len(given.tokens))) == [i for a, b in cut(given) for i in range(a, b)]
