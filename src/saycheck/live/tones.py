"""Short quiet tones of our own: heard, not understood, saved. Made here, no recording."""

import numpy as np

from saycheck.hearing.ear import Samples

RATE = 16_000

_LEVEL = 0.12
_FADE_S = 0.015

NOTES_HZ = {
    "heard": ((660.0, 0.09),),
    "not understood": ((440.0, 0.12), (330.0, 0.16)),
    "saved": ((523.0, 0.09), (659.0, 0.09), (784.0, 0.14)),
}
"""Pitch in hertz and length in seconds of each note: one for heard, falling for not understood, rising for
saved."""


def tone(name: str) -> Samples:
    """The tone of that name, mono at 16 kHz, soft at both ends so that it does not click."""
    return np.concatenate([_note(hertz, seconds) for hertz, seconds in NOTES_HZ[name]])


def _note(hertz: float, seconds: float) -> Samples:
    time = np.arange(round(seconds * RATE)) / RATE
    soft = np.minimum(1.0, np.minimum(time, seconds - time) / _FADE_S)
    wave = np.sin(2 * np.pi * hertz * time) + 0.25 * np.sin(4 * np.pi * hertz * time)
    return (_LEVEL * soft * wave).astype(np.float32)
