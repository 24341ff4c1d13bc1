"""A shop's own narrations in the language model of a machine kind."""

import json
from pathlib import Path

import pytest

from saycheck.errors import EarError
from saycheck.hearing.language.learned import LEARNED, choose, chosen, keep
from saycheck.hearing.language.model import Language, read, trade_language
from saycheck.hearing.sounds import in_dictionary
from saycheck.vocabulary.load import load

OWN = [
    "The gribbler pin is proper dozy. Gribbler pin wants a dollop of grease.",
    "Gribbler pin is proper dozy.",
]
KIND = "wheel-loader"


@pytest.fixture(autouse=True)
def nothing_learned(monkeypatch: pytest.MonkeyPatch) -> None:
    """No test learns what another one chose."""
    monkeypatch.setenv(LEARNED, "")


@pytest.fixture(scope="module")
def before() -> Language:
    """The model without anything of the shop's."""
    return trade_language(load(KIND))


@pytest.fixture(scope="module")
def after(tmp_path_factory: pytest.TempPathFactory, before: Language) -> Language:
    """The model that has learned ``OWN``."""
    return trade_language(load(KIND), learned=keep(OWN, tmp_path_factory.mktemp("cache")))


@pytest.mark.parametrize(
    ("history", "word"),
    [(("pin", "is"), "proper"), (("is", "proper"), "dozy"), ((), "dollop"), (("a", "dollop"), "of")],
)
def test_what_was_learned_is_likelier(
    before: Language, after: Language, history: tuple[str, ...], word: str
) -> None:
    """Words and their order as in the shop's narrations gain."""
    assert before.words.logp10(history, word) + 0.5 < after.words.logp10(history, word)


@pytest.mark.parametrize(
    ("history", "word"),
    [(("left", "front"), "tyre"), (("bucket",), "cracked"), (("lift",), "cylinder"), ((), "eye")],
)
def test_the_rest_stands(before: Language, after: Language, history: tuple[str, ...], word: str) -> None:
    """Where the shop's narrations do not hold the words before, all is as it was."""
    assert before.words.logp10(history, word) == pytest.approx(after.words.logp10(history, word), abs=0.01)


def test_it_is_still_a_model(after: Language) -> None:
    """The chances after a context that was learned add up to one, and none is below nought."""
    trigram = read(after.arpa.parent / "trigram.npz")
    assert 1.0 == pytest.approx(
        sum(trigram.p(("is", "proper"), word) for word in trigram.words[1:]), abs=1e-6
    )
    assert (trigram.pairs.p > 0).all()
    assert (trigram.triples.p > 0).all()


def test_a_word_that_no_dictionary_has_is_given_sounds(before: Language, after: Language) -> None:
    """A new word has a pronunciation, so that the trade ear can hear it."""
    assert not in_dictionary("gribbler")
    assert not before.words.knows("gribbler")
    lines = after.dictionary.read_text(encoding="utf-8").splitlines()
    assert ["gribbler G R IH B AH L ER"] == [line for line in lines if line.startswith("gribbler ")]


def test_the_shops_spelling_is_made_one(tmp_path: Path) -> None:
    """What the vocabulary writes otherwise is learned in the model's spelling."""
    learned = trade_language(load(KIND), learned=keep(["The tire gribbles at 40 P.S.I."], tmp_path)).words
    assert learned.logp10(("the", "tyre"), "gribbles") > learned.logp10(("the", "tyre"), "psi")
    assert not learned.knows("tire")


def test_each_text_has_a_model_of_its_own(before: Language, after: Language, tmp_path: Path) -> None:
    """Other words, or another vocabulary, give another model; the same words are not learned again."""
    again = trade_language(load(KIND), learned=keep(OWN, tmp_path / "again"))
    other = trade_language(load(KIND), learned=keep([*OWN, "Sprag is fine."], tmp_path))
    excavator = trade_language(load("excavator"), learned=keep(OWN, tmp_path))
    assert after.arpa == again.arpa
    assert 4 == len({before.arpa, after.arpa, other.arpa, excavator.arpa})


def test_it_travels_in_the_environment(tmp_path: Path, after: Language) -> None:
    """What was chosen is learned by whoever asks for the language of the machine kind."""
    assert chosen() is None
    choose(keep(OWN, tmp_path))
    assert after.arpa == trade_language(load(KIND)).arpa


def test_what_is_gone_is_told(tmp_path: Path) -> None:
    """A file that was taken away meanwhile is named, with what to do."""
    gone = tmp_path / "walks.txt"
    with pytest.raises(EarError) as caught:
        chosen({LEARNED: str(gone)})
    assert (
        f"what the ears were to learn is not in '{gone}' any more; start again with --learn-from, "
        "or without SAYCHECK_LEARNED"
    ) == str(caught.value)


def test_the_file_has_the_form_of_the_walks_that_come_along(tmp_path: Path) -> None:
    """One breath a line in words as said, an empty line between walks."""
    text = keep(["Edge at 17 mm. Good.", "...", json.dumps("Done")], tmp_path).read_text(encoding="utf-8")
    assert "edge at seventeen mm\ngood\n\ndone\n" == text
