"""The command line as a whole: its commands, and how it leaves when something is wrong.

Exit status: 0 done, 1 the walk needs attention (only where asked for), 2 bad usage or bad input, 130
stopped with Ctrl-C. What was asked for goes to standard output; notes, progress and errors go to standard
error.
"""

from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from saycheck import __version__
from saycheck.cli import (
    answer,
    decide,
    demo,
    doctor,
    hear,
    history,
    listen,
    review,
    stopping,
    sums,
    vocab,
    walks,
    writeup,
)
from saycheck.errors import SaycheckError


class Commands(TyperGroup):
    """A group of commands that turns our errors into one sentence and a status."""

    def invoke(self, ctx: Any) -> Any:
        try:
            return super().invoke(ctx)
        except SaycheckError as error:
            typer.echo(str(error), err=True)
            raise typer.Exit(2) from error
        except KeyboardInterrupt:
            typer.echo("stopped", err=True)
            raise typer.Exit(130) from None


app = typer.Typer(
    name="saycheck",
    cls=Commands,
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,  # plain help: rich would double the time that --help takes
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)


def _version(asked: bool) -> None:
    if asked:
        typer.echo(f"saycheck {__version__}")
        raise typer.Exit


@app.callback()
def saycheck(
    _: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version and leave.")
    ] = False,
) -> None:
    """Hears a spoken walkaround of a machine and writes up what was found. Works offline."""


app.command("hear")(hear.hear)
app.command("listen")(listen.listen)
app.command("show")(walks.show)
app.command("missed")(walks.missed)
app.command("answer")(answer.answer)
app.command("history")(history.history)
app.command("review")(review.review)
app.command("writeup")(writeup.writeup)
app.command("decide")(decide.decide)
app.command("schema")(walks.schema)
app.add_typer(vocab.app, name="vocab")
app.add_typer(sums.app, name="sums")
app.command("demo")(demo.demo)
app.command("doctor")(doctor.doctor)


def main() -> None:
    """The console script."""
    stopping.listen()
    app(prog_name="saycheck")
