"""What the beginning of a word promises."""

import math

import pytest

from saycheck.hearing.ahead import promises
from saycheck.hearing.bias import MOST, Bias, GeneralEnglish

TRADE = {"gland": 0.1, "glass": 0.1, "tyre": 0.2, "the": 0.1, "zerk": 0.1}
GENERAL = {"gland": 0.0001, "glass": 0.0019, "glad": 0.008, "tire": 0.01, "the": 0.5, "tin": 0.09}


class Words:
    """A word model that knows words by themselves."""

    def __init__(self, shares: dict[str, float]) -> None:
        self.shares = shares

    def knows(self, word: str) -> bool:
        """Whether it has a share."""
        return word in self.shares

    def logp10(self, history: tuple[str, ...], word: str) -> float:
        """log10 of the share."""
        return math.log10(self.shares[word])


PROMISES = promises(
    Words(TRADE), TRADE, GENERAL, lambda words: [{"tire": "tyre"}.get(word, word) for word in words]
)


@pytest.mark.parametrize(
    ("beginning", "trade", "general"),
    [
        ("gl", 0.2, 0.01),  # gland and glass, against those two and glad
        ("gla", 0.2, 0.01),
        ("glan", 0.1, 0.0001),
        ("g", 0.2, 0.01),
        ("tir", 0.2, 0.01),  # written "tire", in the trade model "tyre"
        ("ti", 0.2, 0.1),
    ],
)
def test_worth_is_the_ratio_of_shares(beginning: str, trade: float, general: float) -> None:
    """log10 of the trade's share over the general share of words that begin so."""
    assert math.log10(trade / general) == pytest.approx(PROMISES[beginning])


@pytest.mark.parametrize("beginning", ["th", "the", "glad", "x", ""])
def test_no_promise(beginning: str) -> None:
    """Beginnings that general talk has as often, or the trade not at all."""
    assert beginning not in PROMISES


def test_a_word_only_the_trade_has_promises_the_most() -> None:
    """Nothing promises more than a word may gain."""
    assert min(MOST, math.log10(0.1 / 1e-7)) == pytest.approx(PROMISES["zer"])


@pytest.mark.parametrize(
    ("written", "worth"), [("Gl", 2 * math.log10(20)), ("tire,", 2 * math.log10(20)), ("the", 0.0)]
)
def test_bias_looks_it_up_as_written(written: str, worth: float) -> None:
    """Capitals and marks do not matter; the weight counts here, too."""
    bias = Bias(Words(TRADE), Words(GENERAL), 2.0, promises=PROMISES)

    assert worth == pytest.approx(bias.beginning(written))


def test_general_shares_are_shares() -> None:
    """Source: the unigrams of pocketsphinx's model; together they cannot exceed one."""
    shares = GeneralEnglish().shares()

    assert 0.85 < sum(shares.values()) <= 1.0
    assert shares["the"] > shares["gland"] > 0
