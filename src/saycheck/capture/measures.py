"""What is measured on the sound: one row for every 32 ms (4 MB an hour, put aside on the disk where wanted)."""

from array import array
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from saycheck.capture.aside import Aside
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

_HELD = 4 * 2_000
"""Numbers held in memory before they are put aside: those of a minute."""

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

    With ``aside`` they wait on the disk until they are asked for.
    """

    def __init__(self, aside: Aside | None = None) -> None:
        self._rows = array("d")
        self._aside = aside
        self._samples = 0

    def add(self, window: Samples, chance: float) -> None:
        """Take the next window in, with its chance of speech; only the last may be short."""
        self._samples += len(window)
        near_full = float(np.mean(np.abs(window) >= NEAR_FULL))
        level = window - window.mean()
        lines = np.square(np.abs(np.fft.rfft(level * _SHAPE[: len(window)], WINDOW))) * _SCALE
        power, rumble = float(lines[_VOICE:].sum()), float(lines[1:_RUMBLE].sum())
        self._rows.extend((chance, power, rumble, near_full))
        if self._aside is not None and len(self._rows) >= _HELD:
            self._aside.put(self._rows.tobytes())
            del self._rows[:]

    def measures(self) -> Measures:
        """Return what has been measured so far."""
        before = [np.frombuffer(row) for row in self._aside.rows()] if self._aside is not None else []
        rows = np.concatenate([*before, np.array(self._rows)]).reshape(-1, 4)
        return Measures(rows[:, 0], rows[:, 1], rows[:, 2], rows[:, 3], self._samples / SAMPLE_RATE)
