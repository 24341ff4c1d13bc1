"""Sources that stand in for a microphone, where it matters when each sample was spoken."""

import time
import wave
from pathlib import Path

import numpy as np

from saycheck.capture.ring import Frames
from saycheck.errors import SoundError

RATE = 16_000

CYCLE = 30_000
"""Samples after which values come again, just under two seconds: more than can be lost unnoticed is told by
the length of the file."""


class Steady:
    """A source that speaks at an even pace from a moment on; sample n has the value n % CYCLE - 15000."""

    name = "steady source"
    overruns = 0
    lost_s = 0.0
    gone = False

    def __init__(self, since: float, pace: float = 1.0) -> None:
        self._since = since
        self._pace = pace
        self.first = self.frames_in = self._spoken()

    def take(self) -> Frames:
        """All that has been spoken since the last time."""
        before, self.frames_in = self.frames_in, self._spoken()
        return (np.arange(before, self.frames_in) % CYCLE - CYCLE // 2).astype(np.int16)

    def close(self) -> None:
        """Nothing to let go of."""

    def _spoken(self) -> int:
        return int((time.monotonic() - self._since) * RATE * self._pace)


class Played:
    """A recording (16 kHz, mono, 16 bits) at the pace at which it was spoken, silence after its end.

    ``pace`` is how many times as fast; with ``again`` it begins anew at its end.
    """

    name = "played recording"
    overruns = 0
    lost_s = 0.0
    gone = False

    def __init__(self, wav: Path, pace: float = 1.0, again: bool = False) -> None:
        with wave.open(str(wav)) as sound:
            self._sound = np.frombuffer(sound.readframes(sound.getnframes()), "<i2")
        self._since = time.monotonic()
        self._pace = pace
        self._again = again
        self.frames_in = 0

    def take(self) -> Frames:
        """All that has been played since the last time."""
        before, self.frames_in = self.frames_in, int((time.monotonic() - self._since) * RATE * self._pace)
        if self._again:
            return self._sound[np.arange(before, self.frames_in) % len(self._sound)].astype(np.int16)
        played = self._sound[before : self.frames_in]
        return np.pad(played, (0, self.frames_in - before - len(played))).astype(np.int16)

    def close(self) -> None:
        """Nothing to let go of."""


class Absent(Steady):
    """One that is gone after a tenth of a second, and cannot be opened again at the first try."""

    opened = 0

    def __init__(self, since: float) -> None:
        Absent.opened += 1
        if Absent.opened == 2:
            raise SoundError("not yet")
        super().__init__(since)

    @property
    def gone(self) -> bool:  # type: ignore[override]
        return Absent.opened == 1 and self.frames_in - self.first > RATE // 10


def none() -> Steady:
    """No source at all.

    Raises:
        SoundError: always.
    """
    raise SoundError("no microphone was found; plug one in, and look with `saycheck doctor`")
