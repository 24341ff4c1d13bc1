"""Words that tell how a clause is meant, by category, and what switches them off."""

from collections.abc import Callable

import pytest

from saycheck.understanding.cues import CueFinder
from saycheck.understanding.text import Reading, Token
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Cue, Cues

Cut = Callable[[str], list[str]]
Cued = Callable[[str], dict[str, list[str]]]


@pytest.fixture(scope="module")
def cued(cut: Cut) -> Cued:
    """Finds the shipped cues of a text: category to the words found."""
    finder = CueFinder([c for table in shared_tables("cues.toml", Cues) for c in table.cue])

    def find(text: str) -> dict[str, list[str]]:
        words = cut(text)
        reading = Reading(text, [Token(word, 0, 0) for word in words])
        finder(reading)
        return {
            kind: [" ".join(words[m.start : m.end]) for m in mentions]
            for kind, mentions in reading.mentions.items()
            if mentions
        }

    return find


@pytest.mark.parametrize(
    ("text", "category", "words"),
    [
        ("no cracks", "deny", "no"),
        ("isn't leaking", "deny", "isn't"),
        ("not seeing any leaks", "deny", "not seeing any"),
        ("couldn't find a loose one", "deny", "couldn't find a"),
        ("leaks none", "deny-after", "none"),
        ("a touch slack", "slight", "a touch"),
        ("badly worn", "strong", "badly"),
        ("keep an eye on it", "keep-an-eye", "keep an eye on"),
        ("write that up", "needs-work", "write that up"),
        ("you always look there", "teach", "you always"),
        ("if it goes", "hypothesis", "if"),
        ("last year it went", "story", "last year"),
        ("the loader over there", "other-machine", "over there"),
        ("i'll do it later", "later", "later"),
        ("can't see it for mud", "hidden", "can't see"),
        ("couldn't get a look at it", "hidden", "couldn't get a look"),
        ("i cannae see the seal", "hidden", "can't see"),
        ("it cannot be seen from here", "hidden", "cannot be seen"),
        ("that's deferred", "later", "deferred"),
        ("not tested yet", "later", "not tested yet"),
        ("coolant once it cools", "later", "once it cools"),
        ("lights we'll get to", "later", "we'll get to"),
        ("heater, morning shift", "later", "morning shift"),
        ("drain plug, can't get low enough", "hidden", "can't get low enough"),
        ("keepin an eye on that", "keep-an-eye", "keepin an eye"),
        ("scratch that", "take-back", "scratch that"),
        ("no wait, the right", "correct", "no wait"),
        ("ditto on the right", "same", "ditto"),
        ("all tight except two", "except", "except"),
        ("and this one here", "here", "this one here"),
    ],
)
def test_categories(cued: Cued, text: str, category: str, words: str) -> None:
    """Each way of meaning something has its words, the longest that fit."""
    assert words in cued(text).get(category, [])


@pytest.mark.parametrize(
    ("text", "category"),
    [
        ("no doubt it leaks", "deny"),
        ("no wait", "deny"),
        ("not sure it's cracked", "deny"),
        ("could do with grease", "hypothesis"),
        ("same as last time", "story"),
        ("worse than last year", "story"),
        ("i would say so", "hypothesis"),
        ("i'd call that fair", "correct"),
    ],
)
def test_guards(cued: Cued, text: str, category: str) -> None:
    """A longer saying that only looks like a cue takes the cue's force away."""
    assert category not in cued(text)


def test_guard_covers_only_itself(cut: Cut) -> None:
    """A second cue outside the guarding words keeps its force."""
    finder = CueFinder(
        [Cue(category="deny", phrases=["no"]), Cue(category="not-denial", phrases=["no doubt"])]
    )
    words = cut("no doubt there is no crack")
    reading = Reading("", [Token(word, 0, 0) for word in words])
    finder(reading)
    assert [4] == [m.start for m in reading.of("deny")]


def test_categories_may_overlap(cut: Cut) -> None:
    """Each category is sought by itself: one stretch may be two things until it is known which."""
    finder = CueFinder(
        [Cue(category="deny", phrases=["can't see any"]), Cue(category="hidden", phrases=["can't see"])]
    )
    words = cut("can't see any leaks")
    reading = Reading("", [Token(word, 0, 0) for word in words])
    finder(reading)
    assert ([(0, 3)], [(0, 2)]) == (
        [(m.start, m.end) for m in reading.of("deny")],
        [(m.start, m.end) for m in reading.of("hidden")],
    )
