"""JSON Schemas of the vocabulary files, so that an editor completes and checks them while one types.

The shapes are those that the program reads. Where a value must name something that is there (a shared part, a
check, a condition), the schema lists what there is, a shop's own words included, so that an editor offers it.
"""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from saycheck.checkup.names import shared_file
from saycheck.checkup.shapes import SHAPES
from saycheck.errors import VocabularyError
from saycheck.vocabulary.files import did_you_mean
from saycheck.vocabulary.load import files_of, kinds, roots_of
from saycheck.vocabulary.schema import Conditions, Cues
from saycheck.vocabulary.stack import Stack, stacked

DIALECT = "https://json-schema.org/draft/2020-12/schema"
"""The dialect that pydantic writes."""

NAMES = {path.removeprefix("shared/").removesuffix(".toml").replace("/", "-"): path for path in SHAPES
         if "*" not in path} | {"machine": "machines/*.toml", "unit": "units/*.toml"}  # fmt: skip
"""What a schema is called, and the files that it is for."""


def schema_of(name: str, folders: Sequence[Path] = ()) -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a kind of file; VocabularyError where there is no such kind."""
    if name not in NAMES:
        hint = did_you_mean(name, NAMES) or ";"
        raise VocabularyError(f"there is no schema '{name}'{hint} there are {', '.join(NAMES)}")
    path = NAMES[name]
    schema = {"$schema": DIALECT, **SHAPES[path].model_json_schema()}
    schema["title"] = f"saycheck vocabulary, {path}"
    if name == "machine":  # a shop's file that adds to a shipped kind leaves both out
        schema["required"] = []
    _offer(schema, _known(roots_of(folders), folders))
    return schema


def _known(roots: Sequence[Path], folders: Sequence[Path]) -> dict[tuple[str, str], list[str]]:
    """What can stand under a key, by table and key."""
    stack: Stack = stacked(files_of(kinds(folders)[0], folders))
    shared, checks = list(stack.shared), list(stack.checks)
    conditions = _once(
        c.name for _, table in shared_file(roots, "conditions.toml", Conditions) for c in table.condition
    )
    categories = _once(c.category for _, table in shared_file(roots, "cues.toml", Cues) for c in table.cue)
    return {
        ("MachinePart", "like"): shared,
        ("MachinePart", "components"): shared,
        ("MachinePart", "checks"): checks,
        ("SharedPart", "components"): shared,
        ("SharedPart", "checks"): checks,
        ("Check", "conditions"): conditions,
        ("Waiting", "checks"): checks,
        ("Waiting", "conditions"): conditions,
        ("Cue", "category"): categories,
        ("UnitFile", "machine"): kinds(folders),
    }


def _once(names: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(names))


def _offer(schema: dict[str, Any], known: dict[tuple[str, str], list[str]]) -> None:
    """List what can stand under a key, in the tables of a schema."""
    tables: dict[str, Any] = schema.get("$defs", {}) | (
        {"UnitFile": schema} if "machine" in schema["properties"] else {}
    )
    for (table, key), names in known.items():
        if table in tables:
            _enumerate(tables[table]["properties"][key], names)


def _enumerate(field: dict[str, Any], names: list[str]) -> None:
    if field.get("type") == "array":
        field["items"] = {"type": "string", "enum": names}
    elif "anyOf" in field:  # may also be left empty
        field["anyOf"] = [{"type": "string", "enum": names}, {"type": "null"}]
    else:
        field["enum"] = names
