"""Options that several commands take, worded once."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

MOST_HOURS = 1_000_000
"""No hour meter goes further."""


class Ears(StrEnum):
    """What ``--ear`` takes."""

    both = "both"
    builtin = "builtin"
    plain = "plain"
    trade = "trade"
    vosk = "vosk"


Machine = Annotated[
    str | None,
    typer.Option(
        "--machine",
        "-m",
        metavar="KIND",
        help="Kind of machine, such as wheel-loader; `saycheck vocab kinds` lists them.",
    ),
]
Unit = Annotated[str | None, typer.Option("--unit", "-u", metavar="NAME", help="What its owner calls it.")]
Hours = Annotated[
    float | None,
    typer.Option(min=0, max=MOST_HOURS, metavar="N", help="Hour-meter reading, where it is not spoken."),
]
Out = Annotated[
    Path | None,
    typer.Option("--out", "-o", metavar="FOLDER", help="Where the walk goes; else a new folder in walks/."),
]
Ear = Annotated[
    Ears,
    typer.Option(
        "--ear",
        help="Who listens: both (a general ear and the trade ear), builtin (the built-in general ear), "
        "plain (the same without our words), trade, or vosk.",
    ),
]
Model = Annotated[
    Path | None, typer.Option("--model", metavar="FOLDER", help="An English Vosk model to hear with.")
]
