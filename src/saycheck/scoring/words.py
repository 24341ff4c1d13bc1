"""Word errors of a heard text: how many words were swapped, dropped or added."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

_WORD = re.compile(r"[^\W_]+(?:['\u2019.][^\W_]+)*")


@dataclass(frozen=True, slots=True)
class WordErrors:
    """Counts of words: ``words`` were said, of which some were substituted or deleted; others inserted."""

    words: int
    substituted: int
    deleted: int
    inserted: int

    @property
    def errors(self) -> int:
        """All errors together."""
        return self.substituted + self.deleted + self.inserted

    @property
    def rate(self) -> float:
        """Errors over words said; may exceed 1. With nothing said, 0 for nothing heard, else infinite."""
        if self.words:
            return self.errors / self.words
        return float("inf") if self.errors else 0.0

    def __add__(self, other: "WordErrors") -> "WordErrors":
        """The errors of two texts together, weighted by their length."""
        return WordErrors(
            self.words + other.words,
            self.substituted + other.substituted,
            self.deleted + other.deleted,
            self.inserted + other.inserted,
        )


def word_errors(said: str | Sequence[str], heard: str | Sequence[str]) -> WordErrors:
    """Compare what was heard with what was said, at the least number of errors (Levenshtein 1966).

    Texts are cut into words, case and punctuation ignored; word lists are compared as they are.
    """
    from rapidfuzz.distance import Levenshtein

    one = spoken_words(said) if isinstance(said, str) else list(said)
    other = spoken_words(heard) if isinstance(heard, str) else list(heard)
    tags = [change.tag for change in Levenshtein.editops(one, other)]
    return WordErrors(len(one), tags.count("replace"), tags.count("delete"), tags.count("insert"))


def spoken_words(text: str) -> list[str]:
    """The words of a text in lower case, without punctuation; "don't" and "2.5" are one word each."""
    return [match.group().lower().replace("\u2019", "'") for match in _WORD.finditer(text)]
