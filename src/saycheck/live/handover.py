"""Another voice than before? Told by what a voice keeps from phrase to phrase; nobody is recognised.

Each utterance gives one row: its pitch in octaves and the shape of its mean spectrum in decibels. A row far
from the running mean of the present voice, twice in a row, is a handover. Nothing of it is kept.
"""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from saycheck.hearing.ear import SAMPLE_RATE, Samples

FAR = 1.0
"""Distance beyond which an utterance is another voice's; see ``bench/listen.py``."""

PITCH_OCTAVES = 0.45
"""A difference in pitch that counts 1 by itself."""

SHAPE_DB = 6.5
"""A mean difference of the spectra's shapes that counts 1 by itself."""

_FRAME = 640
_LOWEST_HZ, _HIGHEST_HZ = 70, 350
_BANDS = np.geomspace(200, 6000, 17)
_LEAST_VOICED = 15
_KNOWN_AFTER = 2

Row = NDArray[np.float64]


class Voices:
    """Takes the sound of utterances and says of each whether a new voice has taken over."""

    def __init__(self) -> None:
        self._mean: Row | None = None
        self._count = 0
        self._odd: list[Row] = []
        self._odd_since_s = 0.0

    def changed(self, samples: Samples, began_s: float = 0.0) -> float | None:
        """Since when someone else speaks, where that is sure with this utterance, which began then; else None."""
        row = features(samples)
        if row is None:
            return None
        if self._mean is None or self._count < _KNOWN_AFTER or distance(row, self._mean) < FAR:
            self._take(row)
            self._odd = []
            return None
        self._odd = [*self._odd[-1:], row]
        before_s, self._odd_since_s = self._odd_since_s, began_s
        if len(self._odd) < 2 or distance(self._odd[-2], row) >= FAR:
            return None
        self._mean, self._count = np.mean(self._odd[-2:], axis=0), 2
        self._odd = []
        return before_s

    def _take(self, row: Row) -> None:
        self._count = min(self._count + 1, 12)
        self._mean = row if self._mean is None else self._mean + (row - self._mean) / self._count


def distance(one: Row, other: Row) -> float:
    """How unlike two rows are; 1 is as much as one voice rarely differs from itself."""
    pitch = abs(float(one[0] - other[0])) / PITCH_OCTAVES
    shape = float(np.mean(np.abs(one[1:] - other[1:]))) / SHAPE_DB
    return float(np.hypot(pitch, shape))


def features(samples: Samples) -> Row | None:
    """Pitch in octaves over 1 Hz, then the spectrum of the voiced frames in decibels about its mean.

    None where too little of it is voiced.
    """
    pitches: list[float] = []
    power = np.zeros(_FRAME // 2 + 1)
    shape = np.hanning(_FRAME)
    loud = float(np.sqrt(np.mean(np.square(samples))))
    for start in range(0, len(samples) - _FRAME, _FRAME // 2):
        frame = samples[start : start + _FRAME].astype(np.float64)
        if float(np.sqrt(np.mean(np.square(frame)))) < 0.6 * loud:
            continue
        pitch = _pitch_hz(frame - frame.mean())
        if pitch is not None:
            pitches.append(pitch)
            power += np.square(np.abs(np.fft.rfft(frame * shape)))
    if len(pitches) < _LEAST_VOICED:
        return None
    hertz = np.fft.rfftfreq(_FRAME, 1 / SAMPLE_RATE)
    bands = np.array([power[(hertz >= low) & (hertz < high)].mean() for low, high in pairwise(_BANDS)])
    decibels = 10 * np.log10(bands + 1e-12)
    return np.concatenate([[np.log2(np.median(pitches))], decibels - decibels.mean()])


def _pitch_hz(frame: NDArray[np.float64]) -> float | None:
    """The pitch of a voiced frame by autocorrelation, None for one that is not."""
    spectrum = np.fft.rfft(frame, 2 * _FRAME)
    alike = np.fft.irfft(np.square(np.abs(spectrum)))[:_FRAME]
    if alike[0] <= 0:
        return None
    first, last = SAMPLE_RATE // _HIGHEST_HZ, SAMPLE_RATE // _LOWEST_HZ
    normal = alike[first:last] / alike[0] * _FRAME / (_FRAME - np.arange(first, last))
    best = int(np.argmax(normal))
    return SAMPLE_RATE / (first + best) if normal[best] > 0.55 else None
