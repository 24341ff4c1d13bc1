"""``saycheck vocab import`` and ``export``: a shop's own list in, the list of a machine kind out."""

from pathlib import Path
from typing import Annotated

import typer

from saycheck.cli.shop import OfUnit, Shop


def import_list(
    given: Annotated[Path, typer.Argument(metavar="LIST", help="A checklist: .xlsx, .csv, .txt or .docx.")],
    machine: Annotated[str, typer.Option("--machine", "-m", metavar="KIND", help="Kind of machine.")],
    out: Annotated[
        Path | None,
        typer.Option(
            "--out", "-o", metavar="FOLDER", help="The shop's folder; else one named like the list."
        ),
    ] = None,
    _shop: Shop = None,
) -> None:
    """Turn a shop's own checklist into a folder of words; what fits no part is listed to be placed."""
    from saycheck.shoplist.lines import read_list
    from saycheck.shoplist.match import matched
    from saycheck.shoplist.write import write_layer
    from saycheck.vocabulary.load import load

    vocabulary = load(machine)
    matches = matched(read_list(given), vocabulary)
    folder = out or Path(f"{given.stem}-words")
    path = write_layer(folder, given.name, matches, vocabulary)
    left = [match for match in matches if not match.is_placed]
    for match in left:
        typer.echo(f"{match.line.place}: {match.line.text}")
    found = sum(bool(match.parts) for match in matches)
    headings = sum(match.is_placed and not match.parts for match in matches)
    typer.echo(
        f"{len(matches)} lines read: {found} mean known parts, {headings} are headings, {len(left)} are to be "
        f"placed by you, at the end of {path}; then use it with --shop {folder}",
        err=True,
    )


def export_list(
    kind: Annotated[str, typer.Argument(metavar="KIND", help="A machine kind, such as wheel-loader.")],
    out: Annotated[Path, typer.Option("--out", "-o", metavar="FILE", help="A new .xlsx or .csv file.")],
    _shop: Shop = None,
    _unit: OfUnit = None,
) -> None:
    """Write the list of a machine kind, or of a unit, as a spreadsheet."""
    from saycheck.shoplist.sheet import write_sheet
    from saycheck.vocabulary.load import load

    count = write_sheet(out, load(kind))
    typer.echo(f"{count} lines are in {out}", err=True)
