"""What nobody could hear is kept, shown as unclear, and never understood."""

import pytest

from saycheck.models.walk import Disposition, Span, Transcript, Word
from saycheck.unclear import held_back, with_unclear, wordless_as_talk

TEXT = "one two three four"


def words() -> list[Word]:
    """The words of TEXT."""
    at, found = 0, []
    for word in TEXT.split():
        found.append(Word(text=word, char_start=at, char_end=at + len(word)))
        at += len(word) + 1
    return found


def span(start: int, end: int, disposition: str = "unclear") -> Span:
    """A span of TEXT."""
    return Span.model_validate({"char_start": start, "char_end": end, "disposition": disposition})


@pytest.mark.parametrize(
    ("unclear", "text", "clear"),
    [
        ([], TEXT, ["one", "two", "three", "four"]),
        ([span(4, 7)], "one .   three four", ["one", "three", "four"]),
        ([span(0, 3), span(14, 18)], ".   two three .   ", ["two", "three"]),
        ([span(0, 18)], ".".ljust(18), []),
    ],
)
def test_unclear_words_are_held_back(unclear: list[Span], text: str, clear: list[str]) -> None:
    """Understanding gets a text of the same length with blanks, so that offsets stay true."""
    given, kept = held_back(Transcript(text=TEXT, words=words(), spans=unclear))
    assert text == given
    assert clear == [word.text for word in kept]


@pytest.mark.parametrize(
    ("found", "unclear", "whole"),
    [
        ([], [], []),
        ([(0, 18)], [], [(0, 18)]),
        ([(0, 18)], [(4, 7)], [(0, 4), (4, 7), (7, 18)]),
        ([(0, 5), (5, 18)], [(4, 8)], [(0, 4), (4, 8), (8, 18)]),
        ([(4, 7)], [(4, 7)], [(4, 7)]),
        ([(0, 8), (8, 18)], [(0, 3), (14, 18)], [(0, 3), (3, 8), (8, 14), (14, 18)]),
    ],
)
def test_spans_are_cut_where_it_is_unclear(
    found: list[tuple[int, int]], unclear: list[tuple[int, int]], whole: list[tuple[int, int]]
) -> None:
    """The spans of understanding and of hearing together cover the text once."""
    spans = with_unclear([span(*ends, "talk") for ends in found], [span(*ends) for ends in unclear], TEXT)
    assert whole == [(one.char_start, one.char_end) for one in spans]
    assert unclear == [(one.char_start, one.char_end) for one in spans if one.disposition == "unclear"]


@pytest.mark.parametrize(
    ("there", "before", "after"),
    [
        (" ", "unclear", "talk"),
        (". \u2013 ", "unclear", "talk"),
        (" 4", "unclear", "unclear"),  # a number may be a measurement
        ("a", "unclear", "unclear"),
        (" ", "command", "command"),
    ],
)
def test_unclear_without_a_word_is_talk(there: str, before: Disposition, after: Disposition) -> None:
    """A blank or a stop is nothing that anybody could look at."""
    given = Span(char_start=3, char_end=3 + len(there), disposition=before)
    (told,) = wordless_as_talk([given], "one" + there)
    assert (3, 3 + len(there), after) == (told.char_start, told.char_end, told.disposition)


def test_a_cut_leaves_nothing_unclear_without_a_word() -> None:
    """Of an unclear stretch that a command is cut out of, only what has words stays unclear."""
    spans = with_unclear([span(0, 8)], [span(4, 7, "command")], TEXT)
    assert [(0, 4, "unclear"), (4, 7, "command"), (7, 8, "talk")] == [
        (one.char_start, one.char_end, one.disposition) for one in spans
    ]
