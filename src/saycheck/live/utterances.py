"""Cut sound into utterances: what is said between two short pauses, so that it can be shown at once.

Phrases (``capture.phrases``) wait for a long pause, because long ones are heard better. An utterance ends
with the first pause that a listener would take for one; it is heard quickly, and heard again as part of
its phrase. Before that each short breath gives a draft: what has been said up to there. When nothing more
comes the last draft is the utterance itself, so that its hearing is done, or nearly so, when the pause is
long enough to be sure.
"""

from dataclasses import dataclass

import numpy as np

from saycheck.capture.voice import LIKELY, SURE, WINDOW, WINDOWS_A_SECOND
from saycheck.hearing.ear import SAMPLE_RATE, Phrase, Samples

PAUSE_S = 0.45
"""A pause that ends an utterance, seconds."""

LONG_S, SHORT_PAUSE_S = 6.0, 0.26
"""An utterance as long as the first ends with a pause as short as the second, seconds."""

LONGEST_S = 9.0
"""An utterance is no longer, lest its hearing take long, seconds."""

CUT_S = 0.8
"""Someone who does not pause is cut within the last so many seconds, lest what was said before it wait."""

BREATH_S = 0.16
"""A pause after which there is a draft, seconds."""

DRAFT_S = 2.5
"""Who does not pause gives a draft after so long and as long again; later ones would take too long to hear."""

AIR_S = 0.25
"""Sound kept before the first word, and at most after the last, seconds."""

_LEAST = 3


@dataclass(frozen=True)
class Utterance:
    """Something said: its sound, and when the speech in it began and ended (seconds of the recording).

    ``ended`` is False for a draft: more of it may come.
    """

    phrase: Phrase
    began_s: float
    ended_s: float
    ended: bool = True


class Utterances:
    """Takes windows of sound one after another and gives each utterance as it ends, and drafts of it before.

    An utterance whose last draft holds all of it has that draft's very phrase.
    """

    def __init__(self, start_s: float = 0.0) -> None:
        self._held: list[Samples] = []
        self._chances: list[float] = []
        self._first: int | None = None
        self._last = 0
        self._before = round(start_s * WINDOWS_A_SECOND)
        self._draft: Phrase | None = None
        self._drafted_last, self._drafted_at = -1, 0

    @property
    def speaking(self) -> bool:
        """Whether someone is in the middle of saying something."""
        return self._first is not None

    def add(self, window: Samples, chance: float) -> Utterance | None:
        """Take a window with its chance of speech in; return the utterance that ends with it, or its draft."""
        self._held.append(window)
        self._chances.append(chance)
        if chance >= LIKELY:
            if self._first is None:
                self._first = len(self._held) - 1
            self._last = len(self._held) - 1
        if self._first is None:
            self._forget(len(self._held) - _windows(AIR_S))
            return None
        quiet, length = len(self._held) - 1 - self._last, len(self._held) - self._first
        if quiet >= _windows(PAUSE_S if length < _windows(LONG_S) else SHORT_PAUSE_S):
            return self._cut(min(self._last + 1 + _windows(AIR_S), len(self._held)))
        if length >= _windows(LONGEST_S):
            return self._cut(self._least_like_speech())
        breath = quiet == _windows(BREATH_S)
        overdue = len(self._held) - self._drafted_at >= _windows(DRAFT_S) and length <= _windows(2 * DRAFT_S)
        if breath or overdue:
            return self._drafted(breath)
        return None

    def finish(self) -> Utterance | None:
        """Return what was being said when the sound ended."""
        return self._cut(len(self._held)) if self._first is not None else None

    def _drafted(self, whole: bool) -> Utterance | None:
        """What has been said so far; ``whole`` where it may turn out to be all."""
        end = len(self._held)
        if not self._real(end):
            return None
        phrase = self._phrase(end)
        self._drafted_at = end
        self._draft, self._drafted_last = (phrase, self._last) if whole else (None, -1)
        assert self._first is not None
        return Utterance(phrase, self._s(self._first), self._s(self._last + 1), ended=False)

    def _cut(self, end: int) -> Utterance | None:
        assert self._first is not None
        found = None
        if self._real(end):
            phrase = self._phrase(end)
            if self._draft is not None and self._drafted_last == self._last < end:
                phrase = self._draft
            found = Utterance(phrase, self._s(self._first), self._s(min(self._last + 1, end)))
        went_on = self._last >= end
        self._forget(end)
        self._first = self._first_likely() if went_on else None
        self._last -= end
        self._draft, self._drafted_last, self._drafted_at = None, -1, 0
        return found

    def _real(self, end: int) -> bool:
        """Whether someone surely speaks up to a window."""
        chances = np.array(self._chances[self._first : end])
        return bool(chances.max() >= SURE and np.count_nonzero(chances >= LIKELY) >= _LEAST)

    def _phrase(self, end: int) -> Phrase:
        assert self._first is not None
        start = max(0, self._first - _windows(AIR_S))
        return Phrase(np.concatenate(self._held[start:end]), self._s(start))

    def _first_likely(self) -> int | None:
        likely = [place for place, chance in enumerate(self._chances) if chance >= LIKELY]
        return likely[0] if likely else None

    def _least_like_speech(self) -> int:
        """The window at which to cut someone who does not pause: not long ago, least like speech."""
        earliest = len(self._held) - _windows(CUT_S)
        return earliest + int(np.argmin(self._chances[earliest:-1])) + 1

    def _forget(self, count: int) -> None:
        if count > 0:
            del self._held[:count], self._chances[:count]
            self._before += count

    def _s(self, place: int) -> float:
        return (self._before + place) * WINDOW / SAMPLE_RATE


def _windows(seconds: float) -> int:
    return round(seconds * WINDOWS_A_SECOND)
