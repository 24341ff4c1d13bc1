"""Reading one vocabulary file: TOML in, a checked table out, and errors that say where and what.

Every message names the file as its reader would ("vocab/machines/wheel-loader.toml"), the line, what is
wrong and, where there is one, the nearest thing that would have been right.
"""

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from types import UnionType
from typing import Any, Literal, NoReturn, TypeVar, Union, get_args, get_origin

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from saycheck.errors import VocabularyError
from saycheck.vocabulary.places import Where, line_of
from saycheck.vocabulary.schema import Table

T = TypeVar("T", bound=Table)


@dataclass(frozen=True, slots=True)
class TextFile:
    """A file as read: ``label`` is what messages call it."""

    label: str
    text: str

    def refuse(self, where: Where, complaint: str) -> NoReturn:
        """Raise VocabularyError that points at ``where`` in this file."""
        raise VocabularyError(f"{self.label}, line {line_of(self.text, where)}: {complaint}")


def read_text(path: Path, folder: Path) -> TextFile:
    """Read ``path``; its label begins with the name of the vocabulary folder it lies in."""
    label = f"{folder.name}/{path.relative_to(folder).as_posix()}"
    try:
        return TextFile(label, path.read_bytes().decode("utf-8"))
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        raise VocabularyError(
            f"{label}, line {line}: this is not UTF-8 text; save the file as UTF-8"
        ) from None
    except OSError as error:
        raise VocabularyError(f"{label} cannot be read ({error.strerror}); check that it is there") from None


@lru_cache(maxsize=256)
def keys_of(file: TextFile) -> Mapping[str, Any]:
    """The file as plain TOML values; VocabularyError where it is not TOML."""
    try:
        return tomllib.loads(file.text)
    except tomllib.TOMLDecodeError as error:
        message = str(error)
        place = re.search(r"\s*\(at line (\d+), column (\d+)\)$", message)
        line = place[1] if place else str(file.text.count("\n") + 1)
        what = message[: place.start()] if place else message.replace(" (at end of document)", "")
        column = f" at column {place[2]}" if place else " at the end of the file"
        raise VocabularyError(
            f"{file.label}, line {line}: this is not TOML ({what[:1].lower()}{what[1:]}{column}); "
            "look for a missing quote, comma or bracket"
        ) from None


def parse(file: TextFile, model: type[T], given: Mapping[str, Any] | None = None) -> T:
    """Check a file against its table; ``given`` supplies top-level keys the file may leave out."""
    try:
        return model.model_validate({**(given or {}), **keys_of(file)})
    except ValidationError:
        where, complaint = slips(file, model, given)[0]
        file.refuse(where, complaint)


def slips(
    file: TextFile, model: type[Table], given: Mapping[str, Any] | None = None
) -> list[tuple[Where, str]]:
    """Where a file is not as its table wants it, and what is wrong there, in the order of its lines."""
    try:
        model.model_validate({**(given or {}), **keys_of(file)})
    except ValidationError as error:
        found = sorted(error.errors(), key=lambda slip: line_of(file.text, slip["loc"]))
        return [(slip["loc"], _complaint(slip, model)) for slip in found]
    return []


def did_you_mean(wrong: str, known: Iterable[str]) -> str:
    """``; did you mean 'x'?`` for the nearest of ``known``, or nothing where none is near."""
    from rapidfuzz import fuzz, process

    best = process.extractOne(wrong.lower(), list(known), scorer=fuzz.ratio, score_cutoff=60)
    return f"; did you mean '{best[0]}'?" if best else ""


def _complaint(slip: ErrorDetails, model: type[Table]) -> str:
    """One pydantic error in plain words."""
    where = slip["loc"]
    names = [str(step) for step in where if isinstance(step, str)]
    key = names[-1] if names else ""
    owner = names[-2] if len(names) > 1 else ""
    table = _table_at(model, names[:-1])
    if slip["type"] == "extra_forbidden":
        known = list(table.model_fields)
        hint = did_you_mean(key, known) or f"; the keys there are {', '.join(known)}"
        return f"unknown key '{key}' in {_noun(owner)}{hint}"
    if slip["type"] == "missing":
        return f"{_noun(owner)} needs the key '{key}'"
    value = f"'{slip['input']}'" if isinstance(slip["input"], str) else repr(slip["input"])
    field = table.model_fields.get(key)
    if slip["type"] == "literal_error" and field:
        choices = [str(choice) for choice in get_args(_literal(field.annotation))]
        wanted = f"one of {', '.join(repr(choice) for choice in choices)}"
        hint = did_you_mean(str(slip["input"]), choices)
        return f"'{key}' in {_noun(owner)} must be {wanted}, not {value}{hint}"
    wanted = _WANTED.get(slip["type"], slip["msg"].lower())
    what = f"each of '{key}'" if where and isinstance(where[-1], int) else f"'{key}'"
    return f"{what} in {_noun(owner)} must be {wanted}, not {value}"


_WANTED = {
    "string_type": "text in quotes",
    "bool_type": "true or false",
    "float_type": "a number",
    "int_type": "a whole number",
    "list_type": "a list in square brackets",
    "model_type": "a table",
}


def _noun(name: str) -> str:
    """What to call the table under a key: ``a part``, ``a measure``, ``the file`` at the top."""
    if not name:
        return "the file"
    noun = name.removesuffix("s")
    return f"{'an' if noun[0] in 'aeio' else 'a'} {noun}"


def _table_at(model: type[Table], names: list[str]) -> type[Table]:
    """The table class one reaches from ``model`` by following field names."""
    for name in names:
        field = model.model_fields.get(name)
        inner = [kind for kind in get_args(field.annotation) if _is_table(kind)] if field else []
        if not inner:
            break
        model = inner[0]
    return model


def _is_table(kind: object) -> bool:
    return isinstance(kind, type) and issubclass(kind, Table)


def _literal(annotation: Any) -> Any:
    """The Literal inside an annotation that may also allow None."""
    if get_origin(annotation) in (Union, UnionType):
        return next(kind for kind in get_args(annotation) if get_origin(kind) is Literal)
    return annotation
