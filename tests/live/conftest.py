"""Words with times, as ears give them."""

from collections.abc import Callable, Iterator

import pytest

import yard as yards
from saycheck.models.hearing import HeardWord
from saycheck.models.walk import Transcript, Word
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load


@pytest.fixture(scope="session")
def loader() -> Vocabulary:
    """The vocabulary of the wheel loader."""
    return load("wheel-loader")


@pytest.fixture
def heard() -> Callable[..., list[HeardWord]]:
    """Makes words of a text, half a second each from ``start_s`` on."""

    def make(text: str, start_s: float = 0.0) -> list[HeardWord]:
        return [
            HeardWord(text=word, start_s=start_s + place / 2, end_s=start_s + place / 2 + 0.4, confidence=0.9)
            for place, word in enumerate(text.split())
        ]

    return make


@pytest.fixture
def transcript(heard: Callable[..., list[HeardWord]]) -> Callable[[str], Transcript]:
    """Makes a transcript of a text, half a second a word."""

    def make(text: str) -> Transcript:
        words, at = [], 0
        for one in heard(text):
            words.append(Word(**one.model_dump(), char_start=at, char_end=at + len(one.text)))
            at += len(one.text) + 1
        return Transcript(text=text, words=words)

    return make


@pytest.fixture(scope="module")
def yard(tmp_path_factory: pytest.TempPathFactory) -> Iterator[yards.Yard]:
    """A microphone without hardware."""
    lacking = yards.missing()
    if lacking:
        pytest.skip(f"no microphone can be made without {lacking}")
    with yards.Yard(tmp_path_factory.mktemp("yard") / "pulse") as made:
        yield made
