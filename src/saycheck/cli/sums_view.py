"""How ``saycheck sums`` shows a result: its sentence, what it rests on and its caution, or all of it as JSON."""

import shutil
import sys
import textwrap
from dataclasses import asdict
from datetime import date
from typing import Annotated, Any, Protocol

import typer

MOST_COLUMNS = 100

AsJson = Annotated[bool, typer.Option("--json", help="Print all of the result as JSON.")]


class Told(Protocol):
    """What every sum gives."""

    @property
    def plainly(self) -> str: ...
    @property
    def caution(self) -> str: ...


def show(result: Told, as_json: bool = False) -> None:
    """Print a result: its sentence, its source and its caution, or all of it as JSON."""
    if as_json:
        typer.echo(json_of(result))
        return
    lines(result.plainly)
    if source := getattr(result, "source", ""):
        lines(f"Source: {source}.")
    if result.caution:
        lines(f"Caution: {result.caution}")


def lines(sentence: str) -> None:
    """Print a sentence, broken between words where a person reads it and left whole in a pipe."""
    if sys.stdout.isatty():
        sentence = textwrap.fill(sentence, min(shutil.get_terminal_size().columns, MOST_COLUMNS))
    typer.echo(sentence)


def json_of(result: Any) -> str:
    """A result with its sentence; what has no end is null, a day is written as in ISO 8601."""
    import json

    return json.dumps(_plain({"plainly": result.plainly, **asdict(result)}), indent=1, ensure_ascii=False)


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _plain(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(one) for one in value]
    if isinstance(value, float) and value in (float("inf"), float("-inf")):
        return None
    return value.isoformat() if isinstance(value, date) else value
