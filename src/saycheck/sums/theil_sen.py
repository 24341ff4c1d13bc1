"""The robust slope of Theil and Sen with its interval, for few readings as well as for many.

Formula: the slope is the median of the slopes of all pairs; one wild reading in four does not move it far.
The interval runs from the k-th smallest to the k-th largest of them, k by the exact distribution of Kendall's
tau up to 60 readings and by its normal approximation above. What the words of the readings leave open is
added to it as a sum of squares: each half width a counts as evenly spread, standard uncertainty a / √3, and
moves the slope by the weight its place has in a straight line. So readings rounded to the same whole
millimetres do not pass for exact ones. Two readings have only what their words leave open.
Units: those of the readings, y by x. Range: 2 readings or more at different x; errors independent and of one
kind. The confidence asked for cannot be had from 3 readings (67 %) or 4 (92 %): what was reached is told.
Sources: Theil 1950; Sen 1968, J. Am. Stat. Assoc. 63, 1379–1389; JCGM 100:2008, 4.3.7 and 5.1 (from memory).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations
from statistics import NormalDist, fmean, median

from saycheck.errors import SumError
from saycheck.sums.reading import Reading

EXACT_UP_TO = 60


@dataclass(frozen=True)
class Slope:
    """The slope, its interval, and how sure the interval is (0 for two readings: no check at all)."""

    value: float
    low: float
    high: float
    confidence: float


def theil_sen(x: Sequence[float], y: Sequence[Reading], confidence: float = 0.95) -> Slope:
    """The slope of y over x; raises :class:`SumError` where fewer than two x differ."""
    if len(x) != len(y):
        raise SumError(f"{len(x)} places and {len(y)} readings do not pair up; give one reading for each")
    pairs = [(i, j) for i, j in combinations(range(len(x)), 2) if x[i] != x[j]]
    if not pairs:
        raise SumError(f"{len(x)} readings at one place give no slope; take another one later")
    slopes = sorted((y[j].value - y[i].value) / (x[j] - x[i]) for i, j in pairs)
    middle = median(slopes)
    rank, reached = rank_of(len(x), len(pairs), confidence)
    if len(pairs) == 1:
        ((i, j),) = pairs
        wide = (y[i].plus_minus + y[j].plus_minus) / abs(x[j] - x[i])
        return Slope(middle, middle - wide, middle + wide, 0.0)
    wide = NormalDist().inv_cdf(0.5 + confidence / 2) * left_open(x, y)
    low, high = math.hypot(middle - slopes[rank - 1], wide), math.hypot(slopes[-rank] - middle, wide)
    return Slope(middle, middle - low, middle + high, reached)


def left_open(x: Sequence[float], y: Sequence[Reading]) -> float:
    """The standard uncertainty that the words of the readings alone give the slope."""
    centre = fmean(x)
    weights = [place - centre for place in x]
    spread = math.fsum(weight**2 for weight in weights)
    return (
        math.sqrt(math.fsum((weight * at.plus_minus) ** 2 / 3 for weight, at in zip(weights, y, strict=True)))
        / spread
    )


def rank_of(points: int, pairs: int, confidence: float) -> tuple[int, float]:
    """Which smallest and largest slope bound the interval, and the confidence that this reaches."""
    if points > EXACT_UP_TO:
        sigma = math.sqrt(points * (points - 1) * (2 * points + 5) / 18)
        reach = NormalDist().inv_cdf(0.5 + confidence / 2) * sigma
        return max(math.floor((pairs - reach) / 2), 1), confidence
    chances = _inversions(points)
    total = math.factorial(points)
    rank, tail = 1, chances[0]
    while rank < len(chances) and 1 - 2 * (tail + chances[rank]) / total >= confidence:
        tail += chances[rank]
        rank += 1
    # Pairs at one x are left out: fewer slopes, so the rank may not pass their middle.
    return min(rank, max(pairs // 2, 1)), max(1 - 2 * tail / total, 0.0)


@cache
def _inversions(points: int) -> tuple[int, ...]:
    """How many orders of so many readings have 0, 1, 2 … pairs the wrong way round."""
    counts = [1]
    for more in range(1, points):
        counts = [sum(counts[max(0, k - more) : k + 1]) for k in range(len(counts) + more)]
    return tuple(counts)
