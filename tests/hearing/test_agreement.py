"""One reading from two ears."""

import pytest

from saycheck.hearing.agreement import FEATURES, LEARNED, Agreement, Weights, surroundings
from saycheck.hearing.lattice import side_by_side
from saycheck.models.hearing import HeardWord, Hearing

BY_SURENESS = Weights(
    second=tuple(
        {"first sure": -1.0, "second sure": 1.0, "fits trade": 0.3}.get(name, 0.0) for name in FEATURES
    ),
    agreed=(0.5, 0.5, 0.0, 1.0),
    chosen=(0.5, 0.5, 0.0, 0.0, 0.0),
)
"""Plain weights: the surer side, and the one that fits the vocabulary better."""


class Fits:
    """Word probabilities in which the listed words are likely and all others not."""

    def __init__(self, likely: str) -> None:
        self.likely = set(likely.split())

    def logp10(self, history: tuple[str, ...], word: str) -> float:
        return -1.0 if word in self.likely else -4.0


def heard(ear: str, text: str, sure: float) -> Hearing:
    return Hearing(
        ear=ear,
        words=[
            HeardWord(text=word, start_s=n * 0.4, end_s=n * 0.4 + 0.4, confidence=sure)
            for n, word in enumerate(text.split())
        ],
    )


def one_reading(
    general: tuple[str, float], trade: tuple[str, float], likely: str = ""
) -> tuple[str, list[str]]:
    agreement = Agreement(Fits(likely), list, BY_SURENESS)
    words, others = agreement.one_reading(heard("builtin", *general), heard("trade", *trade))
    return " ".join(w.text for w in words), [f"{o.ear} {o.first}-{o.after} {o.text}" for o in others]


@pytest.mark.parametrize(
    ("general", "trade", "likely", "expected", "others"),
    [
        (("Left pin, dry.", 0.9), ("left pin dry", 0.9), "", "Left pin, dry.", []),
        (
            ("Left bin, dry.", 0.2),
            ("left pin dry", 0.95),
            "left pin dry",
            "Left pin, dry.",
            ["builtin 1-2 bin,"],
        ),
        (
            ("Left pin, dry.", 0.97),
            ("left bin dry", 0.1),
            "left pin dry",
            "Left pin, dry.",
            ["trade 1-2 bin"],
        ),
        (("The break holds.", 0.9), ("the brake holds", 0.9), "the brake holds", "The brake holds.", []),
        (
            ("15 mil left.", 0.3),
            ("one four mil left", 0.97),
            "one four mil left",
            "one four mil left.",
            ["builtin 0-2 15"],
        ),
        (("", 0.5), ("", 0.5), "", "", []),
    ],
)
def test_the_likelier_words(
    general: tuple[str, float], trade: tuple[str, float], likely: str, expected: str, others: list[str]
) -> None:
    """The likelier side wins, the other is kept beside it; writing and marks of the general ear stay."""
    assert (expected, others) == one_reading(general, trade, likely)


@pytest.mark.parametrize("weights", [BY_SURENESS, LEARNED])
def test_agreeing_ears_are_surer(weights: Weights) -> None:
    """A word that both heard is surer than one on which they differ."""
    agreement = Agreement(Fits(""), list, weights)
    both, _ = agreement.one_reading(heard("builtin", "left pin", 0.7), heard("trade", "left pin", 0.7))
    one, _ = agreement.one_reading(heard("builtin", "left pin", 0.7), heard("trade", "left bin", 0.7))
    assert both[1].confidence > one[1].confidence


def test_nothing_is_dropped() -> None:
    """All words of the side that was not taken are kept as a reading, a silent side as an empty one."""
    words, others = Agreement(Fits(""), list, BY_SURENESS).one_reading(
        heard("builtin", "left pin", 0.99), heard("trade", "", 0.5)
    )
    assert "left pin" in (" ".join(w.text for w in words), *(o.text for o in others))


def test_each_feature_has_a_name_and_a_weight() -> None:
    """Features, their names and their weights are as many."""
    slots = side_by_side(heard("a", "left bin", 0.5).words, heard("b", "left pin", 0.5).words, list)
    agreement = Agreement(Fits(""), list, BY_SURENESS)
    features = agreement.features(slots[1], surroundings(slots, 1, ("<s>", "left")))
    assert len(features) == len(FEATURES) == len(LEARNED.second)
