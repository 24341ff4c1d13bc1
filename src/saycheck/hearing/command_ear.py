"""The ear for commands: was this utterance, from its start to its end, one of a few things that may be said?

The network of the built-in ear writes the utterance twice, once freely and once held to the known sayings.
How much less likely the second writing is than the first tells a command from talk: nought or a few
tenfolds for a command, even in noise in which the free writing has no word right; twenty and more for talk.
(Likelihood-ratio test of a word against all speech, as in keyword spotting: Rohlicek et al. 1989, from
memory.)
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from saycheck.hearing.builtin_ear import usable
from saycheck.hearing.denoise import denoised
from saycheck.hearing.ear import SAMPLE_RATE, Phrase, Samples
from saycheck.hearing.speech_model import Floats, Heard, SpeechModel
from saycheck.hearing.tokens import END, SPACE
from saycheck.models.hearing import HeardWord, Hearing

NAME = "commands"

MOST_BEHIND = 13.0
"""So much less likely (natural logarithm) may the saying be than the free writing. See ``bench/commands.py``."""

_CONVINCING = 3.0
_LEAD_S = 1.6
"""The lead word is within the first seconds of an utterance, these."""
_FIRST_LOOK = 12.0
"""Of 90 commands in six voices, half of them at 10 dB, the lead was at most 10.4 behind as many letters written
freely; of 339 utterances of talk 2.4 % were less than 12 behind."""
_SHORTEST_S = 0.4
_LONGEST_S = 12.0
_ALONE_S = 1.5
_ALONE_BEHIND = 6.0
"""The same for the lead by itself: so short a word has fewer letters to be wrong in."""
_GOING_ON_BEHIND = 7.0
"""The same for a saying that anything may follow: what follows is written freely either way, so that only the
few letters of its own words can be wrong. Of 54 such commands in nine voices, half of them at 10 dB, 51 were
less than this behind."""
_SLOWEST_S, _BREATH_S = 0.2, 1.5
"""Who gives an order takes no longer for a letter than the first and for pauses and air together than the
second; of 100 orders in six voices none took more than half of it. In a longer utterance more was said."""
_WIDTH = 6
_FREE_WIDTH = 2
_OPTIONS = 256
_PIECES_PER_S = 9.0
_TOGETHER_S = 1.5
_SIGNS = str.maketrans("", "", ",!?;:.-\"()' " + SPACE)


class Saying(NamedTuple):
    """Words that may be said; ``goes_on`` where anything may follow them."""

    words: tuple[str, ...]
    goes_on: bool = False


class CommandEar:
    """Hears one utterance after another; its words are those of the saying, or none.

    The first word or words of every saying are the ``lead``. The lead said by itself is nothing yet; what
    follows soon is heard together with it, as often as it is given.
    """

    name = NAME
    kind = "command"

    def __init__(
        self, lead: Sequence[str], sayings: Sequence[Saying], most_behind: float = MOST_BEHIND,
        model: SpeechModel | None = None,
    ) -> None:  # fmt: skip
        """Load the network, half a second.

        Raises:
            EarError: moonshine-voice 0.1.0 or onnxruntime is missing or broken.
        """
        self._model = model or SpeechModel()
        self._most_behind = most_behind
        self._lead = tuple(lead)
        self._sayings: dict[str, Saying] = {_key(self._lead): Saying(self._lead)}
        for words, goes_on in sayings:
            whole = (*self._lead, *words)
            self._sayings[_key(whole)] = Saying(whole, goes_on)
        self._going_on = tuple(key for key, saying in self._sayings.items() if saying.goes_on)
        self._beginnings = {key[:end] for key in self._sayings for end in range(len(key) + 1)}
        self._alone: Phrase | None = None
        self._looked: tuple[float, int, bool] = -1.0, 0, False

    def hear(self, phrase: Phrase) -> Hearing:
        """Return the words of the command that was said, if one was; times are those of the whole utterance.

        ``confidence`` falls from 1 to 0 over the way to the threshold.
        """
        before, whole = self._alone, phrase
        if before is not None and -0.1 <= phrase.start_s - before.end_s <= _TOGETHER_S:
            gap = np.zeros(round(max(phrase.start_s - before.end_s, 0.0) * SAMPLE_RATE), np.float32)
            whole = Phrase(np.concatenate([before.samples, gap, phrase.samples]), before.start_s)
        found = self.best(whole.samples) if self._worth_it(whole) else None
        if found is None or self._too_long(found[0], len(whole.samples) / SAMPLE_RATE):
            return Hearing(ear=self.name, words=[])
        words, behind = found
        if words == self._lead:
            self._alone = phrase if behind <= _ALONE_BEHIND else None
            return Hearing(ear=self.name, words=[])
        return Hearing(ear=self.name, words=self._timed(words, whole, behind))

    def best(self, samples: Samples) -> tuple[tuple[str, ...], float] | None:
        """The likeliest saying and how far behind the free writing it is, or None where all are too far.

        The sound is looked at as it is and, where that does not convince, without its noise too.
        """
        found = self._best(samples)
        if found is not None and found[1] <= _CONVINCING:
            return found
        cleaned = self._best(denoised(samples))
        return min((one for one in (found, cleaned) if one is not None), key=_behind, default=None)

    def _too_long(self, words: Sequence[str], seconds: float) -> bool:
        key = _key(words)
        return key not in self._going_on and seconds > _slowest_s(key)

    def _worth_it(self, phrase: Phrase) -> bool:
        """Whether a phrase is no longer than a command and may begin like one; looked at once where it grows."""
        if not _SHORTEST_S <= len(phrase.samples) / SAMPLE_RATE <= _LONGEST_S:
            return False
        start = phrase.samples[: round(_LEAD_S * SAMPLE_RATE)]
        start_s, length, answer = self._looked
        if (start_s, length) != (phrase.start_s, len(start)):
            answer = self._may_begin(start) or self._may_begin(denoised(start))
            self._looked = phrase.start_s, len(start), answer
        return answer

    def _may_begin(self, start: Samples) -> bool:
        """Whether the start of an utterance can be the lead: a first look that spares most talk the others.

        The lead may be so much less likely than as many letters written freely.
        """
        heard, scores = self._model.begin(usable(start))
        lead = _key(self._lead)
        free = self._greedy(replace(heard), scores, len(lead))
        shown, growing = self._model.tokens.shown, [(0.0, "", 0)]
        for _ in range(len(lead)):
            logps = self._log_softmax(scores)
            tried = np.argpartition(logps, -_OPTIONS, axis=1)[:, -_OPTIONS:]
            found: dict[str, tuple[float, int, int]] = {}
            for parent, (logp, key, _) in enumerate(growing):
                for piece in tried[parent].tolist():
                    score = logp + float(logps[parent, piece])
                    longer = key + shown[piece].lower().translate(_SIGNS)
                    if piece == END or score < free - _FIRST_LOOK or longer == key:
                        continue
                    if longer.startswith(lead):
                        return True
                    if lead.startswith(longer) and (longer not in found or score > found[longer][0]):
                        found[longer] = score, parent, piece
            kept = sorted(found.items(), key=lambda one: -one[1][0])[:_WIDTH]
            if not kept:
                return False
            growing = [(score, key, piece) for key, (score, _, piece) in kept]
            scores = self._model.step(heard, [g[2] for g in growing], [parent for _, (_, parent, _) in kept])
        return False

    def _greedy(self, heard: Heard, scores: Floats, letters: int) -> float:
        """Log probability of the likeliest pieces, one by one, until they hold so many letters."""
        logp, key = 0.0, ""
        while len(key) < letters:
            logps = self._log_softmax(scores)[0]
            piece = int(logps.argmax())
            logp += float(logps[piece])
            if piece == END:
                break
            key += self._model.tokens.shown[piece].lower().translate(_SIGNS) or "-"
            scores = self._model.step(heard, [piece], [0])
        return logp

    def _best(self, samples: Samples) -> tuple[tuple[str, ...], float] | None:
        alone = len(samples) / SAMPLE_RATE <= _ALONE_S
        heard, scores = self._model.begin(usable(samples))
        steps = int(len(samples) / SAMPLE_RATE * _PIECES_PER_S) + 10
        free = self._write(replace(heard), scores, steps, None, least=-np.inf)
        least = (free[0] if free else 0.0) - self._most_behind
        held = self._write(replace(heard), scores, steps, alone, least=least)
        if held is None:
            return None
        saying, behind = self._saying(held[1]), max(least + self._most_behind - held[0], 0.0)
        if saying is None:
            return None
        if saying.goes_on and (
            len(samples) / SAMPLE_RATE > _slowest_s(held[1])
            or self._other_words(replace(heard), scores, steps, held[0])
        ):
            return None
        return saying.words, behind

    def _other_words(self, heard: Heard, scores: Floats, steps: int, held: float) -> bool:
        """Whether words that anything may follow were other ones: free writing, sought as widely, is likelier."""
        free = self._write(heard, scores, steps, None, -np.inf, _WIDTH)
        return free is not None and free[0] - held > _GOING_ON_BEHIND

    def _write(
        self,
        heard: Heard,
        scores: Floats,
        steps: int,
        alone: bool | None,
        least: float,
        free_width: int = _FREE_WIDTH,
    ) -> tuple[float, str] | None:
        """The best writing that ends: its log probability and its letters; None below ``least``.

        ``alone`` is None for free writing, else whether the lead by itself is a saying too.
        """
        held = alone is not None
        shown = self._model.tokens.shown
        growing = [(0.0, "", 0)]
        best: tuple[float, str] | None = None
        width, options = (_WIDTH, _OPTIONS) if held else (free_width, 3 * free_width)
        for _ in range(steps):
            logps = self._log_softmax(scores)
            tried = np.argpartition(logps, -options, axis=1)[:, -options:]
            found: dict[str, tuple[float, int, int]] = {}
            for parent, (logp, key, _) in enumerate(growing):
                for piece in tried[parent].tolist():
                    score = logp + float(logps[parent, piece])
                    if score < least:
                        continue
                    if piece == END:
                        if (not held or self._ends(key, bool(alone))) and (best is None or score > best[0]):
                            best = score, key
                        continue
                    longer = key + shown[piece].lower().translate(_SIGNS)
                    if held and not self._begins(longer):
                        continue
                    if longer not in found or score > found[longer][0]:
                        found[longer] = score, parent, piece
            kept = sorted(found.items(), key=lambda one: -one[1][0])[:width]
            if not kept or (best is not None and kept[0][1][0] < best[0]):
                break
            growing = [(score, key, piece) for key, (score, _, piece) in kept]
            scores = self._model.step(heard, [g[2] for g in growing], [parent for _, (_, parent, _) in kept])
        return best

    def _begins(self, key: str) -> bool:
        return key in self._beginnings or key.startswith(self._going_on)

    def _ends(self, key: str, alone: bool) -> bool:
        saying = self._saying(key)
        return saying is not None and (alone or saying.words != self._lead)

    def _saying(self, key: str) -> Saying | None:
        if key in self._sayings:
            return self._sayings[key]
        return next((self._sayings[start] for start in self._going_on if key.startswith(start)), None)

    def _log_softmax(self, scores: Floats) -> Floats:
        scores = np.where(self._model.tokens.silent, np.float32(-np.inf), scores)
        top = scores.max(axis=1, keepdims=True)
        return np.asarray(scores - (top + np.log(np.exp(scores - top).sum(axis=1, keepdims=True))))

    def _timed(self, words: Sequence[str], phrase: Phrase, behind: float) -> list[HeardWord]:
        each = (phrase.end_s - phrase.start_s) / len(words)
        confidence = max(1 - behind / self._most_behind, 0.0)
        return [
            HeardWord(
                text=word,
                start_s=phrase.start_s + place * each,
                end_s=phrase.start_s + (place + 1) * each,
                confidence=confidence,
            )
            for place, word in enumerate(words)
        ]


def _slowest_s(key: str) -> float:
    """The longest that anybody takes to say so many letters as an order."""
    return _BREATH_S + _SLOWEST_S * len(key)


def _behind(found: tuple[tuple[str, ...], float]) -> float:
    return found[1]


def _key(words: Sequence[str]) -> str:
    return "".join(words).lower().translate(_SIGNS)
