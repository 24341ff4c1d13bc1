"""What is said of a part: the shipped conditions in all their forms, and small tables by hand."""

from collections.abc import Callable

import pytest

from saycheck.understanding.conditions import ConditionFinder, sayings, stuff
from saycheck.understanding.text import Reading, Token
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Condition, Conditions

Cut = Callable[[str], list[str]]
Read = Callable[..., Reading]
Names = Callable[[str], list[tuple[str, str]]]

LEAK = Condition(
    name="leak", form="fault", state="writeup", nouns=["leak"], verbs=["drip"], phrases=["wet at"]
)
MUD = Condition(name="dirty", form="fault", state="watch", alone=False, nouns=["mud"], adjectives=["muddy"])
GOOD = Condition(name="good", form="fine", state="good", adjectives=["good"])


@pytest.fixture(scope="module")
def shipped() -> list[Condition]:
    """The shipped conditions."""
    return [c for table in shared_tables("conditions.toml", Conditions) for c in table.condition]


def found(finder: ConditionFinder, words: list[str]) -> list[tuple[str, str]]:
    """The conditions found in words, as (words, name)."""
    reading = Reading(" ".join(words), [Token(word, 0, 0) for word in words])
    finder(reading)
    return [(" ".join(words[m.start : m.end]), m.value.condition.name) for m in reading.of("condition")]


@pytest.fixture(scope="module")
def names(shipped: list[Condition], cut: Cut) -> Names:
    """Finds the shipped conditions of a text, as (words, name)."""
    finder = ConditionFinder(shipped)
    return lambda text: found(finder, cut(text))


def test_every_wording() -> None:
    """Nouns get plurals, verbs their forms, and each wording knows its word class."""
    assert [
        ("leak", "noun"),
        ("leaks", "noun"),
        ("drip", "verb"),
        ("drips", "verb"),
        ("dripped", "adjective"),  # may stand before the part
        ("dripping", "adjective"),
        ("wet at", "phrase"),
    ] == list(sayings(LEAK))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("two drips there", [("drips", "leak")]),
        ("wet at the gland", [("wet at", "leak")]),
        ("good, no leaks", [("good", "good"), ("leaks", "leak")]),
        ("goods", []),  # words are whole
    ],
)
def test_found_by_hand(cut: Cut, text: str, expected: list[tuple[str, str]]) -> None:
    """Every wording of every table is found, in order."""
    assert expected == found(ConditionFinder([LEAK, MUD, GOOD]), cut(text))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Loader seven at Holland Scar.", []),  # a place
        ("Dent Farm, first walk.", []),
        ("It has a scar.", ["chipped"]),
        ("Lift Cylinder Leaking.", ["leak"]),  # capitals behind a part are a manner of writing
        ("Leaking badly.", ["leak"]),
    ],
)
def test_names_of_places(read: Read, text: str, expected: list[str]) -> None:
    """A word with a capital beside another is a name and says nothing of a part."""
    assert expected == [m.value.condition.name for m in read(text).of("condition")]


def test_stuff_is_what_never_stands_alone() -> None:
    """Single nouns of tables that never stand alone are stuff on a part, not a fault by themselves."""
    table = stuff([LEAK, MUD, GOOD])
    assert {"mud": "dirty"} == {noun: said.condition.name for noun, said in table.items()}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("weeping a bit", ("weeping", "leak")),
        ("weld is cracked", ("cracked", "crack")),
        ("a hairline in the weld", ("hairline", "crack")),
        ("pin has slop", ("slop", "play")),
        ("hose is chafed", ("chafed", "chafed")),
        ("seat is goosed", ("goosed", "broken")),
        ("oil is on the money", ("on the money", "good")),
        ("bolt is loose", ("loose", "loose")),
        ("bolt's gone", ("gone", "missing")),
        ("one is missing", ("missing", "missing")),
        ("edge is worn", ("worn", "worn")),
        ("guard is bent", ("bent", "bent")),
        ("rod is scored", ("scored", "scored")),
        ("level is low", ("low", "low")),
        ("all tight", ("tight", "tight")),
        ("bone dry", ("bone dry", "dry")),
        ("valve is passing oil", ("passing oil", "leak")),
        ("rod has a bead of oil", ("bead of oil", "leak")),
        ("blade's in ribbons", ("in ribbons", "split")),
        ("step is dangling", ("dangling", "broken")),
        ("bore has gone oval", ("gone oval", "play")),
        ("cap is held with baler twine", ("baler twine", "mismatched")),
        ("alarm's not sounding", ("not sounding", "inoperative")),
        ("oil is between minimum and maximum", ("between minimum and maximum", "level")),
        ("all four turn freely", ("turn freely", "works")),
        ("pin's in with its clip", ("in with its clip", "tight")),
        ("rollers are turning free", ("turning free", "works")),
        ("gland is weepin", ("weepin", "leak")),
        ("bone dry of grease", ("bone dry of grease", "dry")),  # the longer saying means the opposite
    ],
)
def test_shipped_words(names: Names, text: str, expected: tuple[str, str]) -> None:
    """The shop's words lead to the condition that the trade means by them."""
    assert expected in names(text)


@pytest.mark.parametrize(
    ("watched", "written_up"),
    [("weep", "leak"), ("bent", "snapped"), ("chip", "crack")],
)
def test_weights(shipped: list[Condition], watched: str, written_up: str) -> None:
    """Of two shipped words the trade takes one harder: it is written up, the other is watched."""
    states = {word: c.state for c in shipped for word, _ in sayings(c)}
    assert ("watch", "writeup") == (states[watched], states[written_up])
