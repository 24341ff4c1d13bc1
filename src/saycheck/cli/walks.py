"""Commands on a walk that is there already: show it, say what was missed; and the schema of all walks."""

from pathlib import Path
from typing import Annotated

import typer

from saycheck.cli.shop import Shop

WalkFolder = Annotated[Path, typer.Argument(metavar="WALK", help="A walk folder.")]


def show(
    walk: WalkFolder,
    as_json: Annotated[bool, typer.Option("--json", help="Print walk.json, as it was heard.")] = False,
) -> None:
    """Show a walk again, as it stands after its edits: what needs deciding, the questions, the checklist."""
    from saycheck import walkfolder
    from saycheck.cli.view import show, show_json
    from saycheck.standing import standing

    if as_json:
        show_json(walkfolder.read(walk))
    else:
        show(standing(walk).walk)


def missed(walk: WalkFolder, _shop: Shop = None) -> None:
    """Say what to walk back for, in walking order."""
    from rich.console import Console

    from saycheck.coverage.missed import missed
    from saycheck.reporting.stops import show_stops
    from saycheck.standing import standing
    from saycheck.vocabulary.load import load

    there = standing(walk).walk
    show_stops(missed(load(there.machine.kind, unit=there.machine.unit), there), Console())


def schema() -> None:
    """Print the JSON Schema of walk.json."""
    import json

    from saycheck.models.walk import Walk

    typer.echo(json.dumps(Walk.model_json_schema(by_alias=True), indent=1, ensure_ascii=False))
