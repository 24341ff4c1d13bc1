"""Mixing, thinning and writing of trigrams."""

from pathlib import Path

import pytest

from saycheck.hearing.language.kneser_ney import estimate
from saycheck.hearing.language.model import read, write
from saycheck.hearing.language.ngrams import Trigram


@pytest.fixture
def trade() -> Trigram:
    return estimate(
        [line.split() for line in ("left pin dry", "left pin loose", "right hose dry", "left pin dry")]
    )


@pytest.fixture
def talk() -> Trigram:
    return estimate([line.split() for line in ("well it is dry", "it is what it is", "left it at home")])


@pytest.mark.parametrize(
    ("history", "word"), [(("left", "pin"), "dry"), (("it", "is"), "what"), (("left",), "it"), ((), "dry")]
)
def test_mixture_of_what_either_holds(
    trade: Trigram, talk: Trigram, history: tuple[str, ...], word: str
) -> None:
    """An n-gram of either model has exactly the mixture of both probabilities."""
    words = list(dict.fromkeys([*trade.words, *talk.words]))
    expected = 0.75 * trade.over(words).p(history, word) + 0.25 * talk.over(words).p(history, word)
    assert expected == pytest.approx(trade.mixed(talk, 0.25).p(history, word))


@pytest.mark.parametrize(
    "history", [(), ("left",), ("left", "pin"), ("it", "is"), ("pin", "is"), ("<s>", "well")]
)
@pytest.mark.parametrize("least_gain", [0.0, 0.05])
def test_a_mixture_adds_up(
    trade: Trigram, talk: Trigram, history: tuple[str, ...], least_gain: float
) -> None:
    """Mixed, thinned or not, what may follow adds up to one."""
    mixed = trade.mixed(talk, 0.3).thinned(least_gain)
    assert sum(mixed.p(history, word) for word in mixed.words) == pytest.approx(1.0)


def test_only_words_after_what_was_taught_change(trade: Trigram, talk: Trigram) -> None:
    """After words that the other model holds it has its share; after others all is as it was."""
    taught = trade.taught(talk, 0.25, 0.01)
    words = list(dict.fromkeys([*trade.words, *talk.words]))
    for history, word in ((("it", "is"), "dry"), (("left",), "it"), (("is",), "dry")):
        expected = 0.75 * trade.over(words).p(history, word) + 0.25 * talk.over(words).p(history, word)
        assert expected == pytest.approx(taught.p(history, word), rel=0.02)
    assert trade.p(("left", "pin"), "dry") == pytest.approx(taught.p(("left", "pin"), "dry"), rel=0.01)
    assert trade.p((), "hose") * 0.99 == pytest.approx(taught.p((), "hose"))
    assert taught.p((), "home") == pytest.approx(talk.p((), "home") * 0.01)


@pytest.mark.parametrize("history", [(), ("left",), ("left", "pin"), ("it", "is"), ("pin", "is"), ("dry",)])
def test_a_taught_model_adds_up(trade: Trigram, talk: Trigram, history: tuple[str, ...]) -> None:
    """What may follow adds up to one, after words of either model."""
    taught = trade.taught(talk, 0.3, 0.03)
    assert sum(taught.p(history, word) for word in taught.words) == pytest.approx(1.0)


def test_thinning_takes_what_tells_least(trade: Trigram, talk: Trigram) -> None:
    """Fewer triples are left, and the bigrams stay."""
    mixed = trade.mixed(talk, 0.3)
    thin = mixed.thinned(0.02)
    assert len(mixed.triples.codes) > len(thin.triples.codes) > 0
    assert len(mixed.pairs.codes) == len(thin.pairs.codes)


def test_arpa_is_read_by_pocketsphinx(trade: Trigram, tmp_path: Path) -> None:
    """The file holds the same probabilities for another program."""
    from pocketsphinx import Config, LogMath, NGramModel

    trade.write_arpa(tmp_path / "words.arpa")
    model = NGramModel(Config(lm=None, loglevel="FATAL"), LogMath(1.0001), str(tmp_path / "words.arpa"))
    for history, word in (
        (("left", "pin"), "dry"),
        (("right",), "hose"),
        (("dry", "left"), "pin"),
        ((), "loose"),
    ):
        heard = 1.0001 ** model.prob([word, *reversed(history)])
        assert trade.p(history, word) == pytest.approx(heard, rel=2e-3)


def test_written_and_read_is_the_same(trade: Trigram, tmp_path: Path) -> None:
    """Nothing is lost on the way through a file."""
    write(trade, tmp_path / "trigram.npz")
    back = read(tmp_path / "trigram.npz")
    assert trade.words == back.words
    assert trade.p(("left", "pin"), "dry") == back.p(("left", "pin"), "dry")
