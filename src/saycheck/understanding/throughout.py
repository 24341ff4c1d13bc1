"""Weighs every word by all that stands around it: a small trained network that reads the narration through.

The other weighings see one statement at a time. This one sees no statements but words, and says of each how
likely it tells nothing of this machine, or something good, to watch, to write up, not seen or put off. Who tells
a story, teaches or answers a question does so over many sentences, and what stands before and behind tells it.
Layers of convolution, each looking twice as far as the one before, see some thirty words to either side. What the
words of a statement tell together is its weight. Trained by ``bench/train_throughout.py`` on the material of this
repository alone; runs on NumPy.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from threadpoolctl import threadpool_limits

from saycheck.understanding import arrays
from saycheck.understanding.linear import FOLDER
from saycheck.understanding.names import tags
from saycheck.understanding.order import ending
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading, plain_words

Array = NDArray[np.float32]

REACH = (1, 2, 4, 8, 16, 1)
"""How many words apart those stand that a layer looks at together."""
CLASSES = ("good", "hidden", "later", "talk", "watch", "writeup")
FEWEST = 64
"""It has learned from whole narrations: of fewer words than these it says nothing."""
NOTHING, UNKNOWN = "", "?"
"""The names of no word at all, and of one that was not learned."""
TINY = 1e-3
"""Keeps the size of what a layer gives in bounds where it is next to nothing."""


@dataclass(frozen=True)
class Words:
    """The words of a narration as the network sees them: the ``tag`` of the mention that each is in, how likely
    it ``names`` a part, and whether it ``begins`` a sentence.
    """

    words: Sequence[str]
    tags: Sequence[str]
    names: Sequence[float]
    begins: Sequence[bool]


def seen(reading: Reading) -> Words:
    """The words of a reading."""
    words = plain_words(reading)
    starts = {start for start, _ in reading.sentences}
    names = reading.data.get("names") or [0.0] * len(words)
    return Words(words, tags(reading), names, [i in starts for i in range(len(words))])


class Reader:
    """The trained weights. ``names`` hold the words, endings and tags learned, in the order of their rows;
    ``weights`` the arrays: ``words``, ``endings``, ``tags`` (one row each), ``in`` and ``in_bias``, for each layer
    ``layer0`` (3, width, width) and ``bias0`` and so on, ``out`` and ``out_bias``.
    """

    def __init__(self, names: dict[str, list[str]], weights: dict[str, Array]) -> None:
        self.rows = {kind: {name: i for i, name in enumerate(known)} for kind, known in names.items()}
        self.weights = {name: np.asarray(array, np.float32) for name, array in weights.items()}

    def codes(self, one: Words) -> dict[str, NDArray[np.int32]]:
        """The words as numbers, for each kind of name."""
        said = {"words": one.words, "endings": [ending(w) for w in one.words], "tags": one.tags}
        return {
            kind: np.array([self.rows[kind].get(n, self.rows[kind].get(UNKNOWN, 0)) for n in given], np.int32)
            for kind, given in said.items()
        }

    def shares(self, one: Words) -> Array:
        """Probability of each of ``CLASSES`` for each word, (words, classes)."""
        # The products are small: two cores would mostly wait for each other.
        with threadpool_limits(1, user_api="blas"):
            scores = self.scores(one)
        grown = np.exp(scores - scores.max(axis=1, keepdims=True))
        return np.asarray(grown / grown.sum(axis=1, keepdims=True), np.float32)

    def scores(self, one: Words) -> Array:
        """The scores (log odds up to a constant), (words, classes)."""
        w, codes = self.weights, self.codes(one)
        told = np.stack([np.asarray(one.names, np.float32), np.asarray(one.begins, np.float32)], axis=1)
        x = np.concatenate([*(w[kind][codes[kind]] for kind in ("words", "endings", "tags")), told], axis=1)
        first = h = np.maximum(x @ w["in"] + w["in_bias"], 0)
        for layer, reach in enumerate(REACH):
            h = h + np.maximum(slid(h, w[f"layer{layer}"], reach) + w[f"bias{layer}"], 0)
            h = h / np.sqrt((h * h).mean(axis=1, keepdims=True) + TINY)
        return np.asarray(np.concatenate([h, first], axis=1) @ w["out"] + w["out_bias"], np.float32)


def slid(x: Array, kernel: Array, reach: int) -> Array:
    """Convolution of (words, in) with a kernel (3, in, out) on words ``reach`` apart, nought beyond the ends."""
    wide = np.pad(x, ((reach, reach), (0, 0)))
    return np.asarray(sum(wide[i * reach : i * reach + len(x)] @ kernel[i] for i in range(3)), np.float32)


def told(reading: Reading, statement: Statement) -> dict[str, float] | None:
    """What the words of a statement tell together; None where no network was trained or there are too few words."""
    reader = trained()
    if reader is None or len(reading.tokens) < FEWEST or statement.end <= statement.start:
        return None
    if "throughout" not in reading.data:
        reading.data["throughout"] = reader.shares(seen(reading))
    mean = reading.data["throughout"][statement.start : statement.end].mean(axis=0)
    return dict(zip(CLASSES, map(float, mean), strict=True))


def write(path: Path, reader: Reader) -> None:
    """Keep a network in a file."""
    arrays.write(path, reader.rows, reader.weights)


def read(path: Path) -> Reader:
    """The network in a file that ``write`` wrote."""
    names, weights, _ = arrays.read(path)
    return Reader(names, weights)


STANDING_IN: list[Reader] = []
"""At most one network used in place of the shipped one: the training scripts leave writers out by it."""


def trained() -> Reader | None:
    """The network shipped or standing in for it; None where none has been trained."""
    return STANDING_IN[0] if STANDING_IN else shipped()


@lru_cache
def shipped() -> Reader | None:
    """The shipped network, or None where there is none."""
    path = FOLDER / "throughout.npz"
    return read(path) if path.exists() else None
