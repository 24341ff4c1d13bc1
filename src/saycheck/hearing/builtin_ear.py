"""The general ear that is always there: the English model inside the moonshine-voice wheel.

``BuiltinEar`` runs the model itself, with the vocabulary's say in what was meant; ``PlainBuiltinEar`` is
the library as it comes, greedy and without a vocabulary, to fall back on and to compare with. Words are
kept as the model wrote them, with capitals, sentence punctuation and figures ("80 PSI,"); ``spoken.plain``
is for comparing.
"""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from saycheck.errors import EarError
from saycheck.hearing.ahead import promises
from saycheck.hearing.align import Aligner, Placed
from saycheck.hearing.beam import Reading, Search, search
from saycheck.hearing.before import MOST_S, NOTHING, TOGETHER_S, Before
from saycheck.hearing.bias import Bias, GeneralEnglish
from saycheck.hearing.ear import SAMPLE_RATE, Phrase, Samples
from saycheck.hearing.language.model import trade_language
from saycheck.hearing.speech_model import SpeechModel, model_folder
from saycheck.hearing.split import pieces
from saycheck.models.hearing import HeardWord, Hearing
from saycheck.vocabulary.compiled import Vocabulary

SEARCH = Search()
NAME = "builtin"
_FRAME = SAMPLE_RATE // 50
_LOUD = 0.1
"""Root mean square that the loudest twentieth of the frames of a phrase is brought to."""
_MOST_GAIN = 100.0
_STILL_KNOWN_S = 20.0
"""A pause after which what was said before it no longer helps."""
_BELIEVED = -1.0
"""Mean log probability of the pieces of a reading below which nothing is built on it."""
_SHORTEST = SAMPLE_RATE // 8
"""Samples below which the network has no frame to look at; no word is that short."""


class BuiltinEar:
    """Beam search with vocabulary bias, other readings, confidences and aligned word times.

    A word's confidence is the geometric mean of the probabilities of its pieces. ``others`` are whole
    readings of the phrase that differ from the words in at least one word, best first.
    """

    name = NAME
    kind = "general"

    def __init__(
        self,
        bias: Bias | None = None,
        *,
        threads: int = 1,
        how: Search = SEARCH,
        aligner: Aligner | None = None,
        model: SpeechModel | None = None,
        remembers: bool = True,
    ) -> None:
        """Load the model (half a second) unless given one. Without ``bias`` it hears general English.

        Unless it ``remembers``, each phrase is heard without what was said before it: a quarter less work.

        Raises:
            EarError: moonshine-voice 0.1.0, onnxruntime or pocketsphinx is missing or broken.
        """
        self._model = model or SpeechModel(threads=threads)
        self._aligner = aligner or Aligner()
        self._bias = bias
        self._how = how
        self._remembers = remembers
        self._before, self._until_s = NOTHING, 0.0

    def hear(self, phrase: Phrase) -> Hearing:
        """Return the words of one phrase, times in seconds of the recording.

        Raises:
            EarError: the network failed.
        """
        words: list[HeardWord] = []
        readings: list[list[list[str]]] = []
        sound = usable(phrase.samples)
        if not 0 <= phrase.start_s - self._until_s <= _STILL_KNOWN_S:
            self._before = NOTHING
        for start, end in pieces(sound):
            samples = sound[start:end]
            if len(samples) < _SHORTEST:
                continue
            found = self._search(samples)
            written = [[word for word, _ in self._model.tokens.words(r.pieces)] for r in found]
            readings.append(written or [[]])
            if found:
                placed = self._aligner.place(samples, written[0])
                words += _timed(
                    written[0], self._confidences(found[0]), placed, phrase.start_s + start / SAMPLE_RATE
                )
                self._remember(samples, found[0], placed)
        self._until_s = phrase.end_s
        return Hearing(ear=self.name, words=words, others=_others(readings, self._how.readings))

    def _search(self, samples: Samples) -> list[Reading]:
        """Readings of the samples in the light of what went before, or by themselves if that misleads."""
        seconds = len(samples) / SAMPLE_RATE
        before = self._before.last(min(MOST_S, TOGETHER_S - seconds))
        try:
            found = search(self._model, samples, self._bias, self._how, before)
            if before is not NOTHING and before.doubtful(self._written(found), seconds, found[0].ended):
                found = search(self._model, samples, self._bias, self._how)
            return found
        except EarError:
            raise
        except Exception as error:  # onnxruntime raises its own undocumented kinds
            raise EarError(
                f"the built-in ear failed on {seconds:.1f} s of sound ({error}); try --ear trade"
            ) from error

    def _written(self, found: Sequence[Reading]) -> list[str]:
        return [word for word, _ in self._model.tokens.words(found[0].pieces)] if found else []

    def _remember(self, samples: Samples, reading: Reading, placed: Sequence[Placed]) -> None:
        """Keep the reading for the next stretch, if it can be believed."""
        words = self._model.tokens.words(reading.pieces)
        believed = self._remembers and words and reading.ended and float(np.mean(reading.logps)) > _BELIEVED
        self._before = (
            Before(
                samples,
                [word for word, _ in words],
                [[reading.pieces[place] for place in places] for _, places in words],
                placed,
            )
            if believed
            else NOTHING
        )

    def _confidences(self, reading: Reading) -> list[float]:
        logps = np.asarray(reading.logps)
        return [
            float(np.exp(np.mean(logps[places]))) for _, places in self._model.tokens.words(reading.pieces)
        ]


