"""The robust slope and its interval."""

import itertools
import random
from collections.abc import Callable
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.reading import Reading
from saycheck.sums.theil_sen import rank_of, theil_sen

SEN_X = [1, 2, 3, 4, 10, 12, 18]
SEN_Y = [9, 15, 19, 20, 45, 55, 78]


def plain(values: list[float]) -> list[Reading]:
    """Readings that leave nothing open."""
    return [Reading(value) for value in values]


def test_sens_own_example() -> None:
    """Source: Sen 1968, the worked example, from memory, as scipy's tests have it too: slope 4, 3.71 to 4.38.

    It is called a 93 % interval there; counted out (below), these ranks reach 97 %, and one rank further in is
    what reaches 93 %. Asked for 95 %, ours is the published one.
    """
    slope = theil_sen(SEN_X, plain([float(y) for y in SEN_Y]), 0.95)
    assert (4, 26 / 7, 35 / 8) == pytest.approx((slope.value, slope.low, slope.high))
    assert 0.970 == pytest.approx(slope.confidence, abs=0.0005)
    narrower = theil_sen(SEN_X, plain([float(y) for y in SEN_Y]), 0.93)
    assert slope.low < narrower.low < 4 < narrower.high < slope.high
    assert 0.931 == pytest.approx(narrower.confidence, abs=0.0005)


def test_scipys_documented_example() -> None:
    """Source: scipy.stats.theilslopes, the example of its documentation, with a seed: a line with wild readings.

    The slope is the same; scipy rounds the ranks of the interval, ours go outward, so ours holds scipy's.
    """
    stats = pytest.importorskip("scipy.stats")
    x = np.linspace(-5, 5, num=150)
    y = x + np.random.default_rng(8).normal(size=x.size)
    y[11:15] += 10
    y[-5:] -= 7
    theirs = stats.theilslopes(y, x, 0.90, method="separate")
    ours = theil_sen(x.tolist(), plain(y.tolist()), 0.90)
    assert theirs.slope == pytest.approx(ours.value, rel=1e-12)
    assert ours.low <= theirs.low_slope
    assert theirs.high_slope <= ours.high
    assert (theirs.low_slope, theirs.high_slope) == pytest.approx((ours.low, ours.high), rel=0.002)


@given(
    st.lists(st.tuples(st.integers(0, 40), st.integers(-50, 50)), min_size=2, max_size=25).filter(
        lambda rows: len({x for x, _ in rows}) > 1
    )
)
def test_slope_is_scipys(rows: list[tuple[int, int]]) -> None:
    """Source: scipy.stats.theilslopes on any readings, also several at one place."""
    stats = pytest.importorskip("scipy.stats")
    x, y = [float(a) for a, _ in rows], [float(b) for _, b in rows]
    assert stats.theilslopes(y, x).slope == pytest.approx(theil_sen(x, plain(y)).value, abs=1e-9)


@pytest.mark.parametrize("points", [3, 4, 5, 6, 7])
@pytest.mark.parametrize("asked", [0.8, 0.95])
def test_confidence_by_counting(points: int, asked: float) -> None:
    """All orders of the errors counted out: the slope lies inside as often as is told, and 95 % where it can be."""
    pairs = points * (points - 1) // 2
    rank, told = rank_of(points, pairs, asked)
    inside = total = 0
    for order in itertools.permutations(range(points)):
        rising = sum(order[i] < order[j] for i, j in itertools.combinations(range(points), 2))
        # so many slopes lie above the true one; it is inside when at least `rank` lie on either side
        inside += rank <= rising <= pairs - rank
        total += 1
    assert Fraction(inside, total) == pytest.approx(told)
    assert told >= asked or rank == 1


def test_few_readings_promise_less() -> None:
    """Three readings reach 67 %, four 92 %, five what was asked for; two have no check at all."""
    reached = [round(rank_of(points, points * (points - 1) // 2, 0.95)[1], 3) for points in (3, 4, 5, 20)]
    assert [0.667, 0.917, 0.983, 0.951] == [*reached[:3], pytest.approx(reached[3], abs=0.005)]
    assert 0 == theil_sen([0, 100], plain([20, 19])).confidence


def test_two_readings() -> None:
    """Two readings have what their words leave open, end against end."""
    slope = theil_sen([0, 100], [Reading(20, 0.5), Reading(18, 0.5)])
    assert (-0.02, -0.03, -0.01) == pytest.approx((slope.value, slope.low, slope.high))


def test_rounded_readings_are_not_exact() -> None:
    """Whole millimetres in an even row: the bare interval would have no width."""
    whole = [22.0, 21, 20, 19, 18, 17]
    hours = [0.0, 100, 200, 300, 400, 500]
    bare = theil_sen(hours, plain(whole))
    rounded = theil_sen(hours, [Reading(value, 0.5) for value in whole])
    assert bare.high - bare.low == pytest.approx(0)
    assert rounded.high - rounded.low > 0.002


@pytest.mark.parametrize("errors", ["normal", "even", "wild"])
@pytest.mark.parametrize("points", [4, 6, 12])
def test_it_holds_the_truth_as_often_as_told(errors: str, points: int) -> None:
    """500 simulated histories a row: the true slope is inside at least as often as told, less chance (3 sigma)."""
    rng = random.Random(f"{errors}{points}")
    draw: Callable[[], float] = {
        "normal": lambda: rng.gauss(0, 0.4),
        "even": lambda: rng.uniform(-0.7, 0.7),
        "wild": lambda: rng.gauss(0, 0.3) * (8 if rng.random() < 0.1 else 1),
    }[errors]
    inside, told = 0, 0.0
    for _ in range(500):
        x = [rng.uniform(0, 1000) for _ in range(points)]
        slope = theil_sen(x, plain([22 - 0.006 * at + draw() for at in x]))
        inside += slope.low <= -0.006 <= slope.high
        told = slope.confidence
    assert inside / 500 >= told - 3 * (told * (1 - told) / 500) ** 0.5


def test_a_wild_reading_moves_little() -> None:
    """One reading in six that is far off does not turn the slope."""
    x = [0.0, 100, 200, 300, 400, 500]
    y = [22 - 0.01 * at for at in x]
    y[3] += 9
    assert -0.01 == pytest.approx(theil_sen(x, plain(y)).value, rel=0.1)


@pytest.mark.parametrize(
    ("x", "y", "sentence"),
    [
        ([5.0, 5.0], [1.0, 2.0], "2 readings at one place give no slope; take another one later"),
        ([5.0], [1.0, 2.0], "1 places and 2 readings do not pair up; give one reading for each"),
    ],
)
def test_refused(x: list[float], y: list[float], sentence: str) -> None:
    """No slope without a run."""
    with pytest.raises(SumError) as told:
        theil_sen(x, plain(y))
    assert sentence == str(told.value)
