"""``saycheck review``: go through what was understood, with the sound at hand."""

from pathlib import Path
from typing import Annotated

import typer

from saycheck.cli.shop import Shop


def review(
    walk: Annotated[Path, typer.Argument(metavar="WALK", help="A walk folder.")],
    _shop: Shop = None,
    name: Annotated[
        str | None, typer.Option("--name", metavar="NAME", help="Who signs the edits; else your login name.")
    ] = None,
    terminal: Annotated[
        bool, typer.Option("--terminal", help="Review here in the terminal, without a browser.")
    ] = False,
    port: Annotated[
        int, typer.Option(min=0, max=65535, metavar="N", help="Port to listen on; 0 takes a free one.")
    ] = 0,
    lan: Annotated[
        bool,
        typer.Option("--lan", help="Let a tablet on the local network in, with a code shown here."),
    ] = False,
) -> None:
    """Review a walk: hear, accept, change or drop what was understood, on a page served on this machine."""
    who = name or _login()
    if terminal:
        from saycheck.page.terminal import review_here

        review_here(walk, who)
        return
    from saycheck.page.serve import serve

    serve(walk if walk.is_dir() else walk.parent, who, port, lan, typer.echo)


def _login() -> str:
    import getpass

    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return "reviewer"
