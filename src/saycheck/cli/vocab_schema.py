"""``saycheck vocab schema``: what an editor needs to complete and check the vocabulary files."""

from pathlib import Path
from typing import Annotated

import typer

from saycheck.cli.shop import Shop


def schema(
    name: Annotated[
        str, typer.Argument(metavar="NAME", help="machine, unit, parts, checks, conditions, cues, units ...")
    ] = "machine",
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar="FOLDER", help="Write all schemas into this folder.")
    ] = None,
    _shop: Shop = None,
) -> None:
    """Print the JSON Schema of a kind of vocabulary file, or write all of them for an editor."""
    import json

    from saycheck.checkup.describe import NAMES, schema_of
    from saycheck.errors import VocabularyError

    if out is None:
        typer.echo(json.dumps(schema_of(name), indent=1, ensure_ascii=False))
        return
    try:
        out.mkdir(parents=True, exist_ok=True)
        for one in NAMES:
            text = json.dumps(schema_of(one), indent=1, ensure_ascii=False)
            (out / f"{one}.schema.json").write_text(text + "\n", encoding="utf-8")
    except OSError as error:
        raise VocabularyError(f"'{out}' cannot be written ({error.strerror}); name another folder") from None
    typer.echo(f"{len(NAMES)} schemas are in {out}", err=True)
