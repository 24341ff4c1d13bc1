"""The write-up as a tagged PDF (PDF/UA-1), set by typst with the fonts that it brings along."""

import json
from collections.abc import Callable, Mapping
from datetime import datetime
from importlib.resources import files
from typing import Any, Literal

from saycheck.errors import WriteUpError
from saycheck.models.decisions import CHOICE_WORDS
from saycheck.reporting.writeup.document import WriteUp
from saycheck.reporting.writeup.letters import everyday, printable
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
    setting = {"paper": _PAPERS[paper], "choices": list(CHOICE_WORDS.values())}
    given = {"setting.json": json.dumps(setting).encode(), **(pictures or {})}
    words = document.model_dump()
    try:
        try:
            return _set(_each(words, printable), given, made)
        except RefusedError as error:
            if "could not be displayed" not in str(error):
                raise
            return _set(_each(words, everyday), given, made)  # letters that only fail together
    except RefusedError as error:
        raise WriteUpError(
            f"the write-up could not be set on paper ({error}); make it with --as html"
        ) from error


def _set(words: Any, given: Mapping[str, bytes], made: datetime) -> bytes:
    template = files("saycheck.reporting.writeup").joinpath("writeup.typ").read_bytes()
    return typeset({"main.typ": template, "document.json": json.dumps(words).encode(), **given}, made)


def _each(given: Any, change: Callable[[str], str]) -> Any:
    """The document with every text changed, and its keys as typst spells names: ``put-off``.

    All texts are looked at as one first, since there is nearly never anything to change.
    """
    whole = json.dumps(given, ensure_ascii=False)
    if change(whole) == whole:
        return _spelled(given, lambda text: text)
    return _spelled(given, change)


def _spelled(given: Any, change: Callable[[str], str]) -> Any:
    if isinstance(given, dict):
        return {key.replace("_", "-"): _spelled(value, change) for key, value in given.items()}
    if isinstance(given, list):
        return [_spelled(one, change) for one in given]
    return change(given) if isinstance(given, str) else given
