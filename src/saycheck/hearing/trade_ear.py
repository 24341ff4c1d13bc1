"""The trade ear: pocketsphinx with a language model made from the vocabulary, for terse trade talk.

Its sound model and dictionary are those inside the ``pocketsphinx`` wheel; no download. RNNoise cleans
the sound first: measured, it triples what is heard right in engine noise and costs nothing without.
"""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from saycheck.errors import EarError
from saycheck.hearing.ear import SAMPLE_RATE, Phrase, Samples
from saycheck.hearing.language.model import Language, trade_language
from saycheck.hearing.sounds import model_folder
from saycheck.models.hearing import HeardWord, Hearing
from saycheck.vocabulary.compiled import Vocabulary

SETTINGS: dict[str, Any] = {"topn": 2}
"""Settings of the search that differ from pocketsphinx's own; see bench/ for what they were tried on."""

_FRAMES_PER_S = 100
_OTHERS = 8
_TRIED = 60
_LOUDEST = 0.7


class TradeEar:
    """Hears one phrase after another; ``others`` of a hearing are further readings, best first."""

    name = "trade"
    kind = "trade"

    def __init__(
        self, language: Language, *, denoise: bool = True, settings: dict[str, Any] | None = None
    ) -> None:
        """Load the recogniser, about a second.

        Raises:
            EarError: pocketsphinx is missing or a file of its model is.
        """
        try:
            from pocketsphinx import Decoder
        except ImportError as error:
            raise EarError("the trade ear needs pocketsphinx; run: pip install pocketsphinx") from error
        self._denoise = denoise
        try:
            self._decoder = Decoder(
                hmm=str(model_folder() / "en-us"),
                lm=str(language.arpa),
                dict=str(language.dictionary),
                loglevel="FATAL",
                **SETTINGS | (settings or {}),
            )
        except (RuntimeError, ValueError) as error:
            raise EarError(
                f"the trade ear cannot load its model '{language.arpa.parent}'; delete that folder, try again"
            ) from error

    @classmethod
    def for_machine(cls, vocabulary: Vocabulary, folders: Sequence[Path] = ()) -> "TradeEar":
        """The trade ear for a machine kind, its language model made or taken from the cache."""
        return cls(trade_language(vocabulary, folders))

    def hear(self, phrase: Phrase) -> Hearing:
        """The words of one phrase with times in seconds of the recording.

        Confidence is the posterior of the word in pocketsphinx's word lattice. Silence gives no words.
        """
        if len(phrase.samples) < SAMPLE_RATE // 10:
            return Hearing(ear=self.name, words=[])
        decoder = self._decoder
        try:
            decoder.start_utt()
            decoder.process_raw(self._as_bytes(phrase.samples), full_utt=True)
            decoder.end_utt()
        except RuntimeError as error:
            raise EarError(
                f"the trade ear failed at {phrase.start_s:.1f} s of the recording ({error})"
            ) from error
        if decoder.hyp() is None:
            return Hearing(ear=self.name, words=[])
        words = [
            HeardWord(
                text=_plain(segment.word),
                start_s=phrase.start_s + segment.start_frame / _FRAMES_PER_S,
                end_s=phrase.start_s + (segment.end_frame + 1) / _FRAMES_PER_S,
                confidence=min(max(segment.prob, 0.0), 1.0),  # rounding gives 1.0006
            )
            for segment in decoder.seg()
            if _is_word(segment.word)
        ]
        return Hearing(ear=self.name, words=words, others=self._others([word.text for word in words]))

    def _as_bytes(self, samples: Samples) -> bytes:
        if self._denoise:
            from saycheck.hearing.denoise import denoised

            samples = denoised(samples)
        loudest = float(np.abs(samples).max(initial=0.0))
        louder = samples * np.float32(_LOUDEST / loudest) if loudest > 1e-4 else samples
        return bytes((louder * 32767).astype("<i2").tobytes())

    def _others(self, best: list[str]) -> list[list[str]]:
        """Further readings from the lattice, those that differ in a word."""
        found: list[list[str]] = []
        for tried, reading in enumerate(self._decoder.nbest()):
            if reading is None or tried >= _TRIED or len(found) >= _OTHERS:
                break
            words = [_plain(word) for word in reading.hypstr.split() if _is_word(word)]
            if words != best and words not in found:
                found.append(words)
        return found


def _is_word(word: str) -> bool:
    return word[0] not in "<[+"


def _plain(word: str) -> str:
    """Without the number of the pronunciation: "lead(2)" is "lead"."""
    return word.partition("(")[0]
