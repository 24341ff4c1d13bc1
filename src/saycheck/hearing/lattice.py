"""What two ears heard in one phrase, side by side: where they agree, and where each has words of its own.

After the word networks of ROVER (Fiscus, "A post-processing system to yield reduced word error rates",
ASRU 1997), with two changes: words are laid beside each other by their sounds and their times, and words
that differ on end stay together, since "front left" against "fondled" is one disagreement, not two.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from rapidfuzz.distance import Levenshtein

from saycheck.hearing.sounds import phones
from saycheck.hearing.spoken import spoken
from saycheck.models.hearing import HeardWord

Folded = Callable[[Sequence[str]], Sequence[str]]

_ALONE = 0.75
"""What it costs to leave a word without a partner; two words as unlike as can be cost 1.3."""
_UNLIKE = 1.3
_FAR_APART_S = 0.25
"""Words this far apart are hardly the same sound."""
_DIGITS = {w: str(n) for n, w in enumerate("zero one two three four five six seven eight nine".split())}
_DIGITS |= {"oh": "0", "nought": "0"}


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

    They are the same to the ear where ``agree``; else either may be empty. ``said_first`` and
    ``said_second`` are the words as said.
    """

    first: tuple[HeardWord, ...]
    second: tuple[HeardWord, ...]
    said_first: tuple[str, ...]
    said_second: tuple[str, ...]
    agree: bool


def said_words(words: Sequence[HeardWord], folded: Folded) -> list[Said]:
    """The words as said: "80" is eighty, "PSI," is psi; times are shared out."""
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
    slots: list[Slot] = []
    a = b = 0
    for mine, theirs in _anchors(said_words(first, folded), said_words(second, folded)):
        slots += _slot(first[a : mine[0]], second[b : theirs[0]], folded)
        slots += _slot(first[mine[0] : mine[1]], second[theirs[0] : theirs[1]], folded)
        a, b = mine[1], theirs[1]
    return slots + _slot(first[a:], second[b:], folded)


def _slot(first: Sequence[HeardWord], second: Sequence[HeardWord], folded: Folded) -> list[Slot]:
    if not first and not second:
        return []
    said = [tuple(one.word for one in said_words(words, folded)) for words in (first, second)]
    return [Slot(tuple(first), tuple(second), said[0], said[1], same(said[0], said[1]))]


def same(one: Sequence[str], two: Sequence[str]) -> bool:
    """Whether two runs of words are the same to the ear: "hand rail" and "handrail", "14" and "one four"."""
    if not one or not two:
        return False
    if tuple(one) == tuple(two):
        return True
    sounds = [[phone for word in words for phone in phones(word)] for words in (one, two)]
    return bool(sounds[0]) and (sounds[0] == sounds[1] or _figures(one) == _figures(two) != "")


def _figures(words: Sequence[str]) -> str:
    """The digits of a run of number words said singly or as a cardinal below a hundred; else empty."""
    text = ""
    for at, word in enumerate(words):
        if word in _DIGITS:
            unit_of_tens = at > 0 and words[at - 1] in _TENS and word not in ("zero", "oh", "nought")
            text = text[:-1] + _DIGITS[word] if unit_of_tens else text + _DIGITS[word]
        elif word in _TEENS:
            text += str(_TEENS[word])
        elif word in _TENS:
            text += str(_TENS[word])
        else:
            return ""
    return text


_TEENS = {
    w: n
    for n, w in enumerate(
        "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(), 10
    )
}
_TENS = {w: n * 10 for n, w in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split(), 2)}

_Range = tuple[int, int]


def _anchors(ones: Sequence[Said], twos: Sequence[Said]) -> list[tuple[_Range, _Range]]:
    """Heard words of both ears that are the same in all their said words, as half-open ranges, in order."""
    partner = dict(_pairs(ones, twos))
    anchors: list[tuple[_Range, _Range]] = []
    at = 0
    while at < len(ones):
        end = at + 1
        while end < len(ones) and ones[end].of == ones[at].of:
            end += 1
        theirs = [partner.get(place, -1) for place in range(at, end)]
        if theirs[0] >= 0 and theirs == list(range(theirs[0], theirs[0] + len(theirs))):
            begin, last = twos[theirs[0]].of, twos[theirs[-1]].of
            whole = [two.word for two in twos if begin <= two.of <= last]
            if [one.word for one in ones[at:end]] == whole or same([o.word for o in ones[at:end]], whole):
                anchors.append(((ones[at].of, ones[at].of + 1), (begin, last + 1)))
        at = end
    return anchors


def _pairs(ones: Sequence[Said], twos: Sequence[Said]) -> list[tuple[int, int]]:
    """Words of the two ears that belong together, by the cheapest way to pair them all in order."""
    unlike = _unlikeness(ones, twos)
    cost = np.zeros((len(ones) + 1, len(twos) + 1))
    cost[:, 0] = np.arange(len(ones) + 1) * _ALONE
    cost[0, :] = np.arange(len(twos) + 1) * _ALONE
    for i in range(1, len(ones) + 1):
        beside = np.minimum(cost[i - 1, :-1] + unlike[i - 1], cost[i - 1, 1:] + _ALONE)
        for j in range(1, len(twos) + 1):
            cost[i, j] = min(beside[j - 1], cost[i, j - 1] + _ALONE)
    pairs = []
    i, j = len(ones), len(twos)
    while i and j:
        if cost[i, j] == cost[i - 1, j - 1] + unlike[i - 1, j - 1]:
            i, j = i - 1, j - 1
            pairs.append((i, j))
        elif cost[i, j] == cost[i - 1, j] + _ALONE:
            i -= 1
        else:
            j -= 1
    return pairs[::-1]


def _unlikeness(ones: Sequence[Said], twos: Sequence[Said]) -> NDArray[np.float64]:
    """How unlike each pair of words is, by sound and by time."""
    unlike = np.empty((len(ones), len(twos)))
    for i, one in enumerate(ones):
        for j, two in enumerate(twos):
            apart = max(one.start_s - two.end_s, two.start_s - one.end_s, 0.0) / _FAR_APART_S
            unlike[i, j] = _UNLIKE * min(apart, 1.0)
            if apart < 1.0:
                unlike[i, j] = max(unlike[i, j], sounds_unlike(one.word, two.word))
    return unlike


def runs_unlike(one: Sequence[str], two: Sequence[str]) -> float:
    """As ``sounds_unlike``, of runs of words."""
    sounds = [[phone for word in words for phone in phones(word)] for words in (one, two)]
    return _UNLIKE * float(Levenshtein.normalized_distance(*sounds))


@lru_cache(maxsize=65_536)
def sounds_unlike(one: str, two: str) -> float:
    """0 for the same sounds, 1.3 for nothing in common."""
    return 0.0 if one == two else _UNLIKE * float(Levenshtein.normalized_distance(phones(one), phones(two)))
