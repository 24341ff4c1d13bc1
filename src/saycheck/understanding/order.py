"""Weighs statements by the order of their words: a small trained network beside the linear model.

The linear model (``weigh``) sees which words stand around a part, this one how they follow one another:
"it's not leaking, it was" and "it was not, it's leaking" hold the same words. Two layers of convolution
over the words of the sentence and the end of the one before, each word with its ending, the kind of
mention it stands in and where it stands to the statement; the strongest and the mean of what they see,
and what the statement looks for in all the words (attention), tell the shares of each state and of talk.
Trained by ``bench/train_order.py`` on the material of this repository alone; runs on NumPy.
"""

from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from threadpoolctl import threadpool_limits

from saycheck.understanding import arrays
from saycheck.understanding.linear import FOLDER
from saycheck.understanding.statements import Statement
from saycheck.understanding.tags import tags
from saycheck.understanding.text import Reading, plain_words

Array = NDArray[np.float32]
Codes = NDArray[np.int32]

LONGEST = 60
"""Words a statement is seen with, at most."""
BEFORE, BEHIND = 14, 14
"""Words seen before its sentence and behind it, at most."""
FARTHEST = 30
"""Words seen before the statement where its sentence is long."""
NOTHING, UNKNOWN = "", "?"
"""The names of no word at all, and of a question mark and whatever was not learned."""
SUBJECT, INSIDE, REST, AHEAD, AFTER, EARLIER, LATER, PADDED = range(8)
"""Where a word stands: it names the part, is in the statement, still belongs to it, stands ahead of it or
after it in the sentence, in an earlier or a later one; or is none."""
HEADS = 3
"""How many things a statement looks for in the words around it."""
OWN = REST
"""Up to this place a word belongs to the statement."""


class Seen(NamedTuple):
    """The words a statement is seen with, the tag of the mention that each is in, and the place of each."""

    words: Sequence[str]
    tags: Sequence[str]
    places: Sequence[int]


def seen(reading: Reading, statement: Statement, stop: int, tagged: Sequence[str]) -> Seen:
    """The words a statement is seen with; ``stop`` is the token where those that can belong to it end."""
    start, end = reading.sentences[statement.sentence]
    words = plain_words(reading)
    first = max(0, start - BEFORE, statement.start - FARTHEST)
    last = min(len(words), end + BEHIND, first + LONGEST)
    subject = range(statement.subject.start, statement.subject.end)

    def place(i: int) -> int:
        if i in subject:
            return SUBJECT
        if statement.start <= i < stop:
            return INSIDE if i < statement.end else REST
        if start <= i < end:
            return AHEAD if i < statement.start else AFTER
        return EARLIER if i < start else LATER

    return Seen(words[first:last], tagged[first:last], [place(i) for i in range(first, last)])


def ending(word: str) -> str:
    """The end of a word, which tells of words that were not learned."""
    return word[-3:]


def seen_all(reading: Reading, statements: Sequence[Statement], stops: Sequence[int]) -> list[Seen]:
    """``seen`` for all statements of a reading."""
    tagged = tags(reading)
    return [seen(reading, s, stop, tagged) for s, stop in zip(statements, stops, strict=True)]


