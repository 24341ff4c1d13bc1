"""How words swapped, dropped and added are counted; against jiwer and sclite see ``tests/outside``."""

import pytest

from saycheck.scoring import WordErrors, word_errors
from saycheck.scoring.words import spoken_words


@pytest.mark.parametrize(
    ("said", "heard", "expected"),
    [
        ("Left tyre, four eight p s i.", "left tyre four eight p s i", WordErrors(7, 0, 0, 0)),
        ("the gland is dry", "the gland dry", WordErrors(4, 0, 1, 0)),
        ("no cracks", "no cracks at all", WordErrors(2, 0, 0, 2)),
        ("pin's loose", "pins loose", WordErrors(2, 1, 0, 0)),
        ("", "you", WordErrors(0, 0, 0, 1)),
        ("dry", "", WordErrors(1, 0, 1, 0)),
    ],
)
def test_counts_by_kind(said: str, heard: str, expected: WordErrors) -> None:
    """Case and punctuation do not count, an apostrophe inside a word does."""
    assert expected == word_errors(said, heard)


def test_rate_of_nothing_said() -> None:
    """Words heard where nothing was said are an infinite rate, silence heard as silence is none."""
    assert float("inf") == word_errors("", "you").rate
    assert word_errors("", "").rate == 0.0


def test_spoken_words() -> None:
    """Numbers with a point and words with an apostrophe stay whole."""
    assert ["it's", "12.5", "volts", "left", "hand"] == spoken_words("It\u2019s 12.5 volts (left-hand).")
