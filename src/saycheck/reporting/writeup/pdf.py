"""The write-up as a tagged PDF (PDF/UA-1), set by typst with the fonts that it brings along."""

import json
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
        return {key.replace("_", "-"): _spelled(value, unknown) for key, value in given.items()}
    if isinstance(given, list):
        return [_spelled(one, unknown) for one in given]
    if isinstance(given, str) and unknown:
        return "".join(UNKNOWN if letter in unknown else letter for letter in given)
    return given
