"""Noises to mix into speech: a diesel at idle, and pink noise; made up by us, no recording is used.

Not a command; ``speak.with_noise`` and the tests take them by name from ``NOISES``.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

SAMPLE_RATE = 16_000

Samples = NDArray[np.float32]


def engine_noise(count: int, rng: np.random.Generator) -> Samples:
    """A diesel at idle, four strokes and six cylinders, from one to three metres away.

    Engine orders (half orders of a wandering crankshaft speed, strongest at the firing order),
    combustion knock ringing at a few block resonances, and fan and exhaust rush that swells with
    the firing. Made up by us after common descriptions of engine noise; no recording is used.
    """
    time = np.arange(count) / SAMPLE_RATE
    idle = rng.uniform(750, 1100) / 60
    revolutions = idle * (1 + 0.012 * _wander(count, 1.5, rng) + 0.004 * _wander(count, 12.0, rng))
    crank = 2 * np.pi * np.cumsum(revolutions) / SAMPLE_RATE
    orders = np.zeros(count)
    for half_orders in range(1, 81):
        order = half_orders / 2
        strength = order**-0.75 * (2.2 if order % 3 == 0 else 0.5) * rng.uniform(0.5, 1.2)
        orders += (
            strength * (1 + 0.25 * _wander(count, 3.0, rng)) * np.sin(order * crank + rng.uniform(0, 6.28))
        )
    firing = np.flatnonzero(np.diff(np.floor(3 * crank / (2 * np.pi))) > 0)
    clicks = np.zeros(count)
    clicks[firing] = rng.lognormal(0, 0.35, len(firing))
    knock = np.zeros(count)
    ring = time[:800]
    for resonance in rng.uniform((600, 1100, 1900, 3000), (900, 1600, 2600, 4200)):
        shape = np.exp(-ring * rng.uniform(150, 400)) * np.sin(2 * np.pi * resonance * ring)
        knock += _rung(clicks, shape * rng.uniform(0.4, 1.0))
    rush = pink_noise(count, rng) * (1 + 0.3 * np.sin(3 * crank)) * (1 + 0.2 * _wander(count, 0.7, rng))
    mixed = sum(w * _unit(_above(part, 80)) for w, part in ((0.75, orders), (0.35, knock), (0.55, rush)))
    return _unit(np.asarray(mixed)).astype(np.float32)


def pink_noise(count: int, rng: np.random.Generator) -> Samples:
    """Noise whose power falls by 3 dB an octave, above 80 Hz."""
    spectrum = np.fft.rfft(rng.normal(size=count))
    frequency = np.maximum(np.fft.rfftfreq(count, 1 / SAMPLE_RATE), 1.0)
    return _above(np.fft.irfft(spectrum / np.sqrt(frequency), count), 80).astype(np.float32)


NOISES: dict[str, Callable[[int, np.random.Generator], Samples]] = {
    "engine": engine_noise,
    "pink": pink_noise,
}


def _wander(count: int, hertz: float, rng: np.random.Generator) -> NDArray[np.float64]:
    """A smooth random curve of unit spread that turns about ``hertz`` times a second."""
    knots = max(int(count / SAMPLE_RATE * hertz * 2) + 2, 4)
    return np.interp(np.linspace(0, knots - 1, count), np.arange(knots), rng.normal(size=knots))


def _above(sound: NDArray[np.floating], hertz: float) -> NDArray[np.float64]:
    spectrum = np.fft.rfft(sound)
    frequency = np.fft.rfftfreq(len(sound), 1 / SAMPLE_RATE)
    return np.fft.irfft(spectrum / (1 + (hertz / np.maximum(frequency, 1e-3)) ** 4), len(sound))


def _rung(clicks: NDArray[np.float64], shape: NDArray[np.float64]) -> NDArray[np.float64]:
    """Convolve by FFT; the last clicks ring around into the start, which no one hears."""
    return np.fft.irfft(np.fft.rfft(clicks) * np.fft.rfft(shape, len(clicks)), len(clicks))


def _unit(sound: NDArray[np.floating]) -> NDArray[np.float64]:
    return np.asarray(sound, np.float64) / max(float(np.sqrt(np.mean(np.square(sound)))), 1e-9)
