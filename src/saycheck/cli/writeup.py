"""``saycheck writeup``: the walk as the owner gets it, on paper, as a page or as a table."""

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from saycheck.cli.shop import Shop
from saycheck.cli.walks import WalkFolder

if TYPE_CHECKING:
    from saycheck.reporting.writeup.given import Given


class Form(StrEnum):
    """What ``--as`` takes."""

    pdf = "pdf"
    html = "html"
    csv = "csv"


class Paper(StrEnum):
    """What ``--paper`` takes."""

    a4 = "a4"
    letter = "letter"


def writeup(
    walk: WalkFolder,
    _shop: Shop = None,
    form: Annotated[
        Form | None, typer.Option("--as", help="What to make; else what the ending of --out says, else pdf.")
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out",
            "-o",
            metavar="FILE",
            help="Where it goes, - for standard output; else into the walk folder.",
        ),
    ] = None,
    paper: Annotated[Paper, typer.Option(help="The size of the paper.")] = Paper.a4,
    walker: Annotated[str, typer.Option(metavar="NAME", help="Who walked round the machine.")] = "",
    owner: Annotated[str, typer.Option(metavar="NAME", help="Who decides.")] = "",
    waiting: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE.toml", help="Figures on what waiting costs, job by job; DEVELOPERS.md shows one."
        ),
    ] = None,
    walks: Annotated[
        Path | None,
        typer.Option(
            metavar="FOLDER",
            envvar="SAYCHECK_WALKS",
            help="The folder that holds earlier walks; else walks/.",
        ),
    ] = None,
    replace: Annotated[bool, typer.Option("--replace", help="Let --out take the place of a file.")] = False,
) -> None:
    """Write up a walk for its owner: what must be decided, what to watch, what was not seen."""
    from saycheck.writing import Names, given_of, made, place, put

    wanted = _form(form, out)
    given = given_of(walk, Names(walker, owner), walks, waiting)
    content = made(given, wanted.value, paper.value)
    if str(out) == "-":
        sys.stdout.buffer.write(content)
        return
    path = out or place(walk, wanted.value)
    put(path, content, replace=replace or out is None)
    typer.echo(f"the write-up is in {path}: {_summary(given)}", err=True)


def _form(form: Form | None, out: Path | None) -> Form:
    """What to make: as asked for, else by the ending of the file."""
    ending = out.suffix.lower().lstrip(".") if out else ""
    named = {"htm": "html"}.get(ending, ending)
    if form or not ending:
        return form or Form.pdf
    if named not in list(Form):
        from saycheck.errors import WriteUpError

        raise WriteUpError(f"'{out}' ends in none of .pdf, .html and .csv; name it so, or say --as")
    return Form(named)


def _summary(given: "Given") -> str:
    from saycheck.reporting.writeup.compose import warning

    found = sum(one.state == "writeup" for one in given.standing.walk.findings)
    left = warning(given)
    return f"{found} to decide" + (f". {left}" if left else "")
