"""The trigram against other programs and against what a probability is."""

import numpy as np
import pytest

from saycheck.hearing.language.kneser_ney import Discounts, estimate

WALK = [
    line.split()
    for line in (
        "left pin dry", "right pin dry", "left pin loose", "left hose dry", "right hose worn and dry",
        "pin worn", "left pin dry and loose", "hose good", "right pin good and dry",
    )
]  # fmt: skip


@pytest.mark.parametrize(
    ("history", "word", "expected"),
    [
        (("left", "pin"), "dry", 0.57916667),
        (("left", "pin"), "loose", 0.13333333),
        (("left", "pin"), "good", 0.05),  # never said after these two
        (("pin",), "dry", 0.325),
        (("pin",), "worn", 0.1),
        (("and",), "loose", 0.125),
        (("hose",), "pin", 0.09375),  # never said after this one
        (("right", "hose"), "worn", 0.359375),
        (("worn", "and"), "dry", 0.609375),
    ],
)
def test_one_discount_as_nltk_has_it(history: tuple[str, ...], word: str, expected: float) -> None:
    """With one discount of 0.75 the figures are those of nltk 3.10.4, KneserNeyInterpolated(3, 0.75)."""
    plain = Discounts(0.75, 0.75, 0.75)
    model = estimate(WALK, [Discounts(0, 0, 0), plain, plain])
    assert expected == pytest.approx(model.p(history, word), abs=1e-8)


def test_discounts_of_chen_and_goodman() -> None:
    """D1, D2 and D3+ follow from n1 = 40, n2 = 20, n3 = 10, n4 = 6 by equation 26 of their 1999 paper."""
    counts = np.repeat(np.array([1, 2, 3, 4, 9]), [40, 20, 10, 6, 3])
    y = 40 / (40 + 2 * 20)
    found = Discounts.from_counts(counts)
    assert (1 - 2 * y * 20 / 40, 2 - 3 * y * 10 / 20, 3 - 4 * y * 6 / 10) == pytest.approx(
        (found.once, found.twice, found.more)
    )


@pytest.mark.parametrize(
    "history", [(), ("<s>",), ("left",), ("left", "pin"), ("<s>", "left"), ("loose", "hose"), ("good", "and")]
)
def test_everything_that_may_follow_adds_up_to_one(history: tuple[str, ...]) -> None:
    """Whatever came before, something comes next."""
    model = estimate(WALK, words=["bucket", "tyre"])
    assert sum(model.p(history, word) for word in model.words) == pytest.approx(1.0)


def test_a_listed_word_can_be_said() -> None:
    """A word that no sentence holds has a small chance all the same; an unlisted one none."""
    model = estimate(WALK, words=["bucket"])
    assert 0 < model.p(("left",), "bucket") < model.p(("left",), "pin")
    assert 0 == model.p(("left",), "gudgeon")


def test_nothing_comes_after_the_end_mark_alone() -> None:
    """Sentences do not run into each other: the last word of one says nothing of the first of the next."""
    model = estimate([["dry"], ["left", "pin"]] * 5)
    assert model.p(("<s>", "dry"), "</s>") > 0.7
