"""What a word gains by belonging to the trade."""

import math

import pytest

from saycheck.hearing.bias import BEGIN, MOST, Bias, GeneralEnglish


class Words:
    """A word model by table; a pair of words counts before a single one."""

    def __init__(self, **logs: float) -> None:
        self.logs = {name.replace("__", "'"): log for name, log in logs.items()}

    def knows(self, word: str) -> bool:
        """Whether the word stands in the table by itself."""
        return word in self.logs

    def logp10(self, history: tuple[str, ...], word: str) -> float:
        """The log of the pair, else of the word, else -7."""
        return self.logs.get(f"{history[-1]}_{word}", self.logs.get(word, -7.0))


TRADE = Words(gland=-3.0, the=-2.0, tyre=-3.0, psi=-3.0, eighty=-3.0, five=-3.0, eighty_five=-1.0, odd=-1.0)
GENERAL = Words(gland=-6.0, the=-1.3, tire=-5.0, psi=-6.0, eighty=-4.0, five=-3.5, eighty_five=-2.0)


def folded(words: list[str]) -> list[str]:
    """The spelling of the trade model above."""
    return [{"tire": "tyre"}.get(word, word) for word in words]


BIAS = Bias(TRADE, GENERAL, weight=2.0, folded=folded)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("written", "gain"),
    [
        ("gland,", 2 * 3.0),
        ("the", 0.0),  # commoner in general talk: no gain, and no loss
        ("Tire", 2 * 2.0),  # the trade model spells it "tyre"
        ("wedding", 0.0),  # no word of the trade
        ("85", 2 * (1.0 + 1.0)),  # eighty, then five after eighty
        ("odd", 2 * MOST),  # a word general English has never seen gains no more than that
        ("...", 0.0),
    ],
)
def test_gain(written: str, gain: float) -> None:
    """The gain is the weight times the tenfolds by which the trade says the word more often."""
    assert gain == pytest.approx(BIAS.word(BEGIN, written)[0])


def test_history_moves_on_in_both_spellings() -> None:
    """Each model is asked in its own spelling."""
    _, said = BIAS.word(BEGIN, "Left")
    _, said = BIAS.word(said, "tire")

    assert (("left", "tire"), ("left", "tyre")) == said


def test_a_word_of_no_sound_leaves_history_alone() -> None:
    """A dash between words is not a word between them."""
    _, said = BIAS.word(BEGIN, "gland")

    assert (0.0, said) == BIAS.word(said, "\u2014")


def test_general_english_is_a_probability() -> None:
    """Over the words after one history the probabilities sum to at most one, and the likely is likely."""
    general = GeneralEnglish()
    after = ["states", "kingdom", "nations", "airlines", "front", "the", "and", "of", "in"]

    total = sum(10 ** general.logp10(("the", "united"), word) for word in after)

    assert 0.5 < total <= 1.0
    assert general.logp10(("the", "united"), "states") > general.logp10(("the", "united"), "front")


def test_general_english_knows_its_limits() -> None:
    """A word that it has never seen gets the floor, not an error."""
    general = GeneralEnglish()

    assert not general.knows("zzzzy")
    assert -7.0 == general.logp10(("the",), "zzzzy")
    assert math.isfinite(general.logp10(("zzzzy", "qqqq"), "the"))
