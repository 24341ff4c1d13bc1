"""What saycheck itself says is not the walker's words: told by when it was said, and by the words.

Where the microphone hears the loudspeaker, our own words come back in the recording; with a headset they do
not, and what is heard meanwhile is the walker. So the time alone decides nothing.
"""

from collections import deque
from collections.abc import Sequence
from difflib import SequenceMatcher

from saycheck.hearing.spoken import spoken

BEFORE_S = 1.5
"""The ears put a first word up to so long too early, seconds; nobody spoke then, since we wait for a gap."""

_RUN = 3
"""So many letters in a row in common are no chance."""

_LEAST = 0.4
"""Share of the letters heard that must be ours: of our own voice (espeak-ng) the ears hear about two thirds."""


class OwnVoice:
    """What saycheck said, and where in the recording; the newest few."""

    def __init__(self) -> None:
        self._sounding: tuple[float, str] | None = None
        self._said: deque[tuple[float, float, str]] = deque(maxlen=20)
        self._spoke_until_s = 0.0

    def spoken(self, until_s: float) -> None:
        """Remember that the walker spoke up to here."""
        self._spoke_until_s = until_s

    def begins(self, at_s: float, text: str) -> float:
        """Remember that a text sounds from now on; return since when nobody else spoke."""
        since_s = max(at_s - BEFORE_S, self._spoke_until_s)
        self._sounding = since_s, text
        return since_s

    def ended(self, start_s: float, end_s: float, text: str) -> None:
        """Remember where it was."""
        self._sounding = None
        self._said.append((start_s, end_s, text))

    def heard(self, began_s: float, words: Sequence[str]) -> bool:
        """Whether words that began then are ours, most of them."""
        now = [self._sounding[1]] if self._sounding and began_s >= self._sounding[0] else []
        texts = [*now, *(text for first, last, text in self._said if first <= began_s < last)]
        return any(ours(words, text) > len(words) / 2 for text in texts)


def ours(words: Sequence[str], text: str) -> int:
    """How many of the words, from the first on, are those of a text, as badly as they may be heard."""
    letters, owner = "", []
    for place, word in enumerate(words):
        plain = _plain(word)
        letters += plain
        owner += [place] * len(plain)
    if not letters:
        return len(words)
    matching = SequenceMatcher(None, letters, _plain(text), autojunk=False).get_matching_blocks()
    runs = [block for block in matching if block.size >= min(_RUN, len(letters))]
    if not runs:
        return 0
    end = runs[-1].a + runs[-1].size
    count = owner[end - 1] + 1
    within = sum(1 for place in owner if place < count)
    return count if sum(block.size for block in runs) >= _LEAST * within else 0


def _plain(text: str) -> str:
    """The letters of a text as it is said: "photo 1" is "photoone"."""
    said = "".join(word for written in text.split() for word in spoken(written))
    return "".join(letter for letter in said.lower() if letter.isalnum())
