"""Which ears listen: what ``--ear`` chooses, each opened in its own process."""

import os
from functools import partial
from pathlib import Path

from saycheck.errors import EarError
from saycheck.hearing.ear import Ear
from saycheck.hearing.language.model import trade_language
from saycheck.hearing.side_by_side import EarProcess
from saycheck.hearing.vosk_folder import checked, home, named
from saycheck.vocabulary.load import load

MOST_THREADS = 2
"""Threads for an ear that hears alone."""

CHOICES = ("both", "builtin", "plain", "trade", "vosk")


def chosen(choice: str, kind: str, model: Path | None = None) -> list[EarProcess]:
    """The ears of a choice for a machine kind, the general one first.

    ``both`` is a general ear and the trade ear. The general ear is Vosk where a ``model`` folder is given
    or configured, else the built-in one.

    Raises:
        EarError: the choice is unknown, or a Vosk model is wanted and there is no usable one.
    """
    if choice not in CHOICES:
        raise EarError(f"there is no ear '{choice}'; choose one of {', '.join(CHOICES)}")
    if choice in ("both", "vosk"):
        folder = named(model)
        if folder is not None or choice == "vosk":
            model = checked(folder or home())
    elif model is not None:
        raise EarError(f"the {choice} ear takes no model folder; leave out --model, or say --ear vosk")
    names = {"both": ["vosk" if model else "builtin", "trade"]}.get(choice, [choice])
    if {"builtin", "trade"} & set(names):
        trade_language(load(kind))  # made once, before two ears would make it side by side
    threads = 1 if len(names) > 1 else min(os.cpu_count() or 1, MOST_THREADS)
    return [EarProcess(name, partial(open_ear, name, kind, model, threads)) for name in names]


def open_ear(name: str, kind: str, model: Path | None = None, threads: int = 1) -> Ear:
    """Build an ear, here and now; takes a second or more. ``threads`` is for the ear that can use several."""
    match name:
        case "builtin":
            from saycheck.hearing.builtin_ear import biased_ear

            return biased_ear(load(kind), threads=threads)
        case "plain":
            from saycheck.hearing.builtin_ear import PlainBuiltinEar

            return PlainBuiltinEar()
        case "trade":
            from saycheck.hearing.trade_ear import TradeEar

            return TradeEar.for_machine(load(kind))
        case "vosk":
            from saycheck.hearing.vosk_ear import VoskEar

            return VoskEar(model or home())
    raise EarError(f"there is no ear '{name}'; choose one of {', '.join(CHOICES)}")
