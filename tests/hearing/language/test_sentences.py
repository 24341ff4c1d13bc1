"""What is made up from the vocabulary."""

import pytest

from saycheck.hearing.language.phrasing import names
from saycheck.hearing.language.sentences import Spelling, sentences
from saycheck.hearing.language.slots import Slots, ing, past, plural
from saycheck.hearing.language.talk import Talk, read_talk
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load, shared_tables
from saycheck.vocabulary.schema import Condition, Conditions


@pytest.fixture(scope="module")
def talk() -> Talk:
    return read_talk()


@pytest.fixture(scope="module")
def loader() -> Vocabulary:
    return load("wheel-loader")


@pytest.fixture(scope="module")
def conditions() -> list[Condition]:
    return [c for table in shared_tables("conditions.toml", Conditions) for c in table.condition]


def test_every_name_in_the_talk_files_is_known(
    talk: Talk, loader: Vocabulary, conditions: list[Condition]
) -> None:
    """No line asks for a list or a slot that there is not."""
    known = set(Slots(loader, conditions, lambda _: 1.0).all()) | set(talk.lists)
    asked = {name for manner in talk.manners for line in manner.lines for name in names(line)}
    assert set() == asked - known


def test_the_same_seed_says_the_same(talk: Talk, loader: Vocabulary, conditions: list[Condition]) -> None:
    """The language model of a vocabulary is the same on every machine."""
    one, two = (list(sentences(loader, conditions, talk, 50)) for _ in range(2))
    assert one == two
    assert one != list(sentences(loader, conditions, talk, 50, seed=2))


def test_all_words_can_be_said(talk: Talk, loader: Vocabulary, conditions: list[Condition]) -> None:
    """Words are lower case letters: no figures, signs, hyphens or capitals."""
    words = {word for said in sentences(loader, conditions, talk, 2000) for word in said}
    assert [] == [word for word in words if not word.replace("'", "").isalpha() or word != word.lower()]


def test_every_part_comes_up(talk: Talk, loader: Vocabulary, conditions: list[Condition]) -> None:
    """Enough is said that nearly every part of the machine is spoken of by its name."""
    text = " | ".join(" ".join(said) for said in sentences(loader, conditions, talk, 20_000))
    spelling = Spelling(talk)
    missing = [p.name for p in loader.parts if " ".join(spelling.folded(p.name.split())) not in text]
    assert len(missing) <= len(loader.parts) // 50, missing


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("left tire forty p s i", "left tyre forty psi"),
        ("bolt-on edge", "bolt on edge"),
        ("alright then", "all right then"),
        ("360 excavator", "excavator"),
        ("per cent left", "percent left"),
    ],
)
def test_spelling_is_made_one(talk: Talk, words: str, expected: str) -> None:
    """What sounds the same is written one way."""
    assert expected == " ".join(Spelling(talk).folded(words.split()))


@pytest.mark.parametrize(
    ("rule", "word", "expected"),
    [
        (plural, "battery", "batteries"), (plural, "bucket tooth", "bucket teeth"), (plural, "fuel box", "fuel boxes"),
        (plural, "teeth", "teeth"), (plural, "linkage", "linkages"),
        (ing, "leak", "leaking"), (ing, "drip", "dripping"), (ing, "move", "moving"), (ing, "let by", "letting by"),
        (past, "crack", "cracked"), (past, "chip", "chipped"), (past, "score", "scored"), (past, "tear", "torn"),
    ],
)  # fmt: skip
def test_forms(rule: object, word: str, expected: str) -> None:
    """Forms of nouns and verbs by rule."""
    assert callable(rule)
    assert expected == rule(word)
