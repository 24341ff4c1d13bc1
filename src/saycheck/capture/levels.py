"""Speech level and noise floor along the recording, from the measures of its windows.

Both are taken over a few seconds round each half second: the level from the windows that surely hold
speech, the floor from those between the words that surely hold none, or where nobody pauses from the
quietest windows.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from saycheck.capture.measures import Measures
from saycheck.capture.voice import LIKELY, SURE, WINDOWS_A_SECOND

CELL = 16
"""Windows in one cell (0.512 s): as fine as levels are told."""

_AROUND = round(2 * WINDOWS_A_SECOND)
"""Windows looked at before and after a cell."""

_ENOUGH = 8
"""Pause windows (0.25 s) that are enough to take the floor from."""

_QUIETEST, _TO_FLOOR = 0.05, 1.6
"""Share of windows taken for the quietest where nobody pauses, and what their power is raised by: the
quietest tenth of a fluctuating noise lies below its mean (2 dB for the engine noise of ``bench``)."""

_LEAST = 1e-10


@dataclass(frozen=True)
class Levels:
    """One row a cell. Powers are mean squares; nan where no speech is near."""

    speech: NDArray[np.float64]
    floor: NDArray[np.float64]
    rumble: NDArray[np.float64]
    near_full: NDArray[np.float64]

    @property
    def snr_db(self) -> NDArray[np.float64]:
        """Speech over noise in decibels, between -10 and 60."""
        with np.errstate(invalid="ignore"):
            ratio = np.maximum(self.speech - self.floor, _LEAST) / np.maximum(self.floor, _LEAST)
            return np.clip(10 * np.log10(ratio), -10, 60)


def levels(measures: Measures) -> Levels:
    """Return the levels of each cell of ``CELL`` windows."""
    chance, power = measures.chance, measures.power
    sure = chance >= SURE
    near = np.convolve(chance >= LIKELY, np.ones(5), "same") > 0  # words fade in and out
    rows = []
    for first in range(0, len(chance), CELL):
        around = slice(max(0, first - _AROUND), first + CELL + _AROUND)
        here = slice(first, first + CELL)
        spoken = power[around][sure[around]]
        rows.append(
            (
                spoken.mean() if len(spoken) else np.nan,
                _floor(power[around], ~near[around]),
                measures.rumble[here].mean(),
                measures.near_full[here].mean(),
            )
        )
    columns = np.array(rows, np.float64).reshape(-1, 4).T
    return Levels(*columns)


def _floor(power: NDArray[np.float64], pause: NDArray[np.bool_]) -> float:
    if np.count_nonzero(pause) >= _ENOUGH:
        return float(power[pause].mean())
    return float(np.quantile(power, _QUIETEST)) * _TO_FLOOR
