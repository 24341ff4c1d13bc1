"""Cut a stream of sound into phrases: what was said between two pauses, with a little air round it.

The longer a phrase has become, the shorter a pause ends it; where nobody pauses for ``LONGEST_S``, it
is cut where the sound is least like speech. Phrases never overlap, so no word is heard twice.
"""

from collections.abc import Callable, Iterable, Iterator

import numpy as np

from saycheck.capture.voice import LIKELY, WINDOW, WINDOWS_A_SECOND, runs, windows
from saycheck.hearing.ear import SAMPLE_RATE, Phrase, Samples

LONGEST_S = 25.0
"""No phrase is longer, seconds."""

AIR_S = 0.3
"""Sound kept before the first and after the last word, seconds: it holds their weak consonants."""

PAUSES_S = ((12.0, 1.5), (18.0, 0.6), (LONGEST_S, 0.4))
"""Up to which length of phrase which pause ends it, seconds. Long phrases are heard better: cut at every
pause of 0.38 s (half of them under 3.2 s) the built-in ear's plain decoder had 0.25 of the words of six
narrations wrong, at these pauses (half of them over 19 s) 0.17; under engine noise 0.58 fell to 0.55."""

CUT_S = (14.0, 23.0)
"""Between which lengths a phrase without such a pause is cut, seconds."""

_BEFORE_S = 1.0
"""Sound kept while nobody speaks: a first word may begin too softly to be sure of."""


def phrases(
    blocks: Iterable[Samples], measure: Callable[[Samples, float], None] | None = None
) -> Iterator[Phrase]:
    """Yield the phrases of 16 kHz mono sound, each as soon as it has ended.

    Silence, clicks and noise without speech give none. No more than one phrase is held in memory.
    ``measure`` is given every window (32 ms) on the way, with the chance that someone speaks in it.

    Raises:
        SoundError: the package that tells speech from noise is missing.
    """
    cutter = _Cutter()
    for window, chance in windows(blocks):
        if measure is not None:
            measure(window, chance)
        phrase = cutter.add(window, chance)
        if phrase is not None:
            yield phrase
    phrase = cutter.finish()
    if phrase is not None:
        yield phrase


class _Cutter:
    """Holds the sound since the last phrase, and finds where the next one starts and ends.

    Places are counted in windows from the start of what is held.
    """

    def __init__(self) -> None:
        self._held: list[Samples] = []
        self._chances: list[float] = []
        self._before = 0  # windows of the recording before those held
        self._quiet = 0  # windows since the last one that was likely speech

    def add(self, window: Samples, chance: float) -> Phrase | None:
        """Take the next window in; return the phrase that has ended with it, if one has."""
        self._held.append(window)
        self._chances.append(chance)
        self._quiet = 0 if chance >= LIKELY else self._quiet + 1
        if self._quiet < _windows(PAUSES_S[-1][1]) and len(self._held) < _windows(LONGEST_S):
            return None  # nothing can have ended
        speech = runs(np.array(self._chances))
        if not speech:
            self._forget(len(self._held) - _windows(_BEFORE_S))
            return None
        first, after = speech[0][0], speech[-1][1]
        start = max(0, first - _windows(AIR_S))
        if len(self._held) - after >= _pause(after - first):
            return self._phrase(start, after + _windows(AIR_S))
        if len(self._held) - start >= _windows(LONGEST_S):
            return self._phrase(start, self._least_like_speech(start))
        return None

    def finish(self) -> Phrase | None:
        """Return what was being said when the sound ended."""
        speech = runs(np.array(self._chances)) if self._chances else []
        if not speech:
            return None
        start = max(0, speech[0][0] - _windows(AIR_S))
        return self._phrase(start, min(speech[-1][1] + _windows(AIR_S), len(self._held)))

    def _phrase(self, start: int, end: int) -> Phrase:
        phrase = Phrase(np.concatenate(self._held[start:end]), (self._before + start) * WINDOW / SAMPLE_RATE)
        self._forget(end)
        return phrase

    def _forget(self, count: int) -> None:
        if count > 0:
            del self._held[:count], self._chances[:count]
            self._before += count

    def _least_like_speech(self, start: int) -> int:
        """Return the window to cut at: where three in a row are quietest and least like speech."""
        earliest, latest = (start + _windows(seconds) for seconds in CUT_S)
        levels = np.array([_level_db(window) for window in self._held[earliest:latest]])
        speechlike = np.array(self._chances[earliest:latest]) + levels / 30
        return earliest + int(np.argmin(np.convolve(speechlike, np.ones(3), "valid"))) + 1


def _level_db(window: Samples) -> float:
    """Level of the steps from sample to sample: they count the middle of speech, not the rumble."""
    return float(10 * np.log10(np.mean(np.square(np.diff(window))) + 1e-12))


def _windows(seconds: float) -> int:
    return round(seconds * WINDOWS_A_SECOND)


def _pause(length: int) -> int:
    """Return how many windows of pause end a phrase of so many windows."""
    return next((_windows(pause) for up_to, pause in PAUSES_S if length < _windows(up_to)), 1)
