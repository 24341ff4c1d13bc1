"""How alike two sayings sound: a distance between 0 (the same sounds) and 1 (nothing in common).

Edit distance over phonemes (Levenshtein 1966, by dynamic programming), divided by the longer count. Taking
one sound for another costs less where they are easily confused: 0.3 for a consonant and its voiced twin or
for two sounds made at the same place in the same way, 0.5 for two vowels, else 1. The classes are those of any
phonetics primer; the costs are our own choice (common practice, no source).
"""

from collections.abc import Sequence
from functools import cache

VOWELS = frozenset("AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW".split())
_TWINS = ("P B", "T D", "K G", "F V", "TH DH", "S Z", "SH ZH", "CH JH", "M N", "N NG", "IH IY", "UH UW",
          "AA AO", "AH UH", "EH AE", "AH ER", "S TH", "F TH", "W V", "L R")  # fmt: skip
CHEAPEST = 0.3
"""What the cheapest change costs."""
_NEAR = frozenset(frozenset(pair.split()) for pair in _TWINS)


@cache
def cost(one: str, other: str) -> float:
    """What it costs to take one phoneme for the other."""
    if one == other:
        return 0.0
    if frozenset((one, other)) in _NEAR:
        return CHEAPEST
    return 0.5 if one in VOWELS and other in VOWELS else 1.0


def distance(one: Sequence[str], other: Sequence[str]) -> float:
    """The distance between two rows of phonemes; 1 where either is empty."""
    if not one or not other:
        return 1.0
    before = [float(place) for place in range(len(other) + 1)]
    for row, mine in enumerate(one, 1):
        now = [float(row)]
        for column, theirs in enumerate(other, 1):
            now.append(min(before[column] + 1, now[column - 1] + 1, before[column - 1] + cost(mine, theirs)))
        before = now
    return before[-1] / max(len(one), len(other))


def least(one: Sequence[str], other: Sequence[str], below: float) -> float:
    """The distance, or 1 without working it out where it is sure to be ``below`` or above.

    No change costs less than ``CHEAPEST``, so the plain count of changes, quickly had, gives a lower bound.
    """
    from rapidfuzz.distance import Levenshtein

    longer = max(len(one), len(other), 1)
    if abs(len(one) - len(other)) / longer >= below:
        return 1.0
    if below < CHEAPEST and CHEAPEST * Levenshtein.normalized_distance(one, other) >= below:
        return 1.0
    return distance(one, other)
