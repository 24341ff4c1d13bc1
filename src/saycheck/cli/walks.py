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


def missed(
    walk: WalkFolder,
    stop: Annotated[
        int | None, typer.Option("--stop", min=1, metavar="N", help="Tell all of this stop, and of no other.")
    ] = None,
    whole: Annotated[
        bool, typer.Option("--all", help="Tell all of every stop, however high the screen is.")
    ] = False,
    _shop: Shop = None,
) -> None:
    """Say what to walk back for, the shortest way round; fits on a phone."""
    from rich.console import Console

    from saycheck.coverage.missed import missed
    from saycheck.coverage.skipped import danger_of
    from saycheck.errors import WalkError
    from saycheck.reporting.stops import show_stops
    from saycheck.standing import standing
    from saycheck.vocabulary.load import load

    there = standing(walk).walk
    vocabulary = load(there.machine.kind, unit=there.machine.unit)
    stops = missed(vocabulary, there)
    if stop is not None and stop > len(stops):
        raise WalkError(f"there is no stop {stop}; the way back has {len(stops)}")
    danger = {part.name: danger_of(vocabulary, part) for part in vocabulary.parts}
    last = max(danger.values(), default=(1, 0))
    show_stops(stops, Console(), None if whole else lambda name: danger.get(name, last), stop or 0)


def schema() -> None:
    """Print the JSON Schema of walk.json."""
    import json

    from saycheck.models.walk import Walk

    typer.echo(json.dumps(Walk.model_json_schema(by_alias=True), indent=1, ensure_ascii=False))