class Network:
    """The trained weights. ``names`` hold the words, endings and tags learned, in the order of their rows;
    ``weights`` the arrays: ``words``, ``endings``, ``tags``, ``places`` (one row each), ``first`` and
    ``second`` (3, in, out) with ``first_bias`` and ``second_bias``, ``query``, ``key`` and ``value`` (in,
    ``HEADS`` * size), ``out`` and ``out_bias``.
    """

    def __init__(self, classes: list[str], names: dict[str, list[str]], weights: dict[str, Array]) -> None:
        self.classes = classes
        self.rows = {kind: {name: i for i, name in enumerate(known)} for kind, known in names.items()}
        self.weights = {name: np.asarray(array, np.float32) for name, array in weights.items()}

    def codes(self, rows: Sequence[Seen]) -> dict[str, Codes]:
        """Rows of words as numbers, each array (rows, ``LONGEST``)."""
        out = {kind: np.zeros((len(rows), LONGEST), np.int32) for kind in ("words", "endings", "tags")}
        out["places"] = np.full((len(rows), LONGEST), PADDED, np.int32)
        for i, row in enumerate(rows):
            names = {"words": row.words, "endings": map(ending, row.words), "tags": row.tags}
            for kind, some in names.items():
                known = self.rows[kind]
                unknown = known.get(UNKNOWN, 0)
                out[kind][i, : len(row.words)] = [known.get(name, unknown) for name in some]
            out["places"][i, : len(row.words)] = row.places
        return out

    def shares(self, rows: Sequence[Seen]) -> list[dict[str, float]]:
        """Probability of each class for each row of words."""
        if not rows:
            return []
        # The products are small: two cores would mostly wait for each other, and keep whatever else runs waiting.
        with threadpool_limits(1, user_api="blas"):
            scores = self.scores(self.codes(rows))
        return [dict(zip(self.classes, map(float, row), strict=True)) for row in arrays.shared(scores)]

    def scores(self, codes: dict[str, Codes]) -> Array:
        """The scores (log odds up to a constant), (rows, classes)."""
        w = self.weights
        there = (codes["places"] < PADDED)[..., None].astype(np.float32)
        own = (codes["places"] <= OWN)[..., None].astype(np.float32)
        x = np.concatenate([w[kind][codes[kind]] for kind in ("words", "endings", "tags", "places")], axis=-1)
        h = np.maximum(slid(x * there, w["first"]) + w["first_bias"], 0) * there
        h = (np.maximum(slid(h, w["second"]) + w["second_bias"], 0) + h) * there
        mean = (h * own).sum(axis=1) / np.maximum(own.sum(axis=1), 1)
        strongest = (h * own).max(axis=1)
        sought = attended(np.concatenate([strongest, mean], axis=-1), h, there[..., 0], w)
        pooled = np.concatenate([strongest, mean, h.max(axis=1), sought], axis=-1)
        return np.asarray(pooled @ w["out"] + w["out_bias"], np.float32)


def slid(x: Array, kernel: Array) -> Array:
    """Convolution of (rows, words, in) with a kernel (3, in, out), nought beyond the ends."""
    wide = np.pad(x, ((0, 0), (1, 1), (0, 0)))
    return np.asarray(sum(wide[:, i : i + x.shape[1]] @ kernel[i] for i in range(3)), np.float32)


def attended(asking: Array, h: Array, there: Array, w: dict[str, Array]) -> Array:
    """What each row of ``asking`` (rows, 2 * width) finds in its words ``h`` (rows, words, width); those ``there``."""
    rows, words = there.shape
    query = (asking @ w["query"]).reshape(rows, HEADS, -1)
    key, value = ((h @ w[name]).reshape(rows, words, HEADS, -1) for name in ("key", "value"))
    fits = np.einsum("rhd,rwhd->rhw", query, key) / np.sqrt(query.shape[-1])
    fits = np.where(there[:, None] > 0, fits, -1e9)
    return np.asarray(np.einsum("rhw,rwhd->rhd", arrays.shared(fits), value).reshape(rows, -1), np.float32)


def write(path: Path, network: Network) -> None:
    """Keep a network in a file."""
    arrays.write(path, network.rows, network.weights, network.classes)


def read(path: Path) -> Network:
    """The network in a file that ``write`` wrote."""
    names, weights, classes = arrays.read(path)
    return Network(classes, names, weights)


STANDING_IN: list[Network] = []
"""At most one network used in place of the shipped one: the training scripts leave writers out by it."""


def trained() -> Network | None:
    """The network shipped or standing in for it; None where none has been trained."""
    return STANDING_IN[0] if STANDING_IN else shipped()


@lru_cache
def shipped() -> Network | None:
    """The shipped network, or None where there is none."""
    path = FOLDER / "order.npz"
    return read(path) if path.exists() else None
