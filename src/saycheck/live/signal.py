"""How well the speaker can be heard right now, in plain words while it can still be mended."""

from collections import deque

import numpy as np

from saycheck.capture.levels import levels
from saycheck.capture.measures import Measures, Meter
from saycheck.capture.noise import CLIPPED, NOISY, WINDY, passages
from saycheck.capture.voice import WINDOW, WINDOWS_A_SECOND
from saycheck.hearing.ear import SAMPLE_RATE, Samples

LOOKED_AT_S = 12.0
"""How far back it is looked, seconds."""

_EVERY = round(WINDOWS_A_SECOND)
_ENOUGH_S = 1.5

PLAIN = {
    NOISY: "I hear the engine more than you: microphone closer, or engine off",
    WINDY: "wind in the microphone: turn your back to it, or cover it",
    CLIPPED: "too loud: microphone farther from the mouth",
}


class Signal:
    """Takes every window of sound in; ``level_db``, ``noise_db``, ``over_noise_db``, ``trouble`` tell of it.

    Levels are in decibels of full scale, None while nothing is known.
    """

    def __init__(self) -> None:
        self.level_db = -90.0
        self.noise_db: float | None = None
        self.over_noise_db: float | None = None
        self.trouble: str | None = None
        self._rows: deque[tuple[float, float, float, float]] = deque(
            maxlen=round(LOOKED_AT_S * WINDOWS_A_SECOND)
        )
        self._since = 0

    def add(self, window: Samples, chance: float) -> None:
        """Take a window of sound with its chance of speech."""
        meter = Meter()
        meter.add(window, chance)
        row = meter.measures()
        self._rows.append((chance, float(row.power[0]), float(row.rumble[0]), float(row.near_full[0])))
        level = 10 * np.log10(float(row.power[0]) + 1e-9)
        self.level_db = max(level, self.level_db - 1.5)  # falls slowly, so that it can be read
        self._since += 1
        if self._since >= _EVERY:
            self._since = 0
            self._look()

    def _look(self) -> None:
        columns = np.array(self._rows).T
        measures = Measures(
            columns[0], columns[1], columns[2], columns[3], columns.shape[1] * WINDOW / SAMPLE_RATE
        )
        cells = levels(measures)
        floor = cells.floor[~np.isnan(cells.floor)]
        self.noise_db = 10 * float(np.log10(np.median(floor) + 1e-9)) if len(floor) else None
        snr = cells.snr_db(0, len(cells.speech))
        self.over_noise_db = None if np.isnan(snr) else snr
        bad: dict[str, float] = {}
        for passage in passages(measures):
            if passage.trouble:
                bad[passage.trouble] = bad.get(passage.trouble, 0.0) + passage.end_s - passage.start_s
        worst = max(bad, key=lambda one: bad[one], default=None)
        self.trouble = PLAIN.get(worst, worst) if worst and bad[worst] >= _ENOUGH_S else None
