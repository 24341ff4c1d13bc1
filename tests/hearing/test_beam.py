"""Beam search on a network of a few pieces, whose scores are written down."""

import math
from typing import Any

import numpy as np
import pytest

from saycheck.hearing.align import Placed
from saycheck.hearing.beam import Search, circling, search
from saycheck.hearing.before import Before
from saycheck.hearing.bias import Bias
from saycheck.hearing.tokens import Tokens

PIECES = ["<unk>", "<s>", "</s>", " land", " g", "land", " gland", " weeps", " Land", ",", " it", "."]
SECOND = np.zeros(16_000, np.float32)


class Table:
    """Stands in for the network: chances of the next piece after the pieces so far."""

    def __init__(self, chances: dict[str, dict[str, float]]) -> None:
        self.tokens = Tokens(tuple(piece.replace(" ", "\u2581").encode() for piece in PIECES))
        self.chances = chances
        self.rows: list[str] = []
        self.widest = 0

    def begin(self, samples: Any, given: list[int]) -> tuple[None, Any]:
        """The scores after what was given."""
        self.rows = ["".join(PIECES[piece] for piece in given)]
        return None, self._scores()

    def step(self, heard: None, pieces: list[int], parents: list[int]) -> Any:
        """The scores after one more piece on each reading."""
        self.rows = [self.rows[p] + PIECES[piece] for piece, p in zip(pieces, parents, strict=True)]
        self.widest = max(self.widest, len(self.rows))
        return self._scores()

    def _scores(self) -> Any:
        scores = np.full((len(self.rows), len(PIECES)), -30.0, np.float32)
        for row, so_far in enumerate(self.rows):
            for piece, chance in self.chances.get(so_far, self.chances["*"]).items():
                scores[row, PIECES.index(piece)] = math.log(chance)
        return scores


class Trade:
    """A trade in which only glands exist."""

    def knows(self, word: str) -> bool:
        """Gland, and nothing else."""
        return word == "gland"

    def logp10(self, history: tuple[str, ...], word: str) -> float:
        """Certain."""
        return 0.0


class General(Trade):
    """General English, to which a gland is rare."""

    def logp10(self, history: tuple[str, ...], word: str) -> float:
        """One in a hundred."""
        return -2.0


GLAND = {
    "": {" land": 0.7, " g": 0.3},
    " g": {"land": 1.0},
    "*": {"</s>": 1.0},
}


def texts(model: Table, **how: Any) -> list[str]:
    """The readings as text."""
    bias = how.pop("bias", None)
    return [model.tokens.text(r.pieces) for r in search(model, SECOND, bias, Search(options=5, **how))]  # type: ignore[arg-type]


def test_without_bias_the_likelier_word_wins() -> None:
    """The order is that of the network's probabilities."""
    assert ["land", "gland"] == texts(Table(GLAND))


def test_bias_turns_it_round() -> None:
    """A word of the trade gains its tenfolds, also when it is written in two pieces."""
    assert ["gland", "land"] == texts(Table(GLAND), bias=Bias(Trade(), General(), 1.0))


def test_probabilities_are_those_of_the_network() -> None:
    """The gain is in the score, not in the probabilities from which confidence comes."""
    best = search(Table(GLAND), SECOND, Bias(Trade(), General(), 1.0), Search(options=5))[0]  # type: ignore[arg-type]

    assert [0.3, 1.0] == pytest.approx(np.exp(best.logps).tolist(), abs=1e-4)
    assert math.log(0.3) + 2.0 == pytest.approx(best.score, abs=1e-3)
    assert best.ended


def test_the_same_words_count_once() -> None:
    """A capital or a comma does not make another reading."""
    chances = {
        "": {" Land": 0.5, " land": 0.4, " weeps": 0.1},
        " Land": {",": 0.5, "</s>": 0.5},
        "*": {"</s>": 1.0},
    }

    assert ["Land", "weeps"] == texts(Table(chances))


def test_the_beam_is_no_wider_than_asked() -> None:
    """Width bounds the readings that grow together."""
    model = Table({"": {" land": 0.4, " it": 0.3, " weeps": 0.3}, "*": {" it": 0.5, "</s>": 0.5}})

    texts(model, width=2)

    assert 2 == model.widest


def test_a_circle_is_left() -> None:
    """A network that would say the same word for ever is stopped before the fifth time."""
    model = Table({"": {" land": 1.0}, "*": {" it": 1.0}})

    assert ["land it it it it"] == texts(model)


def test_no_reading_is_longer_than_anyone_speaks() -> None:
    """Pieces are bounded by the length of the sound; a reading cut off there has not ended."""
    chain = [
        " land",
        " it",
        " weeps",
        " gland",
        " it",
        " land",
        " gland",
        " weeps",
        " land",
        " weeps",
        " it",
        " it",
    ]
    model = Table({"".join(chain[:n]): {chain[n]: 1.0} for n in range(len(chain))} | {"*": {}})

    (cut,) = search(model, SECOND, None, Search(options=5, pieces_per_s=0.0))  # type: ignore[arg-type]

    assert (10, False) == (len(cut.pieces), cut.ended)


def test_what_went_before_is_in_no_reading() -> None:
    """The network goes on from the words given; the reading holds only the new ones."""
    model = Table({" gland": {" weeps": 1.0}, "*": {"</s>": 1.0}})
    given = Before(SECOND, ["gland"], [[PIECES.index(" gland")]], [Placed(0.1, 0.9)])

    (best,) = search(model, SECOND, None, Search(options=5), given)  # type: ignore[arg-type]

    assert "weeps" == model.tokens.text(best.pieces)


@pytest.mark.parametrize(
    ("pieces", "expected"),
    [
        ([1, 2, 3], False),
        ([7, 7, 7, 7], False),  # "no no no no" is said
        ([7, 7, 7, 7, 7], True),
        ([1, 2, 1, 2, 1, 2], False),
        ([1, 2] * 5, True),
        ([9, *([1, 2, 3, 4] * 2)], False),
        ([9, *([1, 2, 3, 4] * 3)], True),
        ([*([1, 2, 3, 4] * 3), 5], False),  # it has gone on
        ([], False),
    ],
)
def test_circling(pieces: list[int], expected: bool) -> None:
    """A short run many times over, or a longer one three times."""
    assert expected == circling(pieces)
