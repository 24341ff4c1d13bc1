"""The shortest way round, against trying every order."""

from itertools import combinations, permutations

import pytest

from saycheck.coverage.route import shortest


def length(way: list[int], start: int, n: int) -> int:
    """Steps of a way on a ring of ``n`` places, each leg the shorter way about."""
    steps, here = 0, start
    for stop in way:
        steps += min((stop - here) % n, (here - stop) % n)
        here = stop
    return steps


@pytest.mark.parametrize(
    ("stops", "start", "way"),
    [
        ([], 0, []),
        ([0], 0, [0]),
        ([1, 3], 0, [1, 3]),  # either way about is as long: go on walking ahead
        ([1, 2, 3], 0, [1, 2, 3]),
        ([3], 0, [3]),  # one step back
        ([2, 3], 0, [3, 2]),
        ([0, 3], 2, [3, 0]),  # past the last place to the first
        ([1, 1, 1], 0, [1]),
    ],
)
def test_on_four_places(stops: list[int], start: int, way: list[int]) -> None:
    """Front, left, rear and right are places 0 to 3."""
    assert way == shortest(stops, start, 4)


@pytest.mark.parametrize("n", [1, 2, 3, 4, 5, 6, 7])
def test_no_order_is_shorter(n: int) -> None:
    """For every set of stops on a ring no order of them walks less (found by trying all of them)."""
    for count in range(1, n + 1):
        for stops in combinations(range(n), count):
            way = shortest(stops, 0, n)
            least = min(length(list(order), 0, n) for order in permutations(stops))

            assert set(stops) == set(way)
            assert (stops, least) == (stops, length(way, 0, n))