def biased_ear(
    vocabulary: Vocabulary,
    folders: Sequence[Path] = (),
    *,
    threads: int = 1,
    cache: Path | None = None,
    remembers: bool = True,
) -> BuiltinEar:
    """The built-in ear with the language of a machine kind; ``folders`` are the shop's own.

    Raises:
        EarError: a package is missing or broken, or the cache folder cannot be written.
    """
    language, general = trade_language(vocabulary, folders, cache), GeneralEnglish()
    trade = language.words
    listed = language.dictionary.read_text(encoding="utf-8").splitlines()
    words = (line.split(" ", 1)[0].partition("(")[0] for line in listed)
    begun = promises(trade, words, general.shares(), trade.folded)
    bias = Bias(trade, general, folded=trade.folded, promises=begun)
    return BuiltinEar(bias, threads=threads, remembers=remembers)


class PlainBuiltinEar:
    """The library's own transcriber: greedy, no vocabulary, no confidences (0.5 throughout), no others."""

    name = "builtin-plain"
    kind = "general"

    def __init__(self, aligner: Aligner | None = None) -> None:
        """Load the library and its model.

        Raises:
            EarError: moonshine-voice 0.1.0 or pocketsphinx is missing or broken.
        """
        self._transcriber = _library()
        self._aligner = aligner or Aligner()

    def hear(self, phrase: Phrase) -> Hearing:
        """Return the words of one phrase, times in seconds of the recording.

        Raises:
            EarError: the library failed.
        """
        words: list[HeardWord] = []
        sound = usable(phrase.samples)
        for start, end in pieces(sound):
            samples = sound[start:end]
            if len(samples) < _SHORTEST:
                continue
            try:
                lines = self._transcriber.transcribe_without_streaming(samples.tolist(), SAMPLE_RATE).lines
            except Exception as error:  # the library's errors share no base class that is documented
                raise EarError(f"the plain built-in ear failed ({error}); try --ear builtin") from error
            written = " ".join(line.text for line in lines).split()
            placed = self._aligner.place(samples, written)
            words += _timed(written, [0.5] * len(written), placed, phrase.start_s + start / SAMPLE_RATE)
        return Hearing(ear=self.name, words=words)


def usable(samples: Samples) -> Samples:
    """Samples as loud as the network likes them, in -1..1; what is no number made silence.

    At a fifth of that loudness word error rises from 0.171 to 0.200 (five narrations in five voices).
    """
    sound = np.clip(np.nan_to_num(samples, posinf=1.0, neginf=-1.0), -1.0, 1.0)
    frames = sound[: len(sound) // _FRAME * _FRAME].reshape(-1, _FRAME)
    if len(frames):
        loud = float(np.quantile(np.sqrt(np.mean(frames**2, axis=1)), 0.95))
        sound = np.clip(sound * min(_LOUD / max(loud, 1e-9), _MOST_GAIN), -1.0, 1.0)
    return np.asarray(sound, np.float32)


def _timed(
    written: Sequence[str], confidences: Sequence[float], placed: Sequence[Placed], offset_s: float
) -> list[HeardWord]:
    return [
        HeardWord(
            text=text,
            start_s=place.start_s + offset_s,
            end_s=place.end_s + offset_s,
            confidence=min(max(confidence, 0.0), 1.0),
        )
        for text, confidence, place in zip(written, confidences, placed, strict=True)
    ]


def _others(readings: Sequence[Sequence[list[str]]], most: int) -> list[list[str]]:
    """Whole readings of the phrase: each other reading of one piece with the best of the pieces around it.

    Readings that differ only in marks or in where a word is cut are one.
    """
    others: list[list[str]] = []
    seen = {_letters([word for found in readings if found for word in found[0]])}
    deepest = max((len(found) for found in readings), default=0)
    for rank in range(1, deepest):
        for place, found in enumerate(readings):
            if rank < len(found):
                parts = [other[0] if at != place else found[rank] for at, other in enumerate(readings)]
                words = [word for part in parts for word in part]
                if _letters(words) not in seen:
                    seen.add(_letters(words))
                    others.append(words)
    return others[: most - 1]


def _letters(words: Sequence[str]) -> str:
    return "".join(letter for word in words for letter in word.lower() if letter.isalnum())


def _library() -> Any:
    folder = model_folder()
    try:
        from moonshine_voice import ModelArch, Transcriber

        return Transcriber(str(folder), ModelArch.TINY)
    except Exception as error:  # a broken library raises OSError, its own kinds, or ImportError
        raise EarError(
            f"moonshine-voice cannot load its model ({error}); run: pip install moonshine-voice==0.1.0"
        ) from error
