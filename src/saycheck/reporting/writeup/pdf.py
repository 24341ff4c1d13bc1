"""The write-up as a tagged PDF (PDF/UA-1), set by typst with the fonts that it brings along.

Poppler's pdfinfo may say "Suspects object is wrong type (boolean)": typst writes ``/Suspects false``, which is what
ISO 32000-1 wants there (14.7.1, from memory), and pikepdf reads it so; the warning is poppler's own slip.
"""

import json
import re
from collections.abc import Iterator, Mapping
from contextlib import suppress
from datetime import datetime
from importlib.resources import files
from typing import Any, Literal

from saycheck.errors import WriteUpError
from saycheck.models.decisions import CHOICE_WORDS
from saycheck.reporting.writeup.columns import COLUMNS, ZONE_LINES, dealt
from saycheck.reporting.writeup.document import WriteUp
from saycheck.reporting.writeup.letters import UNKNOWN, strange, unprintable
from saycheck.reporting.writeup.typeset import RefusedError, typeset

Paper = Literal["a4", "letter"]

_NO_WORDS = {"svg", "file", "finding"}
"""Keys whose values are no words to be set."""

_LONG = re.compile(r"[^\s\u200b]{21,}")
_STEP = 10
_DIGEST = re.compile(r"[0-9a-f]{64}")

_PAPERS = {"a4": "a4", "letter": "us-letter"}


def as_pdf(
    document: WriteUp, made: datetime, pictures: Mapping[str, bytes] | None = None, paper: Paper = "a4"
) -> bytes:
    """The PDF; the same document, time and pictures give the same bytes.

    Letters that the fonts do not have are shown as the sign for an unknown one.

    Raises:
        WriteUpError: typst refuses it, as it does a picture that is damaged.
    """
    setting = {
        "paper": _PAPERS[paper],
        "choices": list(CHOICE_WORDS.values()),
        "columns": dealt([len(zone.lines) + ZONE_LINES for zone in document.checklist], COLUMNS),
    }
    texts = {"setting.json": json.dumps(setting).encode()}
    words = document.model_dump()
    all_words = "".join(_texts(words))
    try:
        for unknown in (unprintable(all_words), strange(all_words)):  # the latter: some fail only together
            texts["document.json"] = json.dumps(_spelled(words, unknown)).encode()
            with suppress(_LettersError):
                return _set(texts, made, pictures or {})
    except RefusedError as error:
        raise WriteUpError(
            f"the write-up could not be set on paper ({error}); make it with --as html"
        ) from error
    raise WriteUpError("the write-up holds letters that cannot be printed; make it with --as html")


class _LettersError(Exception):
    """A letter that no font has."""


def _set(texts: Mapping[str, bytes], made: datetime, pictures: Mapping[str, bytes]) -> bytes:
    template = files("saycheck.reporting.writeup").joinpath("writeup.typ").read_bytes()
    try:
        return typeset({"main.typ": template, **texts}, made, pictures)
    except RefusedError as error:
        if "could not be displayed" in str(error):
            raise _LettersError from error
        raise


def _texts(given: Any) -> Iterator[str]:
    """All the texts of a document."""
    if isinstance(given, str):
        yield given
    elif isinstance(given, dict | list):
        for one in given.values() if isinstance(given, dict) else given:
            yield from _texts(one)


def _spelled(given: Any, unknown: set[str]) -> Any:
    """The document without unknown letters, and with its keys as typst spells names: ``put-off``."""
    if isinstance(given, dict):
        return {
            key.replace("_", "-"): value if key in _NO_WORDS else _spelled(value, unknown)
            for key, value in given.items()
        }
    if isinstance(given, list):
        return [_spelled(one, unknown) for one in given]
    if isinstance(given, str):
        known = "".join(UNKNOWN if letter in unknown else letter for letter in given) if unknown else given
        return _LONG.sub(_breakable, known)
    return given


def _breakable(word: re.Match[str]) -> str:
    """A word too long for any column, with places at which it may be broken; digests fit as they are."""
    text = word.group()
    if _DIGEST.fullmatch(text):
        return text
    return "\u200b".join(text[at : at + _STEP] for at in range(0, len(text), _STEP))
