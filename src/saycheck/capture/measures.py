"""What is measured on the sound: one row for every 32 ms, light enough for hours (2 MB each)."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from saycheck.capture.voice import WINDOW
from saycheck.hearing.ear import SAMPLE_RATE, Samples

NEAR_FULL = 0.985
"""Samples beyond this share of full scale are counted: decoders and resamplers round the flat tops."""

Row = NDArray[np.float64]

_SHAPE = np.hanning(WINDOW)
_SCALE = 2 / (WINDOW * float(np.sum(_SHAPE**2)))
_FIRST_HEARD = round(94 * WINDOW / SAMPLE_RATE)  # the lowest line of the spectrum that holds speech


@dataclass(frozen=True)
class Measures:
    """Rows of a recording, one a window.

    ``chance`` of speech, ``power`` above 80 Hz and ``rumble`` below it (mean squares, full scale 1),
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
        self._rows: list[tuple[float, float, float, float]] = []
        self._samples = 0

    def add(self, window: Samples, chance: float) -> None:
        """Take the next window in, with its chance of speech; only the last may be short."""
        self._samples += len(window)
        near_full = float(np.mean(np.abs(window) >= NEAR_FULL))
        lines = np.square(np.abs(np.fft.rfft(window * _SHAPE[: len(window)], WINDOW))) * _SCALE
        power, rumble = float(lines[_FIRST_HEARD:].sum()), float(lines[1:_FIRST_HEARD].sum())
        self._rows.append((chance, power, rumble, near_full))

    def measures(self) -> Measures:
        """Return what has been measured so far."""
        rows = np.array(self._rows, np.float64).reshape(-1, 4)
        return Measures(rows[:, 0], rows[:, 1], rows[:, 2], rows[:, 3], self._samples / SAMPLE_RATE)
