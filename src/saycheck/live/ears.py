"""The ears that listen to a live walk, each in its process: a quick one, one for commands, and those of hear."""

import os
from collections.abc import Sequence
from contextlib import suppress
from functools import partial

from saycheck.hearing.command_ear import CommandEar
from saycheck.hearing.command_ear import Saying as Heard
from saycheck.hearing.ear import Ear
from saycheck.hearing.side_by_side import EarProcess
from saycheck.live.commands import Saying
from saycheck.vocabulary.load import load

BEHIND = 19
"""How much more patient the careful ears are with the processor (nice), so that the quick ones go first."""


def quick_ears(
    kind: str, lead: Sequence[str], known: Sequence[Saying], shown: bool = True
) -> list[EarProcess]:
    """A general ear for what is ``shown`` at once, then the ear for commands."""
    commands = EarProcess("commands", partial(_open_commands, tuple(lead), tuple(known)))
    general = EarProcess("quick", partial(_open_quick, kind))
    return [general, commands] if shown else [commands]


def give_way(ears: Sequence[EarProcess]) -> None:
    """Let running ears be patient, so that the quick ones go first."""
    for ear in ears:
        if ear.pid is not None:
            with suppress(OSError, AttributeError):  # Windows knows no such thing
                now = os.getpriority(os.PRIO_PROCESS, ear.pid)
                os.setpriority(os.PRIO_PROCESS, ear.pid, min(now + BEHIND, 19))


def _open_quick(kind: str) -> Ear:
    """The built-in ear; what was said before is no help to utterances (87 of them in four voices: word error
    0.102 with it, 0.100 without) and a quarter of the work."""
    from saycheck.hearing.builtin_ear import biased_ear

    return biased_ear(load(kind), remembers=False)


def _open_commands(lead: tuple[str, ...], known: tuple[Saying, ...]) -> Ear:
    return CommandEar(lead, [Heard(one.words, one.goes_on) for one in known])
