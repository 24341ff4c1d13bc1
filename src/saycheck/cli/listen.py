"""``saycheck listen``: the same as ``hear``, live and hands-free."""

from typing import Annotated

import typer

from saycheck.cli.learning import LearnFrom
from saycheck.cli.options import Ear, Ears, Hours, Machine, Model, Out, Unit
from saycheck.cli.shop import Shop


def listen(
    machine: Machine = None,
    unit: Unit = None,
    _shop: Shop = None,
    learn_from: LearnFrom = None,
    hours: Hours = None,
    out: Out = None,
    ear: Ear = Ears.both,
    model: Model = None,
    microphone: Annotated[
        str | None,
        typer.Option(
            metavar="NAME", help="Which microphone: its number or words of its name, as doctor says."
        ),
    ] = None,
    lead: Annotated[
        str, typer.Option(metavar="WORD", help="The word that every command begins with.")
    ] = "recorder",
    tones: Annotated[bool, typer.Option(help="Short tones for heard, not understood, saved.")] = True,
    aloud: Annotated[bool, typer.Option(help="Say answers aloud; they are shown in any case.")] = True,
    zones_aloud: Annotated[
        bool, typer.Option("--zones-aloud", help="Say what is still open on leaving a zone.")
    ] = False,
    resume: Annotated[
        bool, typer.Option("--resume", help="Write up the newest walk that was not finished.")
    ] = False,
) -> None:
    """Listen to a walkaround as it is spoken; say "recorder, done" or press Ctrl-C at its end."""
    from saycheck.cli.learning import learn
    from saycheck.cli.listening import Options, listen_now
    from saycheck.cli.resuming import resume_newest

    learn(learn_from, ear.value)
    options = Options(
        machine, unit, hours, out, ear.value, model, microphone, lead, tones, aloud, zones_aloud
    )
    (resume_newest if resume else listen_now)(options)
