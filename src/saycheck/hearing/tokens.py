"""The word pieces the built-in ear writes: number to text, where words begin, the words of a reading.

``tokenizer.bin`` of the model is, 32,768 times, the length of a piece and the piece in UTF-8. The
length is one byte, or two where the first is 128 or more (first - 128 + second x 128).
Source: read off the file itself; the pieces are those of a byte-fallback SentencePiece model.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from saycheck.errors import EarError

START, END = 1, 2
"""Numbers of the pieces that open and close every reading."""

SPACE = "\u2581"
"""The mark at the front of a piece that begins a word."""


@dataclass(frozen=True)
class Tokens:
    """The pieces in order of their number; raw bytes and marks included."""

    pieces: tuple[bytes, ...]

    @classmethod
    def read(cls, path: Path) -> "Tokens":
        """Read ``tokenizer.bin``.

        Raises:
            EarError: the file is missing or cut short.
        """
        try:
            raw = path.read_bytes()
        except OSError as error:
            raise EarError(
                f"the built-in ear cannot read its word pieces {path}: {error.strerror};"
                " install moonshine-voice==0.1.0 again"
            ) from error
        pieces: list[bytes] = []
        at = 0
        while at < len(raw):
            length = raw[at]
            at += 1
            if length >= 128 and at < len(raw):
                length = length - 128 + raw[at] * 128
                at += 1
            if at + length > len(raw):
                raise EarError(
                    f"the word pieces {path} end in the middle of piece {len(pieces)};"
                    " install moonshine-voice==0.1.0 again"
                )
            pieces.append(raw[at : at + length])
            at += length
        return cls(tuple(pieces))

    def __len__(self) -> int:
        return len(self.pieces)

    @cached_property
    def shown(self) -> tuple[str, ...]:
        """Each piece as text; a lone byte outside ASCII shows as the replacement character."""
        return tuple(piece.decode("utf-8", "replace") for piece in self.pieces)

    @cached_property
    def begins_word(self) -> NDArray[np.bool_]:
        """Whether each piece begins a word, shape (pieces,)."""
        return np.array([piece.startswith(SPACE) for piece in self.shown])

    @cached_property
    def silent(self) -> NDArray[np.bool_]:
        """Whether each piece is a mark that stands for no sound and must never be written."""
        marks = np.array([piece.startswith("<<") and piece.endswith(">>") for piece in self.shown])
        marks[[0, START]] = True
        return marks

    def text(self, numbers: Sequence[int]) -> str:
        """The text of a reading, marks left out, spaces single."""
        raw = b"".join(self.pieces[n] for n in numbers if not (n <= END or self.silent[n]))
        return " ".join(raw.decode("utf-8", "replace").replace(SPACE, " ").split())

    def words(self, numbers: Sequence[int]) -> list[tuple[str, list[int]]]:
        """The words of a reading with the places (in ``numbers``) of their pieces.

        A piece that would make a word of nothing (a lone space, a mark) belongs to no word.
        """
        groups: list[list[int]] = []
        for place, number in enumerate(numbers):
            if number <= END or self.silent[number]:
                continue
            if not groups or self.begins_word[number]:
                groups.append([])
            groups[-1].append(place)
        words: list[tuple[str, list[int]]] = []
        for group in groups:
            text = self.text([numbers[place] for place in group])
            parts = text.split()
            if len(parts) == 1:
                words.append((text, group))
            elif parts:  # a piece with a space inside: rare, keep one word so that places stay whole
                words.append(("".join(parts), group))
        return words
