"""What ``saycheck listen --resume`` does: a walk that was cut off is written up from its sound."""

import time
from pathlib import Path

import typer

from saycheck import walkfolder
from saycheck.cli.listening import TURN_S, Options, write_up
from saycheck.errors import WalkError
from saycheck.hearing.choose import chosen
from saycheck.live.commands import lead_words, sayings
from saycheck.live.ears import quick_ears
from saycheck.live.folder import ListeningFolder, Session, unfinished
from saycheck.live.listener import Listener, Wishes
from saycheck.models.walk import Event
from saycheck.reporting.wording import length
from saycheck.vocabulary.chosen import about
from saycheck.vocabulary.load import load


def resume_newest(options: Options) -> None:
    """Write up the newest walk that was not finished, from its sound."""
    base = options.out.parent if options.out else Path("walks")
    found = unfinished(base)
    if not found:
        raise WalkError(f"there is no unfinished walk in '{base}'; name its place with --out")
    folder = found[0]
    session = folder.session()
    with about(session.unit):
        _resume(folder, session)


def _resume(folder: ListeningFolder, session: Session) -> None:
    typer.echo(
        f"writing up {length(folder.seconds)} of sound from {session.started.replace('T', ' ')}", err=True
    )
    vocabulary = load(session.machine, unit=session.unit)
    model = Path(session.model) if session.model else None
    careful = chosen(session.ears, vocabulary.kind, model)
    listener = Listener(vocabulary, Wishes(session.lead), _no_event)
    for event in folder.events():
        if event.kind == "said":
            listener.own_voice(event.start_s, event.end_s, event.text)
        elif event.kind == "gap":
            listener.events.append(event)
    quick = quick_ears(vocabulary.kind, lead_words(session.lead), sayings(vocabulary), shown=False)
    listener.follow(folder.recording, lambda: True, quick, careful)
    while not listener.over:
        listener.turn(folder.seconds)
        if listener.failed is not None:
            raise listener.failed.error
        time.sleep(TURN_S)
    listener.turn(folder.seconds)
    again = Options(
        session.machine, session.unit, session.hours, None, session.ears, model, None, session.lead,
        False, False, False,
    )  # fmt: skip
    out = Path(session.out)
    if walkfolder.holds_walk(out):
        out = walkfolder.free_folder(out.name, "", out.parent)
    write_up(listener, folder, again, [one.name for one in careful], out)


def _no_event(_: Event) -> None:
    """It is in the folder already, or will be found again."""
