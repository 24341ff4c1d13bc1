"""Weighs every word by all that stands around it: what the encoder makes of the narration, read through.

The other weighings see one statement at a time. This one sees no statements but words, and says of each how
likely it tells nothing of this machine, or something good, to watch, to write up, not seen or put off. Who tells
a story, teaches or answers a question does so over many sentences, and what stands before and behind tells it.
What the words of a statement tell together is its weight. Trained with the encoder by ``bench/train_encoder.py``.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from saycheck.understanding import encoder
from saycheck.understanding.arrays import shared
from saycheck.understanding.encoder import Array, Read
from saycheck.understanding.judge import TROUBLE
from saycheck.understanding.statements import Statement, made_once, region_end
from saycheck.understanding.text import Reading

CLASSES = ("good", "hidden", "later", "talk", "watch", "writeup")


@dataclass(frozen=True)
class Place:
    """Where a statement stands: its words ``start`` to ``end`` (half-open), and those that name its part, none where
    it was named earlier.
    """

    start: int
    end: int
    named: range

    def counted_from(self, first: int) -> "Place":
        """The same with its words counted from another one on."""
        named = range(self.named.start - first, self.named.stop - first) if self.named else self.named
        return Place(self.start - first, self.end - first, named)


def place_of(reading: Reading, statement: Statement, others: Sequence[Statement]) -> Place:
    """Where a statement stands, with all words that can belong to it."""
    return up_to(region_end(reading, statement, others), statement)


def up_to(end: int, statement: Statement) -> Place:
    """Where a statement stands that ends so; it has one word at least."""
    subject = statement.subject
    named = range(subject.start, subject.end) if subject.start >= 0 else range(0)
    return Place(statement.start, max(end, statement.start + 1), named)


def shares(made: Read) -> Array:
    """Probability of each of ``CLASSES`` for each word, (words, classes)."""
    return shared(made.words @ made.heads["state"] + made.heads["state_bias"])


def meant_at(made: Read, places: Sequence[Place]) -> Array:
    """What each statement and the name of its part mean, one behind the other, (statements, 2 * width)."""
    said, named, read = [], [], []
    for place in places:
        first = min(place.start, place.named.start) if place.named else place.start
        number = made.around(first, place.end)
        said.append((number, place.start, place.end))
        read.append(bool(place.named) and first >= made.stretches[number][0])
        name = place.named if read[-1] else range(place.start, place.end)
        named.append((number, name.start, name.stop))
    names = np.where(np.array(read)[:, None], made.means(named), made.heads["unnamed"])
    return np.concatenate([made.means(said), names], axis=1)


def state_shares(made: Read, places: Sequence[Place]) -> Array:
    """Probability of each of ``CLASSES`` for each statement, (statements, classes)."""
    return shared(made.scores(meant_at(made, places), "stated", "stating"))


def by_words(reading: Reading, made: Read) -> Array:
    """The shares of every word, made once for a reading, (words, classes)."""
    if "throughout" not in reading.data:
        reading.data["throughout"] = shares(made)
    found: Array = reading.data["throughout"]
    return found


def telling(reading: Reading) -> list[float] | None:
    """How likely each word tells something of this machine; None where nothing was read."""
    return _of_words(reading, "telling", [c for c in CLASSES if c != "talk"])


def trouble(reading: Reading) -> list[float] | None:
    """How likely each word tells of something to watch or to write up; None where nothing was read."""
    return _of_words(reading, "trouble", TROUBLE)


def _of_words(reading: Reading, what: str, classes: Sequence[str]) -> list[float] | None:
    made = encoder.read(reading)
    if made is not None and what not in reading.data:
        columns = [CLASSES.index(c) for c in classes]
        reading.data[what] = by_words(reading, made)[:, columns].sum(axis=1).tolist()
    found: list[float] | None = reading.data.get(what)
    return found


def told(reading: Reading, statement: Statement) -> dict[str, float] | None:
    """What the words of a statement tell together; None where no encoder was trained or there are too few words."""
    made = encoder.read(reading)
    if made is None or statement.end <= statement.start:
        return None
    row = by_words(reading, made)[statement.start : statement.end].mean(axis=0)
    return dict(zip(CLASSES, map(float, row), strict=True))


def stated(reading: Reading, statement: Statement, others: Sequence[Statement]) -> dict[str, float] | None:
    """What a statement tells as a whole, made once for all of a walk; None where ``told`` has none."""
    made = encoder.read(reading)
    if made is None:
        return None

    def all_stated() -> Iterable[dict[str, float]]:
        rows = state_shares(made, [place_of(reading, s, others) for s in others])
        return (dict(zip(CLASSES, map(float, row), strict=True)) for row in rows)

    return made_once(reading, "stated", statement, others, all_stated)
