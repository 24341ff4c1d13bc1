"""Speech level and noise floor along the recording, from the measures of its windows.

The level comes from the windows within two seconds that surely hold speech, the floor from the half
second of windows nearest by that surely hold none, or where nobody pauses from the quietest ones.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from saycheck.capture.measures import Measures, Row
from saycheck.capture.voice import LIKELY, SURE, WINDOWS_A_SECOND

CELL = 16
"""Windows in a cell (0.512 s): as finely as levels are told."""

_AROUND, _FAR = round(2 * WINDOWS_A_SECOND), round(8 * WINDOWS_A_SECOND)
"""Windows before and after a cell where speech is looked for, and pauses."""

_ENOUGH = 16
"""Windows of pause (0.5 s) that the floor is taken from."""

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
    pauses = np.flatnonzero(pause)
    rows = []
    for first in range(0, len(sure), CELL):
        around = slice(max(0, first - _AROUND), first + CELL + _AROUND)
        power, spoken = measures.power[around], sure[around]
        heard = bool(spoken.any())
        near = _nearest(pauses, first + CELL // 2)
        rows.append(
            (
                power[spoken].mean() if heard else np.nan,
                measures.power[near].mean() if len(near) else np.quantile(power, _QUIETEST) * _TO_FLOOR,
                measures.rumble[first : first + CELL].mean(),
                measures.near_full[around][spoken].mean() if heard else 0.0,
            )
        )
    columns = np.array(rows, np.float64).reshape(-1, 4).T
    return Levels(*columns)


def _nearest(pauses: NDArray[np.intp], middle: int) -> NDArray[np.intp]:
    """The pause windows nearest to a place, none where there are too few not far from it."""
    place = int(np.searchsorted(pauses, middle))
    near = pauses[max(0, place - _ENOUGH) : place + _ENOUGH]
    away = np.abs(near - middle)
    near = near[np.argsort(away, kind="stable")[:_ENOUGH]]
    near = near[np.abs(near - middle) <= _FAR]
    return near if len(near) >= _ENOUGH // 2 else near[:0]
