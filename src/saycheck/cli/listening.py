"""What ``saycheck listen`` does: recorder, ears, screen and loudspeaker put together."""

import os
import time
from contextlib import ExitStack
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from pathlib import Path

import typer
from rich.console import Console
from rich.live import Live

from saycheck import walkfolder
from saycheck.capture.microphone import opened
from saycheck.capture.recorder import OpenSource, Recorder
from saycheck.cli.earlier import questions_from_earlier
from saycheck.cli.view import show, summary
from saycheck.errors import WalkError
from saycheck.hearing.choose import chosen
from saycheck.hearing.ear import SAMPLE_RATE
from saycheck.live.commands import lead_words, sayings
from saycheck.live.ears import quick_ears
from saycheck.live.finish import finish
from saycheck.live.folder import ListeningFolder, Session, unfinished
from saycheck.live.listener import Listener, Wishes
from saycheck.live.player import Player
from saycheck.live.screen import page
from saycheck.reporting.wording import length
from saycheck.run import Asked
from saycheck.vocabulary.chosen import about
from saycheck.vocabulary.load import load

OWN_VOICE_RINGS_S = 0.8
"""So long may our own voice take from the loudspeaker back into the recording, seconds."""

TURN_S = 0.1
"""Between two looks for news, seconds."""


@dataclass(frozen=True)
class Options:
    """What was asked for on the command line."""

    machine: str | None
    unit: str | None
    hours: float | None
    out: Path | None
    ears: str
    model: Path | None
    microphone: str | None
    lead: str
    tones: bool
    aloud: bool
    zones_aloud: bool


def listen_now(options: Options, open_source: OpenSource | None = None) -> Listener:
    """Listen until "done" or Ctrl-C, then write the walk; return the listener with all that it knows.

    ``open_source`` takes the place of the microphone.

    Raises:
        SaycheckError: there is no microphone, an ear failed, the walk cannot be written; the sound stays.
    """
    with about(options.unit):  # every ear's process knows the words of the unit too
        return _listen(options, open_source)


def _listen(options: Options, open_source: OpenSource | None) -> Listener:
    if options.machine is None:
        raise WalkError("say which machine it is with --machine; `saycheck vocab kinds` lists them")
    vocabulary = load(options.machine, unit=options.unit)
    lead = lead_words(options.lead)
    now = datetime.now()
    out = options.out or walkfolder.free_folder(options.unit or vocabulary.kind, now.date().isoformat())
    if walkfolder.holds_walk(out):
        raise WalkError(f"'{out}' already holds a walk; name another folder with --out")
    console = Console(stderr=True)
    _tell_of_unfinished(out.parent, console)
    folder = ListeningFolder.for_walk(out)
    careful = chosen(options.ears, vocabulary.kind, options.model)
    folder.begin(
        Session(
            machine=vocabulary.kind, unit=options.unit, hours=options.hours, lead=options.lead,
            ears=options.ears, model=str(options.model) if options.model else None, out=str(out),
            started=now.isoformat(timespec="seconds"), process=os.getpid(),
        )
    )  # fmt: skip
    with ExitStack() as running:
        try:
            recorder = running.enter_context(
                Recorder(folder.recording, open_source or partial(opened, options.microphone))
            )
        except BaseException:
            folder.remove()
            raise
        listener = Listener(vocabulary, Wishes(options.lead, options.zones_aloud), folder.note)
        listener.view.unit = options.unit or vocabulary.name
        listener.view.device = recorder.device
        quick = quick_ears(vocabulary.kind, lead, sayings(vocabulary))
        listener.follow(folder.recording, lambda: recorder.ended, quick, careful)
        own = _OwnVoice(listener, recorder)
        player = Player(lambda: listener.speaking, own.playing, _shown, options.tones, options.aloud)
        listener.say, listener.tone = player.say, player.tone
        _until_done(listener, recorder, console)
        player.close()
    typer.echo(f"recorded {length(folder.seconds)} with '{recorder.device}'", err=True)
    write_up(listener, folder, options, [one.name for one in careful], out)
    return listener


class _OwnVoice:
    """Tells the listener when saycheck itself was heard, in seconds of the recording."""

    def __init__(self, listener: Listener, recorder: Recorder) -> None:
        self._listener = listener
        self._recorder = recorder
        self._since_s = 0.0

    def playing(self, begins: bool, text: str) -> None:
        """Take note that a text begins, or has ended, to sound."""
        now_s = self._recorder.kept / SAMPLE_RATE
        if begins:
            self._since_s = self._listener.own_voice_begins(now_s, text)
        else:
            self._listener.own_voice(self._since_s, now_s + OWN_VOICE_RINGS_S, text)


class _Watch:
    """Looks at the recorder and makes known what it had to leave out."""

    def __init__(self, listener: Listener, recorder: Recorder) -> None:
        self._listener = listener
        self._recorder = recorder
        self._gone, self._overruns, self._lost_s = 0, 0, 0.0

    def look(self) -> None:
        """Tell what is new."""
        recorder, at_s = self._recorder, self._recorder.kept / SAMPLE_RATE
        if recorder.times_gone > self._gone:
            self._listener.gap(at_s, "the microphone was gone")
        if recorder.overruns > self._overruns:
            self._listener.gap(at_s, "the sound card dropped some sound")
        if recorder.lost_s > self._lost_s:
            self._listener.gap(at_s, f"{recorder.lost_s - self._lost_s:.1f} s of sound found no room")
        self._gone, self._overruns, self._lost_s = recorder.times_gone, recorder.overruns, recorder.lost_s


def _shown(_: str) -> None:
    """What cannot be said aloud stands on the screen already."""


def _until_done(listener: Listener, recorder: Recorder, console: Console) -> None:
    """Show what is heard until the walk is over and all of it has been heard."""
    stopping = False
    watch = _Watch(listener, recorder)
    with Live(console=console, screen=console.is_terminal, auto_refresh=False, transient=True) as live:
        while not (listener.over and recorder.ended):
            try:
                listener.turn(recorder.kept / SAMPLE_RATE)
                watch.look()
                if listener.failed is not None:
                    recorder.stop()
                    raise listener.failed.error
                view = listener.view
                view.trouble = recorder.trouble or view.trouble
                view.ending = stopping
                if console.is_terminal:
                    live.update(page(view, console), refresh=True)
                if (listener.done or recorder.ended) and not stopping:
                    stopping = True
                    recorder.stop()
                time.sleep(TURN_S)
            except KeyboardInterrupt:
                if stopping:
                    raise
                stopping = True
                recorder.stop()
        listener.turn(recorder.kept / SAMPLE_RATE)


def write_up(
    listener: Listener, folder: ListeningFolder, options: Options, ears: list[str], out: Path
) -> None:
    """Write the walk folder and show it."""
    kind = listener.vocabulary.kind
    asked = Asked(
        kind,
        options.unit,
        options.hours,
        options.ears,
        options.model,
        walked=folder.session().started[:16],
        again=questions_from_earlier(options.unit, kind, partial(typer.echo, err=True)),
    )
    walk = finish(listener, folder, asked, options.lead, ears, out)
    show(walk)
    typer.echo(f"the walk is in {out}: {summary(walk)}", err=True)


def _tell_of_unfinished(base: Path, console: Console) -> None:
    for folder in unfinished(base)[:1]:
        session = folder.session()
        console.print(
            f"a walk of {length(folder.seconds)} from {session.started.replace('T', ' ')} was not finished; "
            f"`saycheck listen --resume` writes it up",
            markup=False, highlight=False, soft_wrap=True,
        )  # fmt: skip
