"""Make one channel of several, whatever is wrong with one of them.

Averaging loses half the level where one microphone is dead, and everything where the two are wired
in opposite phase. So the channels are mixed along the direction in which most of the sound that they
share lies: the leading eigenvector of their running covariance, each channel measured by its own noise. For
two good channels that is their mean, for a dead one the other alone, for opposite phase the mean with one
of them turned over; of one that stands in the wind little is taken.
"""

import numpy as np
from numpy.typing import NDArray

from saycheck.hearing.ear import SAMPLE_RATE, Samples

SLICE = SAMPLE_RATE // 10
"""Samples between two looks at the channels."""

MEMORY_S = 3.0
"""How long a look counts for (time constant, seconds)."""

RISE = 1.02
"""How much the noise of a channel is thought to rise from look to look, until it is quieter: twofold in 3.5 s."""

LEAST_NOISE = 0.1
"""No channel counts as less noisy than this share of the noisiest, in power."""

_SILENT = 10.0**-9
"""Power below which a slice says nothing about the channels (-90 dB of full scale)."""


class OneChannel:
    """Mixes a stream of (samples, channels) to mono; remembers the channels from piece to piece."""

    def __init__(self) -> None:
        self._shared: NDArray[np.float64] | None = None
        self._weights: NDArray[np.float64] | None = None
        self._noise: NDArray[np.float64] | None = None

    def mix(self, sound: Samples) -> Samples:
        """Return one channel of the same length for a piece of shape (samples, channels)."""
        if sound.shape[1] == 1:
            return sound[:, 0]
        slices = [self._mixed(sound[start : start + SLICE]) for start in range(0, len(sound), SLICE)]
        return np.concatenate(slices) if slices else np.empty(0, np.float32)

    def _mixed(self, piece: Samples) -> Samples:
        before = self._weights
        self._look(piece)
        after = self._weights if self._weights is not None else np.full(piece.shape[1], 1 / piece.shape[1])
        if before is None or np.allclose(before, after, atol=1e-3):
            return (piece @ after).astype(np.float32)
        ramp = np.linspace(0, 1, len(piece), endpoint=False)[:, None]  # no step that could be heard
        mixed: Samples = (piece * (before + ramp * (after - before))).sum(axis=1).astype(np.float32)
        return mixed

    def _look(self, piece: Samples) -> None:
        """Take a slice into the running covariance and turn the weights after it."""
        # The step from sample to sample favours the middle of speech and leaves out what a dead
        # channel is full of: hum, rumble and a constant offset.
        steps = np.diff(piece.astype(np.float64), axis=0)
        shared = steps.T @ steps / max(len(piece), 1)
        power = float(np.trace(shared))
        if power < _SILENT:
            return
        each = np.diag(shared)
        self._noise = each if self._noise is None else np.minimum(each, self._noise * RISE)
        shared /= np.sqrt(power)  # a bang from a loose plug counts for little more than a word
        kept = np.exp(-len(piece) / SAMPLE_RATE / MEMORY_S)
        self._shared = shared if self._shared is None else kept * self._shared + (1 - kept) * shared
        quieter = 1 / np.sqrt(np.maximum(self._noise, max(LEAST_NOISE * float(self._noise.max()), _SILENT)))
        measured = quieter[:, None] * self._shared * quieter
        self._weights = self._turned(quieter * np.linalg.eigh(measured)[1][:, -1], self._shared)

    def _turned(self, direction: NDArray[np.float64], shared: NDArray[np.float64]) -> NDArray[np.float64]:
        """Scale so that the mix is as loud as the loudest channel at most, and keep the sign it had before."""
        loudest, mix = np.diag(shared).max(), direction @ shared @ direction
        weights: NDArray[np.float64] = direction * min(np.sqrt(loudest / mix), 2 / np.abs(direction).sum())
        sign = float(weights @ self._weights) if self._weights is not None else float(weights.sum())
        if abs(sign) < 1e-6:
            sign = float(weights[0])
        return -weights if sign < 0 else weights
