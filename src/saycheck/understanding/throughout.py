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
from saycheck.understanding.encoder import Array, Read, mean
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
    subject = statement.subject
    named = range(subject.start, subject.end) if subject.start >= 0 else range(0)
    end = max(region_end(reading, statement, others), statement.start + 1)
    return Place(statement.start, end, named)


def shares(made: Read) -> Array:
    """Probability of each of ``CLASSES`` for each word, (words, classes)."""
    return shared(made.words @ made.heads["state"] + made.heads["state_bias"])


def state_shares(made: Read, places: Sequence[Place]) -> Array:
    """Probability of each of ``CLASSES`` for each statement, (statements, classes)."""
    heads, rows = made.heads, []
    for place in places:
        first = min(place.start, place.named.start) if place.named else place.start
        start, meaning = made.around(first, place.end)
        p = place.counted_from(start)
        is_read = p.named and first >= start
        named = mean(meaning, p.named.start, p.named.stop) if is_read else heads["unnamed"]
        rows.append(np.concatenate([mean(meaning, p.start, p.end), named]))
    scores = np.maximum(np.stack(rows) @ heads["stated"] + heads["stated_bias"], 0)
    return shared(scores @ heads["stating"] + heads["stating_bias"])


def told(reading: Reading, statement: Statement) -> dict[str, float] | None:
    """What the words of a statement tell together; None where no encoder was trained or there are too few words."""
    made = encoder.read(reading)
    if made is None or statement.end <= statement.start:
        return None
    if "throughout" not in reading.data:
        reading.data["throughout"] = shares(made)
    row = mean(reading.data["throughout"], statement.start, statement.end)
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
