"""``saycheck history``: what is remembered of a unit, or of all of them."""

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from saycheck.cli.shop import Shop

if TYPE_CHECKING:
    from sqlalchemy import Connection

REBUILD = "rebuild"


class Format(StrEnum):
    """What ``--as`` takes."""

    csv = "csv"
    jsonl = "jsonl"
    parquet = "parquet"
    ical = "ical"


class Only(StrEnum):
    """What ``--only`` takes: the tables that can be exported."""

    open = "open"
    due = "due"
    back = "back"
    wear = "wear"
    troubles = "troubles"
    walks = "walks"
    findings = "findings"
    readings = "readings"


def history(
    unit: Annotated[
        str | None,
        typer.Argument(metavar="[UNIT|rebuild]", help="What its owner calls the unit, in any capitals."),
    ] = None,
    fleet: Annotated[bool, typer.Option("--fleet", help="All units together.")] = False,
    every: Annotated[
        bool, typer.Option("--all", help="With --fleet: all lines, not the first ones.")
    ] = False,
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
    form: Annotated[
        Format | None,
        typer.Option("--as", help="Print a table for other programs instead; ical gives what is due."),
    ] = None,
    only: Annotated[
        Only | None, typer.Option("--only", help="Which table that is, with --as; else open.")
    ] = None,
    out: Annotated[
        Path, typer.Option("--out", "-o", metavar="FILE", help="Where it goes; - is standard output.")
    ] = Path("-"),
    plot: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Draw what was measured, as .svg, .png or .pdf.")
    ] = None,
    replace: Annotated[bool, typer.Option("--replace", help="Write over a file that is there.")] = False,
    _shop: Shop = None,
    index: Annotated[
        str | None,
        typer.Option(
            metavar="URL",
            envvar="SAYCHECK_HISTORY",
            help="The database of the index, such as postgresql://user@host/fleet; "
            "else one in your cache folder.",
        ),
    ] = None,
) -> None:
    """Show what earlier walks of a unit say: what is still open, came back, wears and is due.

    The walk folders are the record. The index over them is kept up to date by itself; `saycheck history
    rebuild` makes it again from the folders.
    """
    from saycheck.errors import HistoryError
    from saycheck.history.index import opened
    from saycheck.history.sync import sync
    from saycheck.vocabulary.load import load
    from saycheck.walkfolder import walks_folder

    if unit is not None and fleet:
        raise HistoryError(f"'{unit}' is one unit and --fleet is all of them; leave one of the two out")
    if form is None and (only is not None or str(out) != "-"):
        raise HistoryError(
            "--only and --out go with a table for other programs; add --as csv, or leave them out"
        )
    if unit is None and not fleet:
        raise HistoryError('name one unit, as in `saycheck history "loader seven"`, or say --fleet for all')
    rebuild = unit == REBUILD
    with opened(walks_folder(walks), index, anew=rebuild) as there:
        done = sync(there, anew=rebuild)
        for problem in done.problems:
            typer.echo(f"left out: {problem}", err=True)
        if rebuild:
            typer.echo(f"the index is made again from {done.read} walks", err=True)
            return
        kind = load(machine).kind if machine else None
        with there.reading() as connection:
            if form is not None:
                _export(connection, unit, kind, form, only or Only.open, out, replace)
            elif unit is not None:
                _show_unit(connection, unit, kind, plot, replace)
            else:
                _show_fleet(connection, every, plot)


def _show_unit(
    connection: "Connection", unit: str, kind: str | None, plot: Path | None, replace: bool
) -> None:
    from saycheck.history.unit import unit_history

    found = unit_history(connection, unit, kind)
    if plot is None:
        from rich.console import Console

        from saycheck.history.view import show

        show(found, Console())
        return
    from saycheck.cli.exporting import write_out
    from saycheck.errors import HistoryError
    from saycheck.history.plots import KINDS, draw

    if plot.suffix.lower() not in KINDS:
        raise HistoryError(f"'{plot}' is no picture that can be drawn; end its name in {', '.join(KINDS)}")
    kind_of = plot.suffix.lower().removeprefix(".")
    title = f"{found.name}, {found.kind.replace('-', ' ')}"
    write_out(plot, replace, lambda file: draw(found.trends, title, file, kind_of))


def _show_fleet(connection: "Connection", every: bool, plot: Path | None) -> None:
    from rich.console import Console

    from saycheck.errors import HistoryError
    from saycheck.history.fleet import MOST, fleet
    from saycheck.history.fleet_view import show

    if plot is not None:
        raise HistoryError("--plot draws one unit; name it in place of --fleet")
    show(fleet(connection, None if every else MOST), Console())


def _export(
    connection: "Connection",
    unit: str | None,
    kind: str | None,
    form: Format,
    only: Only,
    out: Path,
    replace: bool,
) -> None:
    from saycheck.cli.exporting import write_out
    from saycheck.history.exports import EXPORTS, rows
    from saycheck.history.formats import WRITERS
    from saycheck.history.unit import unit_number

    number = unit_number(connection, unit, kind) if unit is not None else None
    if form is Format.ical:
        from saycheck.history.calendar import calendar

        made = calendar(rows(connection, "due", number), rows(connection, "wear", number))
        write_out(out, replace, lambda file: file.writelines(made))
        return
    found = rows(connection, only.value, number)
    write_out(out, replace, lambda file: WRITERS[form.value](EXPORTS[only.value].columns, found, file))
