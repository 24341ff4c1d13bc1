"""The general ear for whoever has an English Vosk model folder: streaming, timed words, confidences."""

import json
import os
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from saycheck.errors import EarError
from saycheck.hearing.ear import SAMPLE_RATE, Phrase, Samples
from saycheck.hearing.vosk_folder import checked
from saycheck.models.hearing import HeardWord, Hearing

_BLOCK = SAMPLE_RATE // 4
"""Samples given to Vosk at a time: a quarter of a second, as it would come from a microphone."""

_NO_WORD = {"[unk]", "<unk>", "<eps>", "[noise]", "[laughter]"}
"""What models write for a sound that is no word they know."""


class VoskEar:
    """Hears with a Vosk model; one instance keeps the model and adapts to the speaker from phrase to phrase.

    A word's confidence is Vosk's own: its posterior in the lattice. Vosk gives either confidences or other
    readings, not both; confidences are worth more, so ``others`` stays empty.
    """

    name = "vosk"
    kind = "general"

    def __init__(self, folder: Path) -> None:
        """Check and load the model folder; seconds and several hundred MB for a large one.

        Raises:
            EarError: no usable model; the message says what a model folder holds and where to put one.
        """
        self.folder = checked(folder)
        self._recognizer = _loaded(self.folder)
        self._given = 0

    def hear(self, phrase: Phrase) -> Hearing:
        """Return the words of one phrase, times in seconds of the recording.

        Raises:
            EarError: Vosk failed on the sound.
        """
        offset = phrase.start_s - self._given / SAMPLE_RATE
        sound = whole_numbers(phrase.samples)
        results: list[str] = []
        try:
            for at in range(0, len(sound), _BLOCK):
                if self._recognizer.AcceptWaveform(sound[at : at + _BLOCK].tobytes()):
                    results.append(self._recognizer.Result())
            results.append(self._recognizer.FinalResult())
        except Exception as error:  # vosk raises bare Exception
            raise EarError(
                f"Vosk failed at {phrase.start_s:.1f} s with the model {self.folder} ({error});"
                " try another model, or --ear builtin"
            ) from error
        self._given += len(sound)
        words = [word for result in results for word in _words(result, offset, phrase)]
        return Hearing(ear=self.name, words=words)


def whole_numbers(samples: Samples) -> NDArray[np.int16]:
    """Samples as 16-bit whole numbers; what is louder than 1 is clipped, what is no number is silence."""
    return (np.clip(np.nan_to_num(samples), -1.0, 1.0) * 32767).astype("<i2")


def _words(result: str, offset: float, phrase: Phrase) -> Iterator[HeardWord]:
    for word in json.loads(result).get("result", ()):
        if word["word"].lower() in _NO_WORD:
            continue
        start = min(max(word["start"] + offset, phrase.start_s), phrase.end_s)
        yield HeardWord(
            text=word["word"],
            start_s=start,
            end_s=min(max(word["end"] + offset, start), phrase.end_s),
            confidence=min(max(word["conf"], 0.0), 1.0),
        )


def _loaded(folder: Path) -> Any:
    try:
        import vosk
    except ImportError as error:
        raise EarError("the Vosk ear needs the package vosk; run: pip install vosk") from error
    vosk.SetLogLevel(-1)
    with _said_on_stderr() as said:
        try:
            recognizer = vosk.KaldiRecognizer(vosk.Model(str(folder)), SAMPLE_RATE)
            recognizer.SetWords(True)
            # A first breath of silence: a broken end-of-speech setting shows only with sound.
            recognizer.AcceptWaveform(bytes(2 * _BLOCK))
            recognizer.FinalResult()
            recognizer.Reset()
            return recognizer
        except Exception as error:  # vosk raises bare Exception
            failure = error
    reason = said[-1] if said else str(failure)
    raise EarError(
        f"Vosk cannot use the model folder {folder} ({reason}); copy the model folder again, or try another"
    ) from failure


@contextmanager
def _said_on_stderr() -> Iterator[list[str]]:
    """Keep what C code writes on standard error off the terminal; its lines are in the list at the end."""
    lines: list[str] = []
    sys.stderr.flush()
    with tempfile.TemporaryFile() as file:
        kept = os.dup(2)
        os.dup2(file.fileno(), 2)
        try:
            yield lines
        finally:
            os.dup2(kept, 2)
            os.close(kept)
            file.seek(0)
            text = file.read().decode("utf-8", "replace")
            lines += [line.strip() for line in text.splitlines() if line.strip()]
