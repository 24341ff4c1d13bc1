"""The age to replace a part at."""

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.age_replacement import age_replacement, best_age, cost_per_hour
from saycheck.sums.reading import Reading
from saycheck.sums.weibull import Weibull


def test_published_example() -> None:
    """Source: the example "Optimum Replacement Time" of ReliaWiki's System Analysis Reference.

    Shape 2.5, scale 1,000 h, costs 1 and 5, read on a page; its answer, 493.05 h, is from memory.
    """
    told = age_replacement(1, 5, shape=2.5, scale_h=1000)
    assert told.best_age_h is not None
    assert 493.05 == pytest.approx(told.best_age_h.value, abs=0.01)


@pytest.mark.parametrize(
    ("planned", "failure", "shape", "scale"),
    [
        (1, 5, 2.5, 1000),
        (800, 9000, 3.4, 2800),
        (100, 250, 1.8, 600),
        (1, 40, 5, 12_000),
        (10, 1000, 1.5, 50),
    ],
)
def test_reliability_package(planned: float, failure: float, shape: float, scale: float) -> None:
    """Source: the reliability package, optimal_replacement_time for parts as good as new (q = 0)."""
    systems = pytest.importorskip("reliability.Repairable_systems")
    theirs = systems.optimal_replacement_time(
        cost_PM=planned,
        cost_CM=failure,
        weibull_alpha=scale,
        weibull_beta=shape,
        q=0,
        show_time_plot=False,
        show_ratio_plot=False,
        print_results=False,
    )
    ours = age_replacement(planned, failure, shape=shape, scale_h=scale)
    assert ours.best_age_h is not None
    # it looks along a grid, so its age is a little beside the best
    assert theirs.ORT == pytest.approx(ours.best_age_h.value, rel=2e-3)
    assert theirs.min_cost == pytest.approx(ours.cost_per_h, rel=1e-4)


@given(st.floats(1.1, 6), st.floats(1.5, 100))
def test_scipy_finds_nothing_better(shape: float, failure: float) -> None:
    """Source: scipy.integrate and scipy.optimize on the cost an hour itself: no cheaper age, the same cost."""
    optimize, integrate = pytest.importorskip("scipy.optimize"), pytest.importorskip("scipy.integrate")
    life = Weibull(shape, 1000)

    def cost(age: float) -> float:
        hours, _ = integrate.quad(life.survival, 0, age, limit=200)
        return float((life.survival(age) + failure * (1 - life.survival(age))) / hours)

    best = best_age(life, 1, failure)
    least = cost_per_hour(life, 1, failure, best)
    theirs = optimize.minimize_scalar(cost, bounds=(1, 4000), method="bounded")
    assert least <= theirs.fun * (1 + 1e-6)
    if best < 3500:
        assert cost(best) == pytest.approx(least, rel=1e-6)


def test_simulated_parts() -> None:
    """60,000 parts drawn and replaced at the age told: their cost an hour is the one told, less chance (1 %)."""
    rng = random.Random(8)
    told = age_replacement(1, 5, shape=2.5, scale_h=1000)
    assert told.best_age_h is not None
    age = told.best_age_h.value
    lives = [rng.weibullvariate(1000, 2.5) for _ in range(60_000)]
    cost = sum(5 if life < age else 1 for life in lives) / sum(min(life, age) for life in lives)
    assert told.cost_per_h == pytest.approx(cost, rel=0.01)


@given(st.floats(1.2, 5), st.floats(2, 50), st.floats(2, 50))
def test_dearer_failures_call_earlier(shape: float, one: float, other: float) -> None:
    """The dearer a failure, the earlier the part is replaced."""
    less, more = sorted((one, other))
    life = Weibull(shape, 1000)
    assert best_age(life, 1, more) <= best_age(life, 1, less) + 1e-6


@given(st.integers(0, 10_000))
def test_the_truth_is_inside(seed: int) -> None:
    """Whatever shape, scale and costs truly are between their ends, the best age lies between its own."""
    rng = random.Random(seed)
    told = age_replacement(
        Reading(800, 100), Reading(9000, 2000), shape=Reading(2.5, 0.5), scale_h=Reading(3000, 300)
    )
    life = Weibull(rng.uniform(2, 3), rng.uniform(2700, 3300))
    true = best_age(life, rng.uniform(700, 900), rng.uniform(7000, 11_000))
    assert told.best_age_h is not None
    assert told.best_age_h.low - 1e-6 <= true <= told.best_age_h.high + 1e-6


@pytest.mark.parametrize("shape", [0.6, 1.0])
def test_what_does_not_wear_runs_to_failure(shape: float) -> None:
    """Shape 1 or less: a new part is no better than an old one. Source: Barlow and Hunter 1960 (from memory)."""
    told = age_replacement(1, 50, shape=shape, scale_h=1000)
    assert told.best_age_h is None
    assert 50 / Weibull(shape, 1000).mean_h == pytest.approx(told.cost_per_h)
    assert told.plainly.startswith("No age to replace it at: it does not wear out")
    assert math.isinf(best_age(Weibull(shape, 1000), 1, 50))


def test_near_enough() -> None:
    """At both ends of what is near enough it costs 5 % more than the least."""
    told = age_replacement(1, 5, shape=2.5, scale_h=1000)
    assert told.near_h is not None
    costs = [cost_per_hour(told.life, 1, 5, age) / told.cost_per_h for age in told.near_h]
    assert [1.05, 1.05] == pytest.approx(costs, rel=1e-6)


def test_plainly() -> None:
    """The sentence says when, what it costs against running to failure, and how much the age may vary."""
    told = age_replacement(
        Reading(800, 100),
        Reading(9000, 2000),
        shape=Reading(2.5, 0.5),
        scale_h=Reading(3000, 300),
        money="CAD",
    )
    assert (
        "Replace it at 1,000 h (710 to 1,400): that costs 1.33 CAD an hour against 3.38 CAD when run to failure, 61 % "
        "less, and 6.4 % still fail before. Anything from 770 to 1,300 h costs at most 5 % more."
        == told.plainly
    )
    assert "the maker's interval" in told.caution


def test_refused() -> None:
    """Where a failure costs no more than the planned job there is nothing to plan."""
    with pytest.raises(SumError) as told:
        age_replacement(5, 5, shape=2, scale_h=1000)
    assert (
        "a failure at 5 that costs no more than the planned job at 5 needs no planning; count the hours down and the "
        "idle crew as well" == str(told.value)
    )
