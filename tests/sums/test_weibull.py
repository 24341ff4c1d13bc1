"""The Weibull life, against scipy and the reliability package."""

import math
import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.weibull import Weibull, fit_weibull, lower_gamma

SHAPES = st.floats(0.4, 8)
AGES = st.floats(1, 5000)
FAILED = [1200.0, 1850, 2300, 2600, 3100]
RUNNING = [2000.0, 3300]


@pytest.fixture(scope="module")
def scipy_stats() -> Any:
    """scipy.stats, where it is installed."""
    return pytest.importorskip("scipy.stats")


@given(shape=SHAPES, age=AGES, more=AGES)
def test_life_is_scipys(scipy_stats: Any, shape: float, age: float, more: float) -> None:
    """Source: scipy.stats.weibull_min: survival, hazard, mean and the chance to fail from an age on."""
    life, theirs = Weibull(shape, 1000), scipy_stats.weibull_min(shape, scale=1000)
    assert theirs.sf(age) == pytest.approx(life.survival(age), rel=1e-9, abs=1e-300)
    if theirs.sf(age) > 1e-200:
        assert theirs.pdf(age) / theirs.sf(age) == pytest.approx(life.hazard(age), rel=1e-9)
        assert 1 - theirs.sf(age + more) / theirs.sf(age) == pytest.approx(
            life.fails_within(age, more), abs=1e-9
        )
    assert theirs.mean() == pytest.approx(life.mean_h, rel=1e-9)


@given(st.floats(0.05, 5), st.floats(0, 49))
def test_lower_gamma_is_scipys(a: float, x: float) -> None:
    """Source: scipy.special.gammainc times gamma."""
    special = pytest.importorskip("scipy.special")
    assert special.gammainc(a, x) * special.gamma(a) == pytest.approx(lower_gamma(a, x), rel=1e-10)


@given(shape=SHAPES, age=st.floats(10, 3000))
def test_mean_hours_are_the_area_under_survival(shape: float, age: float) -> None:
    """Source: scipy.integrate.quad of the survival."""
    integrate = pytest.importorskip("scipy.integrate")
    life = Weibull(shape, 1000)
    area, _ = integrate.quad(life.survival, 0, age, epsabs=1e-9, limit=200)
    assert area == pytest.approx(life.mean_up_to(age), rel=1e-6)


def test_in_the_end_it_is_the_mean() -> None:
    """A part that is never replaced before failure runs its mean life."""
    life = Weibull(2.5, 1000)
    assert life.mean_h == pytest.approx(life.mean_up_to(life.end_h))
    assert 1000 * math.gamma(1.4) == pytest.approx(life.mean_h)


@pytest.mark.parametrize(
    ("failed", "running"), [(FAILED, RUNNING), (FAILED, []), ([90.0, 400, 900, 2500], [3000.0] * 6)]
)
def test_fit_is_that_of_reliability(failed: list[float], running: list[float]) -> None:
    """Source: the reliability package, Fit_Weibull_2P by greatest likelihood: values and both intervals."""
    fitters = pytest.importorskip("reliability.Fitters")
    theirs = fitters.Fit_Weibull_2P(
        failures=failed,
        right_censored=running or None,
        CI=0.9,
        show_probability_plot=False,
        print_results=False,
    )
    ours = fit_weibull(failed, running, confidence=0.9)
    assert (theirs.beta, theirs.beta_lower, theirs.beta_upper) == pytest.approx(
        (ours.shape.value, ours.shape.low, ours.shape.high), rel=2e-3
    )
    assert (theirs.alpha, theirs.alpha_lower, theirs.alpha_upper) == pytest.approx(
        (ours.scale_h.value, ours.scale_h.low, ours.scale_h.high), rel=2e-3
    )


def test_fit_is_that_of_scipy(scipy_stats: Any) -> None:
    """Source: scipy.stats.weibull_min.fit, all failed."""
    shape, _, scale = scipy_stats.weibull_min.fit(FAILED, floc=0)
    ours = fit_weibull(FAILED)
    assert (shape, scale) == pytest.approx((ours.life.shape, ours.life.scale_h), rel=1e-3)


def test_fit_holds_the_truth() -> None:
    """200 simulated fleets of 40 parts, watched 1,200 h: shape and scale lie inside about as often as told."""
    rng = random.Random(8)
    shape_inside = scale_inside = 0
    for _ in range(200):
        lives = [rng.weibullvariate(1000, 2.5) for _ in range(40)]
        fit = fit_weibull(
            [x for x in lives if x < 1200], [1200.0 for x in lives if x >= 1200], confidence=0.9
        )
        shape_inside += fit.shape.low <= 2.5 <= fit.shape.high
        scale_inside += fit.scale_h.low <= 1000 <= fit.scale_h.high
    # 3 sigma of chance are 6 %; the interval is an approximation, so 2 % more
    assert shape_inside / 200 >= 0.82
    assert scale_inside / 200 >= 0.82


@pytest.mark.parametrize(
    ("failed", "sentence"),
    [
        (
            [100.0, 200],
            "2 failures at 2 different ages tell nothing of a part's life; gather 3 or more",
        ),
        (
            [100.0, 100, 100],
            "3 failures at 1 different ages tell nothing of a part's life; gather 3 or more",
        ),
        (
            [100.0, 100.1, 100.2],
            "these ages give a Weibull shape outside 0.2 to 20; look whether they are of one kind of part",
        ),
        (
            [0.0, 100, 200],
            "an age of 0 h is outside 1e-06 to 1e+09 h, where this sum holds; check the number",
        ),
    ],
)
def test_refused(failed: list[float], sentence: str) -> None:
    """Too few, all at once and below nothing."""
    with pytest.raises(SumError) as told:
        fit_weibull(failed)
    assert sentence == str(told.value)
