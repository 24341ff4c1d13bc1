"""The options that name the shop's own folder and the unit, for every command that uses the vocabulary."""

from pathlib import Path
from typing import Annotated

import typer


def _choose_shop(shop: Path | None) -> Path | None:
    from saycheck.vocabulary.chosen import choose

    choose(shop=shop)
    return shop


def _choose_unit(unit: str | None) -> str | None:
    from saycheck.vocabulary.chosen import choose

    choose(unit=unit)
    return unit


Shop = Annotated[
    Path | None,
    typer.Option(
        "--shop",
        metavar="FOLDER",
        callback=_choose_shop,
        help="Your own folder of words, laid over the shipped ones; else SAYCHECK_SHOP, else the key shop of "
        "config.toml, else the folder shop in your data folder.",
    ),
]
"""Takes effect by itself, for this run and all that it starts; the value is for those who write there."""

OfUnit = Annotated[
    str | None,
    typer.Option(
        "--unit", "-u", metavar="NAME", callback=_choose_unit, help="A unit with a file in the shop's units/."
    ),
]
"""Takes effect by itself, like ``Shop``."""
