"""``saycheck vocab card``: the list of a machine on one page, to hang in the cab."""

from pathlib import Path
from typing import Annotated

import typer

from saycheck.cli.shop import OfUnit, Shop


def card(
    kind: Annotated[str, typer.Argument(metavar="KIND", help="A machine kind, such as wheel-loader.")],
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar="FILE", help="A new PDF; else KIND-card.pdf here.")
    ] = None,
    paper: Annotated[str, typer.Option("--paper", metavar="NAME", help="a4, a3, us-letter ...")] = "a4",
    _shop: Shop = None,
    _unit: OfUnit = None,
) -> None:
    """Make a walk card: zones in order, what to say, what to measure, on one page in black and white."""
    from saycheck.errors import WriteUpError
    from saycheck.reporting.card.make import make_card
    from saycheck.vocabulary.load import load

    vocabulary = load(kind)
    path = out or Path(f"{vocabulary.kind}-card.pdf")
    pdf, size = make_card(vocabulary, paper)
    try:
        with path.open("xb") as file:  # never over a file that is there
            file.write(pdf)
    except FileExistsError:
        raise WriteUpError(
            f"'{path}' is there already and is left as it is; name another with --out"
        ) from None
    except OSError as error:
        raise WriteUpError(
            f"'{path}' cannot be written ({error.strerror}); name another with --out"
        ) from None
    typer.echo(f"the card is {path}, in letters of {size:g} points", err=True)
