"""A ring of samples between the sound card's thread and the one that writes: no lock, no new memory.

One thread puts, one other takes. Each moves only its own counter, and only after the samples are copied,
so neither ever waits for the other.
"""

import numpy as np
from numpy.typing import NDArray

Frames = NDArray[np.int16]


class Ring:
    """Holds up to ``frames`` frames of ``channels`` channels, 16 bits; ``lost`` counts those that had no room."""

    def __init__(self, frames: int, channels: int = 1) -> None:
        self._held = np.zeros((frames, channels), np.int16)
        self._put = 0
        self._taken = 0
        self.lost = 0

    @property
    def put_so_far(self) -> int:
        """Frames that have come in since the start."""
        return self._put

    def put(self, frames: Frames) -> None:
        """Copy frames of shape (n, channels) in; those without room are counted as lost."""
        size = len(self._held)
        count = min(len(frames), size - (self._put - self._taken))
        self.lost += len(frames) - count
        at = self._put % size
        first = min(count, size - at)
        self._held[at : at + first] = frames[:first]
        self._held[: count - first] = frames[first:count]
        self._put += count

    def take(self) -> Frames:
        """Return all that is there, as a copy of shape (n, channels)."""
        size = len(self._held)
        count = self._put - self._taken
        at = self._taken % size
        first = min(count, size - at)
        frames = np.concatenate([self._held[at : at + first], self._held[: count - first]])
        self._taken += count
        return frames
