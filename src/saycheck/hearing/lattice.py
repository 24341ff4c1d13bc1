"""What two ears heard in one phrase, side by side: where they agree, and where each has words of its own.

After the word networks of ROVER (Fiscus, "A post-processing system to yield reduced word error rates",
ASRU 1997), with two changes: words are laid beside each other by their sounds and their times, and words
that differ on end stay together, since "front left" against "fondled" is one disagreement, not two.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from rapidfuzz.distance import Levenshtein

from saycheck.hearing.sounds import phones
from saycheck.hearing.spoken import spoken
from saycheck.models.hearing import HeardWord

Folded = Callable[[Sequence[str]], Sequence[str]]

_ALONE = 0.75
"""What it costs to leave a word without a partner; two words as unlike as can be cost 1.3."""
_FAR_APART_S = 0.25
"""Words further apart than this are hardly the same sound."""


@dataclass(frozen=True)
class Said:
    """One said word of an ear: ``word`` as the language model writes it, ``of`` which heard word it is."""

    word: str
    of: int
    start_s: float
    end_s: float


@dataclass(frozen=True)
class Slot:
    """A stretch of a phrase: the general ear's words ``first`` and the trade ear's ``second``.

    They are the same to the ear where ``agree``; else either may be empty.
    """

    first: tuple[HeardWord, ...]
    second: tuple[HeardWord, ...]
    said_first: tuple[str, ...]
    said_second: tuple[str, ...]
    agree: bool


def said_words(words: Sequence[HeardWord], folded: Folded) -> list[Said]:
    """The words as said: "80" is eighty, "PSI," is p s i and so psi; times are shared out."""
    said: list[Said] = []
    for place, word in enumerate(words):
        parts = list(folded(spoken(word.text)))
        each = (word.end_s - word.start_s) / max(len(parts), 1)
        said += [
            Said(part, place, word.start_s + nth * each, word.start_s + (nth + 1) * each)
            for nth, part in enumerate(parts)
        ]
    return said


def side_by_side(first: Sequence[HeardWord], second: Sequence[HeardWord], folded: Folded) -> list[Slot]:
    """Lay the words of two ears beside each other; every word stands in one slot, in order."""
    ones, twos = said_words(first, folded), said_words(second, folded)
    slots: list[Slot] = []
    a = b = 0
    for one, two in _anchors(ones, twos, first, second):
        if (a, b) != (one[0], two[0]):
            slots.append(_slot(first[a : one[0]], second[b : two[0]], folded, False))
        slots.append(_slot(first[one[0] : one[1]], second[two[0] : two[1]], folded, True))
        a, b = one[1], two[1]
    if a < len(first) or b < len(second):
        slots.append(_slot(first[a:], second[b:], folded, False))
    return slots


def _slot(first: Sequence[HeardWord], second: Sequence[HeardWord], folded: Folded, agree: bool) -> Slot:
    said = [tuple(one.word for one in said_words(words, folded)) for words in (first, second)]
    return Slot(tuple(first), tuple(second), said[0], said[1], agree)


def _anchors(
    ones: Sequence[Said], twos: Sequence[Said], first: Sequence[HeardWord], second: Sequence[HeardWord]
) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """Heard words that agree in all their said words, as half-open ranges of both ears, in order."""
    partner = dict(_pairs(ones, twos))
    wholes: list[tuple[tuple[int, int], tuple[int, int]]] = []
    at = 0
    while at < len(ones):
        end = at
        while end < len(ones) and ones[end].of == ones[at].of:
            end += 1
        theirs = [partner.get(place, -1) for place in range(at, end)]
        if _same_run(theirs) and all(alike(ones[p].word, twos[t].word) for p, t in zip(range(at, end), theirs, strict=True)):
            begin, last = twos[theirs[0]].of, twos[theirs[-1]].of
            mine = ones[at].of
            if sum(one.of in range(begin, last + 1) for one in twos) == len(theirs):
                wholes.append(((mine, mine + 1), (begin, last + 1)))
        at = end
    return wholes


def _same_run(places: Sequence[int]) -> bool:
    return bool(places) and places[0] >= 0 and list(places) == list(range(places[0], places[0] + len(places)))


def _pairs(ones: Sequence[Said], twos: Sequence[Said]) -> list[tuple[int, int]]:
    """Words of the two ears that belong together, by the cheapest way to pair them all in order."""
    cost = np.zeros((len(ones) + 1, len(twos) + 1))
    cost[:, 0] = np.arange(len(ones) + 1) * _ALONE
    cost[0, :] = np.arange(len(twos) + 1) * _ALONE
    for i, one in enumerate(ones, 1):
        for j, two in enumerate(twos, 1):
            cost[i, j] = min(
                cost[i - 1, j - 1] + _unlike(one, two), cost[i - 1, j] + _ALONE, cost[i, j - 1] + _ALONE
            )
    pairs = []
    i, j = len(ones), len(twos)
    while i and j:
        if cost[i, j] == cost[i - 1, j - 1] + _unlike(ones[i - 1], twos[j - 1]):
            i, j = i - 1, j - 1
            pairs.append((i, j))
        elif cost[i, j] == cost[i - 1, j] + _ALONE:
            i -= 1
        else:
            j -= 1
    return pairs[::-1]


def _unlike(one: Said, two: Said) -> float:
    apart = max(one.start_s - two.end_s, two.start_s - one.end_s, 0.0)
    return sounds_unlike(one.word, two.word) + min(apart / _FAR_APART_S, 2.0) * 0.5


def alike(one: str, two: str) -> bool:
    """Whether two words are the same to the ear."""
    return one == two or sounds_unlike(one, two) == 0.0


@lru_cache(maxsize=65_536)
def sounds_unlike(one: str, two: str) -> float:
    """0 for the same sounds, 1.3 for nothing in common."""
    return 0.0 if one == two else 1.3 * Levenshtein.normalized_distance(phones(one), phones(two))
