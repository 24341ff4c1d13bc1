"""The zones of the checklist dealt out to columns of about the same height, whole and in walking order."""

from collections.abc import Sequence
from functools import cache

COLUMNS = 3
ZONE_LINES = 2
"""A zone takes as much height as its lines and so many more, for its name and the space before it."""


def dealt(heights: Sequence[int], columns: int) -> list[int]:
    """How many of the zones go into each column, so that the tallest column is as low as can be."""

    @cache
    def best(start: int, left: int) -> tuple[int, tuple[int, ...]]:
        if left == 1:
            return sum(heights[start:]), (len(heights) - start,)
        found = []
        for end in range(start, len(heights) + 1):
            rest, counts = best(end, left - 1)
            found.append((max(sum(heights[start:end]), rest), (end - start, *counts)))
        return min(found, key=lambda one: one[0])

    return list(best(0, columns)[1])
