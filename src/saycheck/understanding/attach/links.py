"""The small words that stand between what is named, and what they tell about a gap."""

from collections.abc import Sequence
from itertools import pairwise

PREPOSITIONS = frozenset(
    "on in at of from around round to under behind along through inside by near off across between for"
    " below above into onto up down with".split()
)
# Marks behind which another clause begins.
CLAUSE_MARKS = frozenset([",", ";", ".", "!", "?", "—", "–"])
LIST_LINKS = frozenset([",", "and", "or", "plus", "&", "then", "nor"])
SMALL = frozenset(
    "the a an its it's this that these those his her their our both all each every any some one of side"
    " left right front rear back upper lower top bottom inner outer hand other same two three four".split()
)
# Between a number and the things it counts: "two of the little bolts", "one of them is gone".
COUNT_LINKS = frozenset(
    "of em them they all , and the is are 're 's 'em those these has have got were was been that which"
    " little small big loose".split()
)
# No more of a thing than this is counted by hand; a bare number above it is a reading.
MOST_COUNTED = 24
# Before "one": then it points at a thing and does not count ("the left one", "this one bolt").
POINTS_AT_ONE = frozenset(
    "this that the left right other front rear back top bottom upper lower inner outer middle first second"
    " third fourth last fifth sixth old new another which big little nearside offside lever no number good"
    " bad".split()
)
# Behind these, not "it", the talk turns to a part anew.
POINTS_ANEW = frozenset("this these those mine ours hers".split())


def only_small(gap: Sequence[str]) -> bool:
    """Whether nothing but articles, place words and prepositions stands in the gap."""
    return all(w in SMALL or w in PREPOSITIONS for w in gap)


def only_list(gap: Sequence[str]) -> bool:
    """Whether the gap is what stands between the parts of a list; an empty gap is."""
    return all(w in LIST_LINKS or w in SMALL for w in gap)


# What only leads on to what a part has.
HAVING = frozenset("has have got 's 've".split())
# Where on the machine a part is: "hoses through the middle", "wipers, the driver's side".
WHEREABOUTS = frozenset(
    "middle centre center end ends driver driver's passenger passenger's axle corner".split()
)


def is_telling(words: Sequence[str]) -> bool:
    """Whether enough is said between two parts to be about the first: a word that is not small.

    "Handrail's got a | bolt loose", "seat has no | belt": that it has one, or none, is about the second.
    """
    small = SMALL | PREPOSITIONS | WHEREABOUTS | HAVING
    said = (
        w for before, w in pairwise(("", *words)) if w not in small and not (w == "no" and before in HAVING)
    )
    return any(w[0].isalnum() for w in said if w not in LIST_LINKS)
