"""An answer as it was given: typed, or spoken and heard; and where answers come from."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, Protocol

from saycheck.hearing.ear import Samples


@dataclass(frozen=True)
class Given:
    """What was answered: ``readings`` of the words, the likeliest first; empty where nothing was heard.

    A spoken answer has its sound: the ``file`` it was recorded in, or the ``samples`` of a microphone
    (mono, 16 kHz, -1 to 1).
    """

    readings: tuple[str, ...]
    file: Path | None = None
    samples: Samples | None = None


class Answers(Protocol):
    """Where answers come from; ``way`` is how an edit tells it."""

    way: Literal["keyboard", "voice"]

    def answer(self, asked: str) -> Given | None:
        """The answer to a question that is shown already; None where no more will come."""
        ...

    def confirm(self, asked: str) -> Given | None:
        """The yes or no (or the further words) to what was read back."""
        ...


class Typed:
    """Answers typed line by line; ``ask`` shows a prompt and gives the line, EOFError at the end."""

    way: Literal["keyboard", "voice"] = "keyboard"

    def __init__(self, ask: Callable[[str], str]) -> None:
        self._ask = ask

    def answer(self, _asked: str) -> Given | None:
        """The next line."""
        return self._line("> ")

    def confirm(self, asked: str) -> Given | None:
        """The next line."""
        return self._line(f"{asked} ")

    def _line(self, prompt: str) -> Given | None:
        try:
            return Given((self._ask(prompt).strip(),))
        except EOFError:
            return None


class Recorded:
    """Answers recorded beforehand, one a file, in the order of the questions; read back and confirmed by
    keyboard, since whoever recorded them has not seen what was understood."""

    way: Literal["keyboard", "voice"] = "voice"

    def __init__(self, files: Sequence[Path], hear: Callable[[Path], tuple[str, ...]], typed: Typed) -> None:
        self._files = list(files)
        self._hear = hear
        self._typed = typed

    def answer(self, _asked: str) -> Given | None:
        """The words of the next recording."""
        if not self._files:
            return None
        file = self._files.pop(0)
        return Given(self._hear(file), file=file)

    def confirm(self, asked: str) -> Given | None:
        """Typed."""
        return self._typed.confirm(asked)
