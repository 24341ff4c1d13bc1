"""What is measured on the sound: one row for every 32 ms, light enough for hours (4 MB each)."""

from array import array
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from saycheck.capture.voice import WINDOW
from saycheck.hearing.ear import SAMPLE_RATE, Samples

NEAR_FULL = 0.985
"""Samples beyond this share of full scale are counted: decoders and resamplers round the flat tops."""

Row = NDArray[np.float64]

LOWEST_VOICE_HZ = 300
"""Levels count sound above this, as a telephone carries it: there the words are, and there wind and the
rumble of an engine hardly reach. Speech with noise mixed in at a known ratio of the whole sound above
80 Hz keeps that ratio within 1.6 dB for ``bench``'s engine noise and loses 1.6 to 3.6 dB in pink noise,
which does harm the ears more at the same ratio; wind gains 20 dB and harms them that much less."""

_SHAPE = np.hanning(WINDOW)
_SCALE = 2 / (WINDOW * float(np.sum(_SHAPE**2)))
_VOICE = -(-LOWEST_VOICE_HZ * WINDOW // SAMPLE_RATE)  # first line of the spectrum that counts
_RUMBLE = 80 * WINDOW // SAMPLE_RATE + 1  # first line that is no rumble


@dataclass(frozen=True)
class Measures:
    """Rows of a recording, one a window.

    ``chance`` of speech, ``power`` above 300 Hz and ``rumble`` below 80 Hz (mean squares, full scale 1),
    ``near_full`` the share of samples at the limit; ``seconds`` is the length of the recording.
    """

    chance: Row
    power: Row
    rumble: Row
    near_full: Row
    seconds: float


class Meter:
    """Collects the measures of a stream while ``phrases`` cuts it.

    meter = Meter()
    for phrase in phrases(blocks(recording), meter):
        ...
    passages(meter.measures())
    """

    def __init__(self) -> None:
        self._rows = array("d")
        self._samples = 0

    def add(self, window: Samples, chance: float) -> None:
        """Take the next window in, with its chance of speech; only the last may be short."""
        self._samples += len(window)
        near_full = float(np.mean(np.abs(window) >= NEAR_FULL))
        level = window - window.mean()
        lines = np.square(np.abs(np.fft.rfft(level * _SHAPE[: len(window)], WINDOW))) * _SCALE
        power, rumble = float(lines[_VOICE:].sum()), float(lines[1:_RUMBLE].sum())
        self._rows.extend((chance, power, rumble, near_full))

    def measures(self) -> Measures:
        """Return what has been measured so far."""
        rows = np.array(self._rows).reshape(-1, 4)
        return Measures(rows[:, 0], rows[:, 1], rows[:, 2], rows[:, 3], self._samples / SAMPLE_RATE)
