"""Finding many phrases at once: longest first, plurals folded, gaps."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.understanding.phrases import PhraseTable, as_usual, plural, singular


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("hoses", "hose"),
        ("tyres", "tyre"),
        ("batteries", "battery"),
        ("bushes", "bush"),
        ("boxes", "box"),
        ("teeth", "tooth"),
        ("glasses", "glass"),
        ("assemblies", "assembly"),
        ("gauges", "gauge"),
        ("bolts", "bolt"),
        ("glass", "glass"),  # no plural
        ("chassis", "chassis"),
        ("gas", "gas"),
        ("bus", "bus"),
        ("is", "is"),
        ("this", "this"),
        ("pin's", "pin's"),
        ("mirror", "mirror"),
        ("latches", "latch"),
    ],
)
def test_singular(word: str, expected: str) -> None:
    """Plurals of the trade fold to their singular; words that only end alike stay."""
    assert expected == singular(word)


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("hose", "hoses"),
        ("tooth", "teeth"),
        ("battery", "batteries"),
        ("key", "keys"),
        ("bush", "bushes"),
        ("box", "boxes"),
        ("crack", "cracks"),
    ],
)
def test_plural(word: str, expected: str) -> None:
    """The plural is made by rule, or looked up where English has its own."""
    assert expected == plural(word)


@pytest.mark.parametrize(
    "word", "hose tyre tooth battery bush box gauge bolt glass knife cable axle nozzle step lens".split()
)
def test_singular_of_plural(word: str) -> None:
    """A noun made plural and back is the same noun."""
    assert word == singular(plural(word))


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("cannae", "can't"),
        ("cannot", "can't"),
        ("doesnt", "doesn't"),
        ("leakin", "leaking"),
        ("thin", "thin"),  # a word of its own
        ("cabin", "cabin"),  # no phrase has it with a g
        ("leaking", "leaking"),
    ],
)
def test_as_usual(word: str, expected: str) -> None:
    """ "Not" at the end of a word and "-ing" are said in more ways than one; phrases have one of them."""
    form = as_usual(["keeps leaking", "can't hold it", "a thing", "thin"])
    assert expected == form(word)


@pytest.fixture
def table() -> PhraseTable[str]:
    """A few phrases that share their beginnings."""
    table: PhraseTable[str] = PhraseTable(singular)
    table.add_all(["lift cylinder", "lift ram"], "lift cylinder")
    table.add("cylinder", "any cylinder")
    table.add("lift cylinder hose", "its hose")
    table.add("keep * eye", "watch")
    return table


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("the cylinder", [(1, 2, ["any cylinder"])]),
        ("lift cylinder", [(0, 2, ["lift cylinder"])]),  # the longest wins
        ("lift cylinders", [(0, 2, ["lift cylinder"])]),
        ("lift cylinder hoses", [(0, 3, ["its hose"])]),
        ("lift cylinder lift ram", [(0, 2, ["lift cylinder"]), (2, 4, ["lift cylinder"])]),
        ("lift the cylinder", [(2, 3, ["any cylinder"])]),
        ("lift", []),  # the beginning alone is no phrase
        ("keep an eye", [(0, 3, ["watch"])]),
        ("keep half a good eye", [(0, 5, ["watch"])]),
        ("keep eye", []),  # the gap wants one word at least
        ("keep just about half an eye", []),  # and three at most
        ("", []),
    ],
)
def test_find(table: PhraseTable[str], words: str, expected: list[tuple[int, int, list[str]]]) -> None:
    """Every longest phrase is found once, from left to right, without overlap."""
    assert expected == list(table.find(words.split()))


def test_two_values_of_one_phrase() -> None:
    """A phrase that stands for two things keeps both, in the order in which they were given."""
    table: PhraseTable[str] = PhraseTable()
    table.add("wet", "leak")
    table.add("wet", "weather")
    table.add("wet", "leak")
    assert (1, ["leak", "weather"]) == table.longest(["wet"], 0)


def test_folding_is_asked_for() -> None:
    """Without a fold words are compared as they are."""
    table: PhraseTable[str] = PhraseTable()
    table.add("hose", "hose")
    assert table.longest(["hoses"], 0) is None


@given(st.lists(st.sampled_from("lift cylinder ram hose keep an eye the".split()), max_size=12))
def test_hits_never_overlap(words: list[str]) -> None:
    """Whatever is said, hits stand in order and share no word."""
    table: PhraseTable[str] = PhraseTable()
    table.add_all(["lift cylinder", "cylinder hose", "keep * eye", "eye", "lift"], "hit")
    at = 0
    for start, end, _ in table.find(words):
        assert at <= start < end <= len(words)
        at = end
