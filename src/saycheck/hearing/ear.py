"""What every ear is: a stretch of sound in, timed words with confidence out.

An ear is built once and then hears one phrase after another. A phrase is a stretch of speech of at
most half a minute, cut at a pause, so that memory stays bounded however long the recording is.
"""

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from saycheck.models.hearing import Hearing

SAMPLE_RATE = 16_000

Samples = NDArray[np.float32]


@dataclass(frozen=True)
class Phrase:
    """Speech between two pauses: mono samples at 16 kHz in -1..1, and where it starts (seconds)."""

    samples: Samples
    start_s: float

    @property
    def end_s(self) -> float:
        return self.start_s + len(self.samples) / SAMPLE_RATE


class Ear(Protocol):
    """A recogniser. ``name`` is what ``--ear`` calls it; ``kind`` is ``general`` or ``trade``."""

    name: str
    kind: str

    def hear(self, phrase: Phrase) -> Hearing:
        """Return the words of one phrase with times in seconds of the recording.

        Raises:
            EarError: the engine failed; the message says what to do.
        """
        ...
