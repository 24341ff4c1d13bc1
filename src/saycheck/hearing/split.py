"""Cuts sound that is too long for the built-in ear at its quietest points."""

from itertools import pairwise

import numpy as np

from saycheck.hearing.ear import SAMPLE_RATE, Samples

LONGEST_S = 25.0
"""The network was made for stretches of up to half a minute; its cost grows with the square of the length."""

_FRAME = SAMPLE_RATE // 100
_SMOOTH = 15
"""Frames (of 10 ms) over which loudness is smoothed, so that a stop consonant is not taken for a pause."""


def pieces(samples: Samples, longest_s: float = LONGEST_S) -> list[tuple[int, int]]:
    """First and last sample (exclusive) of stretches no longer than ``longest_s``, without gaps.

    Sound longer than that is cut into the fewest stretches, each cut at the quietest place within a third
    of a stretch around where an even cut would fall.
    """
    most = int(longest_s * SAMPLE_RATE)
    if len(samples) <= most:
        return [(0, len(samples))]
    loudness = _loudness(samples)
    edges = [0]
    while len(samples) - edges[-1] > most:
        left = len(samples) - edges[-1]
        even = left / np.ceil(left / most)
        low = edges[-1] + int(even * 0.67)
        high = min(edges[-1] + min(int(even * 1.33), most), len(samples) - _FRAME)
        window = loudness[low // _FRAME : high // _FRAME]
        edges.append((low // _FRAME + int(np.argmin(window))) * _FRAME + _FRAME // 2)
    edges.append(len(samples))
    return list(pairwise(edges))


def _loudness(samples: Samples) -> Samples:
    count = len(samples) // _FRAME
    power = np.mean(samples[: count * _FRAME].reshape(count, _FRAME) ** 2, axis=1)
    return np.convolve(power, np.ones(_SMOOTH, np.float32) / _SMOOTH, "same").astype(np.float32)
