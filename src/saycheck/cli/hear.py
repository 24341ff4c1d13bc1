"""``saycheck hear``: a recording or a text goes in, a walk folder comes out."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Annotated

import typer

from saycheck.cli.learning import LearnFrom
from saycheck.cli.options import Ear, Ears, Hours, Machine, Model, Out, Unit
from saycheck.cli.shop import Shop


def hear(
    given: Annotated[
        Path, typer.Argument(metavar="INPUT", help="A recording, or a text; - for standard input.")
    ],
    machine: Machine = None,
    unit: Unit = None,
    hours: Hours = None,
    walked: Annotated[
        str | None,
        typer.Option(
            metavar="WHEN", help="When it was walked, such as 2025-03-09 or 2025-03-09T07:40; else now."
        ),
    ] = None,
    out: Out = None,
    ear: Ear = Ears.both,
    model: Model = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Hear into a folder that holds a walk; its edits are kept.")
    ] = False,
    into: Annotated[
        Path | None,
        typer.Option(
            "--into",
            metavar="WALK",
            help="Join it to the walk of this folder, after walking back; keeps all.",
        ),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print walk.json instead of the view.")] = False,
    _shop: Shop = None,
    learn_from: LearnFrom = None,
    exit_status: Annotated[
        bool, typer.Option("--exit-status", help="Leave with status 1 when the walk needs attention.")
    ] = False,
) -> None:
    """Hear a recording (or read a text) of a walkaround and write a walk folder."""
    import dataclasses
    from datetime import date

    from saycheck import walkfolder
    from saycheck.cli import joining, stopping
    from saycheck.cli.earlier import questions_from_earlier, walked_when
    from saycheck.cli.learning import learn
    from saycheck.cli.view import Follower, show, show_json, summary
    from saycheck.run import Asked, hear_file, needs_attention
    from saycheck.source import is_text

    _fit(into, {"--machine": machine, "--unit": unit, "--out": out, "--replace": replace})
    try:
        with _on_disk(given) as (source, name), Follower() as follower:
            learn(learn_from, ear.value, hears=not is_text(source))
            when = walked_when(walked, out if replace else None)
            asked = Asked(
                machine or "", unit, hours, ear.value, model, follower.note, follower.progress, when
            )
            if into is not None:
                folder = into if into.is_dir() else into.parent
                walk = joining.into(folder, source, name, asked, stopping.look)
            else:
                day = when[:10] if when else date.today().isoformat()
                folder = out or walkfolder.free_folder(unit or Path(name).stem, day)
                again = questions_from_earlier(unit, asked.machine, follower.note)
                if replace and joining.joined_before(folder):
                    follower.note("recordings had been joined to that walk; join them again with --into")
                with walkfolder.writing(folder, replace) as draft:
                    walk = hear_file(source, dataclasses.replace(asked, again=again), name, draft.sound)
                    draft.keep(source, name)
                    draft.write(walk)
    except KeyboardInterrupt:
        typer.echo("stopped; nothing was written", err=True)
        raise typer.Exit(130) from None
    (show_json if as_json else show)(walk)
    typer.echo(f"the walk is in {folder}: {summary(walk)}", err=True)
    if exit_status and needs_attention(walk):
        raise typer.Exit(1)


def _fit(into: Path | None, given: dict[str, object]) -> None:
    """Refuse what does not go together: a walk that is there tells its machine and its folder itself."""
    from saycheck.errors import WalkError

    too_many = [name for name, value in given.items() if value]
    if into is not None and too_many:
        raise WalkError(
            f"{too_many[0]} does not go with --into, since the walk that is there tells it; leave it out"
        )
    if into is None and given["--machine"] is None:
        raise WalkError("say which machine it is with --machine; `saycheck vocab kinds` lists them")


@contextmanager
def _on_disk(given: Path) -> Iterator[tuple[Path, str]]:
    """The input as a file and what it is called; standard input is copied to a file first."""
    if str(given) != "-":
        yield given, given.name
        return
    import shutil
    import tempfile

    with tempfile.NamedTemporaryFile(prefix="saycheck-") as file:
        shutil.copyfileobj(sys.stdin.buffer, file)
        file.flush()
        yield Path(file.name), "standard-input"
