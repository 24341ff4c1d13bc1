"""The transcript cut into tokens: what counts as one word, and that no place in the text moves."""

import pytest
import spacy
from hypothesis import given
from hypothesis import strategies as st

from saycheck.understanding.pipeline import Tokenizer
from saycheck.understanding.text import Mention, Reading, plain, runs, split, tokens_of, words_of

VOCAB = spacy.blank("en").vocab


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Bucket is good.", ["bucket", "is", "good", "."]),
        ("twenty-five", ["twenty", "five"]),  # the hyphen inside a word is left out
        ("weld – good", ["weld", "–", "good"]),  # between words a dash is a pause
        ("um the uh pin", ["the", "pin"]),  # hesitations are left out
        ("twenty um five", ["twenty", "five"]),
        ("12,480 hours", ["12,480", "hours"]),  # thousands stay together
        ("12.6 volts", ["12.6", "volts"]),
        ("3/16 in", ["3/16", "in"]),
        ("2½", ["2", "½"]),
        ("48psi", ["48", "psi"]),  # a unit stuck to its figure comes off
        ("pin's loose", ["pin", "'s", "loose"]),
        ("isn’t", ["isn't"]),  # a curly apostrophe is a straight one
        ("the pin’s", ["the", "pin", "'s"]),
        ("first,second", ["first", ",", "second"]),
        ("", []),
        ("   \n ", []),
        ("naïve", ["na", "ï", "ve"]),  # letters with marks are cut, never lost
    ],
)
def test_tokens(text: str, expected: list[str]) -> None:
    """A text falls into words, figures and marks in lower case."""
    assert expected == [t.text for t in tokens_of(text)]


@pytest.mark.parametrize(
    ("phrase", "expected"),
    [
        ("Lift-arm pin", ("lift", "arm", "pin")),
        ("no idea", ("no", "idea")),
        ("PSI", ("psi",)),
        ("um good", ("good",)),
        ("isn’t", ("isn't",)),
        ("", ()),
    ],
)
def test_words_of(phrase: str, expected: tuple[str, ...]) -> None:
    """A saying of the vocabulary is cut as the transcript is, so that the two can meet."""
    assert expected == words_of(phrase)


@pytest.mark.parametrize(
    ("word", "expected"),
    [("PSI", "psi"), ("It’s", "it's"), ("ok", "ok"), ("Nae", "no"), ("doesnae", "doesn't"), ("yin", "one")],
)
def test_plain(word: str, expected: str) -> None:
    """Words are compared in lower case, with straight apostrophes, those of a dialect as what they mean."""
    assert expected == plain(word)


@given(st.text(max_size=60))
def test_split_loses_nothing(text: str) -> None:
    """Between two tokens of any text there is nothing but white space, and each stands where it says."""
    at = 0
    for word, start, end in split(text):
        assert word == text[start:end]
        assert not text[at:start].strip()
        at = end
    assert not text[at:].strip()


@given(st.text(max_size=60))
def test_doc_keeps_the_text(text: str) -> None:
    """The document of any text is that text, unchanged."""
    assert text == Tokenizer(VOCAB)(text).text


def test_offsets_count_characters_of_the_text() -> None:
    """Hesitations and hyphens are left out of the tokens, never out of the places."""
    text = "The um pin-hole weeps."
    assert ["The", "pin", "hole", "weeps", "."] == [text[t.start : t.end] for t in tokens_of(text)]


def test_pause_is_kept_with_the_word_behind_it() -> None:
    """A pause that the ear measured stands at the word that begins where it ended."""
    assert [0.0, 0.8] == [t.pause for t in tokens_of("good tyres", {5: 0.8})]


def test_reading_quotes_the_text() -> None:
    """A stretch of tokens is quoted as it stands in the text, marks and capitals included."""
    text = "Left, Front tyre"
    reading = Reading(text, tokens_of(text))
    assert ("Left, Front", (0, 11)) == (reading.quote(0, 3), reading.span(0, 3))


@pytest.mark.parametrize(
    ("start", "end", "expected"),
    [
        (2, 4, True),
        (3, 9, True),
        (0, 2, False),  # ends where the other begins
        (5, 6, False),
    ],
)
def test_overlap(start: int, end: int, expected: bool) -> None:
    """Two mentions overlap where they share a token; ends are half-open."""
    assert expected == Mention("part", 2, 5).overlaps(Mention("part", start, end))


def test_unknown_kind_of_mention() -> None:
    """What was never looked for is not there."""
    assert [] == Reading("", []).of("part")


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("a bit o rust", "a bit of rust"),
        ("one o them", "one of them"),
        ("three quarters o an inch", "three quarters of an inch"),
        ("four one five o", "four one five o"),
        ("two o five", "two o five"),
        ("fourteen o five", "fourteen o five"),
    ],
)
def test_a_bare_o_is_of_or_nought(said: str, read: str) -> None:
    """Behind a number it is a nought, unless it is plain what the number counts."""
    assert read == " ".join(token.text for token in tokens_of(said))


@pytest.mark.parametrize(
    ("flags", "expected"),
    [([], []), ([True], [(0, 1)]), ([False, True, True, False, True], [(1, 3), (4, 5)])],
)
def test_runs(flags: list[bool], expected: list[tuple[int, int]]) -> None:
    """Each run of true, half-open."""
    assert expected == runs(flags)


def test_mentions_by_sentence() -> None:
    """Each mention goes to the sentence that it begins in; what is found later is not missed."""
    reading = Reading("", [], sentences=[(0, 4), (4, 9)])
    reading.mentions = {"story": [Mention("story", 4, 6)], "teach": [Mention("teach", 1, 2)]}
    kinds = ("teach", "story", "hidden")
    assert [["teach"], ["story"]] == [[m.kind for m in row] for row in reading.by_sentence(kinds)]
    reading.mentions["hidden"] = [Mention("hidden", 2, 3)]
    assert [["teach", "hidden"], ["story"]] == [[m.kind for m in row] for row in reading.by_sentence(kinds)]
    assert [] == Reading("", [], mentions=dict(reading.mentions)).by_sentence(kinds)
