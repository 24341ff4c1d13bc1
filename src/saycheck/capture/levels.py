"""Speech level and noise floor along the recording, from the measures of its windows.

Both are taken over a few seconds round each half second: the level from the windows that surely hold
speech, the floor from those between the words that surely hold none, or where nobody pauses from the
quietest windows.
"""

from dataclasses import dataclass

import numpy as np

from saycheck.capture.measures import Measures, Row
from saycheck.capture.voice import LIKELY, SURE, WINDOWS_A_SECOND

CELL = 16
"""Windows in a cell (0.512 s): as finely as levels are told."""

_AROUND = round(2 * WINDOWS_A_SECOND)
"""Windows looked at before and after a cell."""

_ENOUGH = 8
"""Windows of pause (0.25 s) that are enough to take the floor from."""

_QUIETEST, _TO_FLOOR = 0.05, 1.6
"""Share of windows taken for the quietest where nobody pauses, and by what their power is raised: the
quietest windows of a fluctuating noise lie below its mean (2 dB for the engine noise of ``bench``)."""

_LEAST = 1e-10


@dataclass(frozen=True)
class Levels:
    """One row a cell: ``speech`` and ``floor`` (mean squares; nan where no speech is near), ``rumble`` in
    the cell, and the share of ``clipped`` samples in the speech round it."""

    speech: Row
    floor: Row
    rumble: Row
    clipped: Row

    def snr_db(self, first: int, after: int) -> float:
        """Speech over noise from one cell to another, decibels between -10 and 60; nan without speech."""
        speech, floor = self.speech[first:after], self.floor[first:after]
        known = ~np.isnan(speech)
        if not known.any():
            return float("nan")
        noise = max(float(floor[known].mean()), _LEAST)
        voice = max(float(speech[known].mean()) - noise, _LEAST)
        return float(np.clip(10 * np.log10(voice / noise), -10, 60))


def levels(measures: Measures) -> Levels:
    """Return the levels of each cell of ``CELL`` windows."""
    sure = measures.chance >= SURE
    pause = np.convolve(measures.chance >= LIKELY, np.ones(5), "same") == 0  # words fade in and out
    rows = []
    for first in range(0, len(sure), CELL):
        around = slice(max(0, first - _AROUND), first + CELL + _AROUND)
        power, spoken = measures.power[around], sure[around]
        heard = bool(spoken.any())
        rows.append(
            (
                power[spoken].mean() if heard else np.nan,
                _floor(power, pause[around]),
                measures.rumble[first : first + CELL].mean(),
                measures.near_full[around][spoken].mean() if heard else 0.0,
            )
        )
    columns = np.array(rows, np.float64).reshape(-1, 4).T
    return Levels(*columns)


def _floor(power: Row, pause: Row) -> float:
    if np.count_nonzero(pause) >= _ENOUGH:
        return float(power[pause].mean())
    return float(np.quantile(power, _QUIETEST)) * _TO_FLOOR
