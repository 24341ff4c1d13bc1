"""``saycheck answer``: the open questions of a walk, one at a time, by keyboard or by voice."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from saycheck.cli.learning import LearnFrom
from saycheck.cli.options import Ear, Ears, Model
from saycheck.cli.shop import Shop
from saycheck.cli.walks import WalkFolder

if TYPE_CHECKING:
    from collections.abc import Callable

    from saycheck.asking.given import Answers
    from saycheck.asking.session import Outcome

WIDEST = 72


def answer(
    walk: WalkFolder,
    sound: Annotated[
        Path | None,
        typer.Option(
            "--sound", metavar="FILE", help="A recorded answer, or a folder of them in order, one a question."
        ),
    ] = None,
    voice: Annotated[bool, typer.Option("--voice", help="Answer into a microphone, hands-free.")] = False,
    microphone: Annotated[
        str | None,
        typer.Option(
            metavar="NAME", help="Which microphone: its number or words of its name; goes with --voice."
        ),
    ] = None,
    aloud: Annotated[bool, typer.Option(help="With --voice, say the questions aloud.")] = True,
    name: Annotated[
        str | None, typer.Option("--name", metavar="NAME", help="Who answers; else your login name.")
    ] = None,
    ear: Ear = Ears.both,
    model: Model = None,
    _shop: Shop = None,
    learn_from: LearnFrom = None,
) -> None:
    """Answer the open questions of a walk; each answer is read back before it counts."""
    from saycheck import walkfolder
    from saycheck.asking.given import Recorded, Typed
    from saycheck.cli.learning import learn
    from saycheck.cli.review import _login
    from saycheck.errors import WalkError
    from saycheck.vocabulary.load import load

    if sound is not None and (voice or microphone):
        raise WalkError("--sound and --voice are two ways to answer; say one of them")
    learn(learn_from, ear.value, hears=voice or sound is not None)
    folder = walk if walk.is_dir() else walk.parent
    heard = walkfolder.read(folder)
    who = name or _login()
    typed = Typed(_line)
    if sound is None and not voice:
        typer.echo("yes, no, or in plain words; skip leaves a question open, stop ends.", err=True)
        _tell(_ask(folder, who, typed))
        return
    from saycheck.asking.voice import AnswerEars, recordings

    files = recordings(sound) if sound is not None else []
    with AnswerEars(load(heard.machine.kind, unit=heard.machine.unit), ear.value, model) as ears:
        if sound is not None:
            _tell(_ask(folder, who, Recorded(files, ears.hear_file, typed)))
            return
        _tell(_by_microphone(folder, who, ears, microphone, aloud))


def _by_microphone(folder: Path, who: str, ears: object, microphone: str | None, aloud: bool) -> "Outcome":
    from saycheck.asking.voice import AnswerEars, Spoken, say_aloud
    from saycheck.capture.microphone import opened

    assert isinstance(ears, AnswerEars)
    source = opened(microphone)
    try:
        typer.echo(f"listening with '{source.name}'; say stop, or press Ctrl-C, to end.", err=True)
        return _ask(folder, who, Spoken(source, ears, say_aloud if aloud else _silently))
    finally:
        source.close()


def _silently(_: str) -> None:
    """The question stands on the screen."""


def _ask(folder: Path, who: str, answers: "Answers") -> "Outcome":
    from saycheck.asking.session import Session

    return Session(folder, who, answers, _shown()).run()


def _line(prompt: str) -> str:
    """A line from standard input; where nobody types it, it is shown behind its prompt."""
    import sys

    line = input(prompt)
    if not sys.stdin.isatty():
        typer.echo(line)
    return line


def _shown() -> "Callable[[str], None]":
    import shutil
    import textwrap

    width = min(shutil.get_terminal_size().columns - 1, WIDEST)

    def say(text: str) -> None:
        for line in text.splitlines() or [""]:
            typer.echo("\n".join(textwrap.wrap(line, width)) if line else "")

    return say


def _tell(outcome: "Outcome") -> None:
    left = f"{outcome.left} left open" if outcome.left else "none is left open"
    typer.echo(f"\n{outcome.answered} answered, {left}", err=True)
