"""Cut sound into utterances: what is said between two short pauses, so that it can be shown at once.

Phrases (``capture.phrases``) wait for a long pause, because long ones are heard better. An utterance ends
with the first pause that a listener would take for one; it is heard quickly, and heard again as part of
its phrase.
"""

from dataclasses import dataclass

import numpy as np

from saycheck.capture.voice import LIKELY, SURE, WINDOW, WINDOWS_A_SECOND
from saycheck.hearing.ear import SAMPLE_RATE, Phrase, Samples

PAUSE_S = 0.45
"""A pause that ends an utterance, seconds."""

LONGEST_S = 9.0
"""An utterance is no longer, lest its hearing take long, seconds."""

AIR_S = 0.25
"""Sound kept before and after, seconds."""

_LEAST = 3


@dataclass(frozen=True)
class Utterance:
    """Something said: its sound, and when the speech in it began and ended (seconds of the recording)."""

    phrase: Phrase
    began_s: float
    ended_s: float


class Utterances:
    """Takes windows of sound one after another and gives each utterance as it ends."""

    def __init__(self, start_s: float = 0.0) -> None:
        self._held: list[Samples] = []
        self._chances: list[float] = []
        self._first: int | None = None
        self._last = 0
        self._before = round(start_s * WINDOWS_A_SECOND)

    @property
    def speaking(self) -> bool:
        """Whether someone is in the middle of saying something."""
        return self._first is not None

    def add(self, window: Samples, chance: float) -> Utterance | None:
        """Take a window with its chance of speech in; return the utterance that ends with it."""
        self._held.append(window)
        self._chances.append(chance)
        if chance >= LIKELY:
            if self._first is None:
                self._first = len(self._held) - 1
            self._last = len(self._held) - 1
        if self._first is None:
            self._forget(len(self._held) - _windows(AIR_S))
            return None
        quiet = len(self._held) - 1 - self._last
        if quiet >= _windows(PAUSE_S):
            return self._cut(min(self._last + 1 + _windows(AIR_S), len(self._held)))
        if len(self._held) - self._first >= _windows(LONGEST_S):
            return self._cut(self._least_like_speech())
        return None

    def finish(self) -> Utterance | None:
        """Return what was being said when the sound ended."""
        return self._cut(len(self._held)) if self._first is not None else None

    def _cut(self, end: int) -> Utterance | None:
        assert self._first is not None
        chances = np.array(self._chances[self._first : end])
        start = max(0, self._first - _windows(AIR_S))
        real = chances.max() >= SURE and np.count_nonzero(chances >= LIKELY) >= _LEAST
        found = None
        if real:
            phrase = Phrase(np.concatenate(self._held[start:end]), self._s(start))
            found = Utterance(phrase, self._s(self._first), self._s(min(self._last + 1, end)))
        went_on = self._last >= end
        self._forget(end)
        self._first = self._first_likely() if went_on else None
        self._last -= end
        return found

    def _first_likely(self) -> int | None:
        likely = [place for place, chance in enumerate(self._chances) if chance >= LIKELY]
        return likely[0] if likely else None

    def _least_like_speech(self) -> int:
        """The window at which to cut someone who does not pause: in the last third, least like speech."""
        earliest = len(self._held) - _windows(LONGEST_S / 3)
        return earliest + int(np.argmin(self._chances[earliest:-1])) + 1

    def _forget(self, count: int) -> None:
        if count > 0:
            del self._held[:count], self._chances[:count]
            self._before += count

    def _s(self, place: int) -> float:
        return (self._before + place) * WINDOW / SAMPLE_RATE


def _windows(seconds: float) -> int:
    return round(seconds * WINDOWS_A_SECOND)
