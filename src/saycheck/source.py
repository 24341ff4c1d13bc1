"""What was given to hear: a recording or a text, told apart by what is in it, not by its name."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from saycheck.errors import SaycheckError

_LOOKED_AT = 65_536
"""Bytes from the start that tell a text from a recording."""

_IN_TEXTS = frozenset(b"\t\n\v\f\r")
"""Control characters that do occur in texts."""


class TextError(SaycheckError):
    """A text that holds no words."""


@dataclass(frozen=True)
class GivenText:
    """A text input: its characters unchanged, the SHA-256 of its bytes, and what had to be assumed."""

    text: str
    sha256: str
    note: str | None = None


def is_text(path: Path) -> bool:
    """Whether a file holds text; a recording has control characters early on. An unreadable one has not."""
    try:
        with path.open("rb") as file:
            head = file.read(_LOOKED_AT)
    except OSError:
        return False
    if head.startswith((b"\xff\xfe", b"\xfe\xff")):
        return _decoded(head[: len(head) // 2 * 2], "utf-16") is not None
    return bool(head) and not any(byte < 32 and byte not in _IN_TEXTS for byte in head)


def read_text(path: Path, name: str) -> GivenText:
    """The text of a file in UTF-8, else (with a note) in UTF-16 or Latin-1; messages call it ``name``.

    Raises:
        TextError: it holds no words.
    """
    data = path.read_bytes()
    text, note = _decoded(data, "utf-8-sig"), None
    if text is None and data.startswith((b"\xff\xfe", b"\xfe\xff")):
        text, note = _decoded(data, "utf-16"), f"'{name}' was read as UTF-16"
    if text is None:
        text, note = data.decode("latin-1"), f"'{name}' is not UTF-8 and was read as Latin-1"
    if not any(letter.isalnum() for letter in text):
        raise TextError(f"'{name}' holds no words; write down what was said, or give the recording")
    return GivenText(text, hashlib.sha256(data).hexdigest(), note)


def _decoded(data: bytes, coding: str) -> str | None:
    try:
        return data.decode(coding)
    except UnicodeDecodeError:
        return None
