"""The language model of a machine kind."""

from pathlib import Path

import pytest

from saycheck.hearing.language.kneser_ney import estimate
from saycheck.hearing.language.lookup import WordModel
from saycheck.hearing.language.model import write_dictionary
from saycheck.hearing.language.sentences import Spelling
from saycheck.hearing.language.talk import Talk

LINES = [
    line.split() for line in ("left pin dry", "left pin loose", "right hose dry", "left pin dry and loose")
]


@pytest.fixture
def words() -> WordModel:
    return WordModel(estimate(LINES), Spelling(Talk({}, (), {"gudgeon": "pin"})))


@pytest.mark.parametrize(
    "history",
    [
        (),
        ("<s>",),
        ("<s>", "<s>"),
        ("left",),
        ("left", "pin"),
        ("dry", "left"),
        ("loose", "dry"),
        ("zebra", "pin"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("word", ["dry", "pin", "loose", "</s>"])
def test_quick_look_up_is_the_trigram(words: WordModel, history: tuple[str, ...], word: str) -> None:
    """The quick look-up says what the arrays say."""
    assert estimate(LINES).p(history, word) == pytest.approx(10 ** words.logp10(history, word))


def test_unknown_word(words: WordModel) -> None:
    """A word that the vocabulary lacks is known to be unknown."""
    assert not words.knows("zebra")
    assert -10 == words.logp10(("left",), "zebra")
    assert words.knows("pin")


def test_spelling(words: WordModel) -> None:
    """Words can be brought to the spelling of the model."""
    assert ["pin"] == words.folded(["gudgeon"])


def test_dictionary(tmp_path: Path) -> None:
    """Each way to say a word has a line, numbered from the second on."""
    write_dictionary(["<s>", "</s>", "lead", "bolt's"], tmp_path / "words.dict")
    lines = (tmp_path / "words.dict").read_text(encoding="utf-8").splitlines()
    assert ["lead L EH D", "lead(2) L IY D", "bolt's B OW L T S"] == lines
