"""``saycheck history``: what is remembered of a unit, or of all of them."""

from pathlib import Path
from typing import Annotated

import typer

REBUILD = "rebuild"


def history(
    unit: Annotated[
        str | None,
        typer.Argument(metavar="[UNIT|rebuild]", help="What its owner calls the unit, in any capitals."),
    ] = None,
    fleet: Annotated[bool, typer.Option("--fleet", help="All units together.")] = False,
    walks: Annotated[
        Path | None,
        typer.Option(
            metavar="FOLDER", envvar="SAYCHECK_WALKS", help="The folder that holds the walks; else walks/."
        ),
    ] = None,
    machine: Annotated[
        str | None,
        typer.Option("--machine", "-m", metavar="KIND", help="Kind of machine, where two share a name."),
    ] = None,
    index: Annotated[
        str | None,
        typer.Option(
            metavar="URL",
            envvar="SAYCHECK_HISTORY",
            help="The database of the index, such as postgresql://user@host/fleet; else one in your cache folder.",
        ),
    ] = None,
) -> None:
    """Show what earlier walks of a unit say: what is still open, came back, wears and is due.

    The walk folders are the record. The index over them is kept up to date by itself; `saycheck history
    rebuild` makes it again from the folders.
    """
    from rich.console import Console

    from saycheck.errors import HistoryError
    from saycheck.history.index import opened
    from saycheck.history.sync import sync
    from saycheck.history.unit import unit_history
    from saycheck.history.view import show
    from saycheck.walkfolder import walks_folder

    if (unit is None) == (not fleet):
        raise HistoryError('name one unit, as in `saycheck history "loader seven"`, or say --fleet for all')
    with opened(walks_folder(walks), index, anew=unit == REBUILD) as there:
        done = sync(there, anew=unit == REBUILD)
        for problem in done.problems:
            typer.echo(f"left out: {problem}", err=True)
        if unit == REBUILD:
            typer.echo(f"{done.read} walks read", err=True)
            return
        with there.reading() as connection:
            if unit is not None:
                show(unit_history(connection, unit, machine), Console())
