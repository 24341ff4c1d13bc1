"""The Weibull life of a part: how likely it lasts, and its shape and scale from lives that were seen.

Formulas, with shape β and scale η: survival R(t) = exp(−(t/η)^β); rate of failure h(t) = β/η · (t/η)^(β−1);
chance to fail between age t and t + s when it has lasted to t: 1 − R(t+s)/R(t); mean hours up to age T
∫₀ᵀ R = (η/β) · γ(1/β, (T/η)^β) with the lower incomplete gamma function. Fit: greatest likelihood, lives cut
short counted as such; interval by the observed information on the logarithms of both.
Units: hours. Range: shape 0.2 to 20, scale above 0; a fit needs 3 failures, and below 10 it is rough and makes
the shape look too steep. Source: Weibull 1951, J. Appl. Mech. 18, 293–297; NIST/SEMATECH e-Handbook, 8.4 (both
from memory).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

from saycheck.errors import SumError
from saycheck.sums.reading import Span, require

SHAPES = (0.2, 20.0)
LEAST_FAILURES = 3
SURE_TO_FAIL = 50.0
"""(t/η)^β from which nothing is left of the part: R is below 2e-22."""


@dataclass(frozen=True)
class Weibull:
    """A life with its shape (no unit) and scale in hours, the age that 63 % do not reach."""

    shape: float
    scale_h: float

    def __post_init__(self) -> None:
        require(
            "a Weibull shape", self.shape, *SHAPES, hint="below 1 is early failure, 1 chance, above 1 wear"
        )
        require("a Weibull scale", self.scale_h, 1e-6, 1e9, "h")

    def survival(self, age_h: float) -> float:
        """The share that lasts to an age."""
        return math.exp(-self._used(age_h))

    def hazard(self, age_h: float) -> float:
        """Failures an hour among those that lasted to an age above 0."""
        return self.shape * self._used(age_h) / age_h

    def fails_within(self, age_h: float, hours: float) -> float:
        """The chance that a part of this age fails in so many hours more."""
        return -math.expm1(self._used(age_h) - self._used(age_h + hours))

    @property
    def mean_h(self) -> float:
        """The mean life."""
        return self.scale_h * math.gamma(1 + 1 / self.shape)

    @property
    def end_h(self) -> float:
        """An age that no part reaches."""
        return self.scale_h * math.pow(SURE_TO_FAIL, 1 / self.shape)

    def mean_up_to(self, age_h: float) -> float:
        """The mean hours that a part runs when it is replaced at an age at the latest: ∫₀ᵀ R(t) dt."""
        return self.scale_h / self.shape * lower_gamma(1 / self.shape, self._used(age_h))

    def _used(self, age_h: float) -> float:
        """(t/η)^β, the life used up."""
        return math.pow(age_h / self.scale_h, self.shape)


def lower_gamma(a: float, x: float) -> float:
    """The lower incomplete gamma function, by its series (Abramowitz and Stegun 6.5.29), for a > 0, x ≥ 0."""
    if x > SURE_TO_FAIL:
        return math.gamma(a)
    term = total = 1 / a
    n = a
    while term > total * 1e-17:
        n += 1
        term *= x / n
        total += term
    return total * math.exp(-x) * math.pow(x, a)


@dataclass(frozen=True)
class WeibullFit:
    """A life fitted to what was seen, with intervals of shape and scale (hours) at a confidence (0 to 1)."""

    life: Weibull
    shape: Span
    scale_h: Span
    failures: int
    still_running: int
    confidence: float


def fit_weibull(
    failed_h: Sequence[float], still_running_h: Sequence[float] = (), *, confidence: float = 0.9
) -> WeibullFit:
    """Shape and scale from ages at failure and ages of parts that had not failed.

    Raises :class:`SumError` below 3 failures, for ages of 0 or less, and where all failed at one age.
    """
    require("a confidence", confidence, 0.5, 0.999)
    for age in (*failed_h, *still_running_h):
        require("an age", age, 1e-6, 1e9, "h")
    if len(failed_h) < LEAST_FAILURES or len(set(failed_h)) < 2:
        raise SumError(
            f"{len(failed_h)} failures at {len(set(failed_h))} different ages tell nothing of a part's life; "
            f"gather {LEAST_FAILURES} or more"
        )
    largest = max((*failed_h, *still_running_h))
    ages = [age / largest for age in (*failed_h, *still_running_h)]
    shape = _shape([age / largest for age in failed_h], ages)
    scale = (math.fsum(age**shape for age in ages) / len(failed_h)) ** (1 / shape)
    return _with_interval(Weibull(shape, scale * largest), len(failed_h), ages, scale, confidence)


def _shape(failed: Sequence[float], ages: Sequence[float]) -> float:
    """The root of the likelihood equation, which only rises with the shape; ages as shares of the largest."""
    mean_log = math.fsum(math.log(age) for age in failed) / len(failed)

    def slope(shape: float) -> float:
        weights = [age**shape for age in ages]
        logs = math.fsum(weight * math.log(age) for weight, age in zip(weights, ages, strict=True))
        return logs / math.fsum(weights) - 1 / shape - mean_log

    low, high = SHAPES
    if slope(low) > 0 or slope(high) < 0:
        raise SumError(
            f"these ages give a Weibull shape outside {low:g} to {high:g}; look whether they are of one kind of part"
        )
    while high - low > 1e-12 * high:
        middle = (low + high) / 2
        low, high = (low, middle) if slope(middle) > 0 else (middle, high)
    return (low + high) / 2


def _with_interval(
    life: Weibull, failures: int, ages: Sequence[float], scale: float, confidence: float
) -> WeibullFit:
    """The fit with its interval from the observed information, ages and scale as shares of the largest age."""
    shape = life.shape
    parts = [((age / scale) ** shape, math.log(age / scale)) for age in ages]
    of_shape = failures / shape**2 + math.fsum(z * log * log for z, log in parts)
    of_scale = failures * (shape / scale) ** 2
    of_both = -shape / scale * math.fsum(z * log for z, log in parts)
    whole = of_shape * of_scale - of_both**2
    wide = NormalDist().inv_cdf(0.5 + confidence / 2)
    by_shape = math.exp(wide * math.sqrt(of_scale / whole) / shape)
    by_scale = math.exp(wide * math.sqrt(of_shape / whole) / scale)
    return WeibullFit(
        life,
        Span(shape, shape / by_shape, shape * by_shape),
        Span(life.scale_h, life.scale_h / by_scale, life.scale_h * by_scale),
        failures,
        len(ages) - failures,
        confidence,
    )
