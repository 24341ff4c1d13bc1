"""Answers spoken: recordings and a microphone, heard by the ears of a walk."""

import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack
from pathlib import Path
from types import TracebackType
from typing import Literal, Self

import numpy as np

from saycheck.asking.given import Given
from saycheck.capture.files import blocks
from saycheck.capture.phrases import phrases
from saycheck.capture.recorder import Source
from saycheck.errors import SoundError
from saycheck.hearing.choose import chosen
from saycheck.hearing.ear import Phrase, Samples
from saycheck.hearing.joining import fuse_for
from saycheck.models.hearing import Hearing
from saycheck.vocabulary.compiled import Vocabulary

OTHERS = 3
"""Further readings of an ear that are looked at where its first one answers nothing."""

PATIENCE_S = 20.0
"""So long is an answer waited for, seconds."""

TURN_S = 0.05


class AnswerEars:
    """The ears, kept ready from answer to answer; a context.

    Raises:
        EarError: on entering or hearing; an ear is missing or failed.
    """

    def __init__(self, vocabulary: Vocabulary, choice: str = "both", model: Path | None = None) -> None:
        self._ears = chosen(choice, vocabulary.kind, model)
        self._fuse = fuse_for(vocabulary)
        self._running = ExitStack()

    def __enter__(self) -> Self:
        for ear in self._ears:
            self._running.enter_context(ear)
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._running.close()

    def hear(self, said: Iterable[Phrase]) -> tuple[str, ...]:
        """All readings of what was said: both ears' agreement first, then each ear by itself."""
        rows: list[list[str]] = []
        for phrase in said:
            for ear in self._ears:
                ear.give(phrase)
            rows.append(self._readings([ear.answer() for ear in self._ears]))
        most = max((len(row) for row in rows), default=0)
        whole = [" ".join(row[min(n, len(row) - 1)] for row in rows).strip() for n in range(most)]
        return tuple(dict.fromkeys(one for one in whole if one))

    def hear_file(self, path: Path) -> tuple[str, ...]:
        """All readings of a recording.

        Raises:
            SoundError: it cannot be read.
        """
        return self.hear(phrases(blocks(path)))

    def _readings(self, hearings: Sequence[Hearing]) -> list[str]:
        fused, _ = self._fuse(hearings)
        rows = [[word.text for word in fused]]
        rows += [[word.text for word in one.words] for one in hearings]
        rows += [other for one in hearings for other in one.others[:OTHERS]]
        return [" ".join(row) for row in rows]


def recordings(given: Path) -> list[Path]:
    """The recordings to be taken as answers: one file, or the files of a folder by name.

    Raises:
        SoundError: there is none.
    """
    if given.is_dir():
        found = sorted(one for one in given.iterdir() if one.is_file() and not one.name.startswith("."))
        if not found:
            raise SoundError(f"there is no recording in '{given}'; put one for each answer there")
        return found
    if not given.is_file():
        raise SoundError(f"there is no file '{given}'; check its name and folder")
    return [given]


class Spoken:
    """Answers spoken into a microphone, each ended by a pause; ``speak`` says a text aloud first."""

    way: Literal["keyboard", "voice"] = "voice"

    def __init__(self, source: Source, ears: AnswerEars, speak: Callable[[str], None]) -> None:
        self._source, self._ears, self._speak = source, ears, speak
        self._silent = 0

    def answer(self, asked: str) -> Given | None:
        """What is said next; None where nobody has answered twice."""
        self._speak(asked)
        phrase = self._phrase()
        if phrase is None:
            self._silent += 1
            return Given(()) if self._silent < 2 else None
        self._silent = 0
        return Given(self._ears.hear([phrase]), samples=phrase.samples)

    def confirm(self, asked: str) -> Given | None:
        """As an answer."""
        return self.answer("" if asked == ">" else asked)

    def _phrase(self) -> Phrase | None:
        """The first thing said; what came in before now, our own voice too, is let go."""
        self._source.take()
        return next(phrases(self._coming()), None)

    def _coming(self) -> Iterator[Samples]:
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            sound = self._source.take()
            if len(sound):
                yield (sound / np.float32(32768)).astype(np.float32)
            elif self._source.gone:
                raise SoundError(f"the microphone '{self._source.name}' is gone; plug it in again")
            else:
                time.sleep(TURN_S)


def say_aloud(text: str) -> None:
    """Say a text with the voice of this computer, where it has one; silent where not."""
    from contextlib import suppress

    from saycheck.live.voice import spoken

    sound = spoken(text) if text else None
    if sound is not None:
        with suppress(Exception):  # no loudspeaker: the text is on the screen
            import sounddevice

            sounddevice.play(sound, 16_000, blocking=True)
