"""The option that lets the ears learn from the shop's own narrations, for every command that hears."""

import os
from pathlib import Path
from typing import Annotated

import typer

LEARN_FROM = "SAYCHECK_LEARN_FROM"

LearnFrom = Annotated[
    Path | None,
    typer.Option(
        "--learn-from",
        metavar="FOLDER",
        help="Your own narrations (.txt, labelled .json, reviewed walks), which the ears learn from; else "
        "SAYCHECK_LEARN_FROM, else the key learn_from of config.toml.",
    ),
]


DEAF = ("plain", "vosk")
"""Ears that hear with a model that is as it is; beside one of them the trade ear still learns."""


def learn(given: Path | None, ear: str, hears: bool = True) -> None:
    """Let the ears of this run, and of all that it starts, learn from a folder, and say what they learn.

    ``given`` is what ``--learn-from`` names, None for what was chosen once and for all, which counts only where
    the command ``hears`` and its ``ear`` can learn. Raises SaycheckError as ``own_narrations`` and where the ear
    cannot learn.
    """
    if given is not None and ear in DEAF:
        from saycheck.errors import EarError

        raise EarError(f"the {ear} ear learns nothing; leave out --learn-from, or say --ear both")
    folder = given or (_chosen() if hears and ear not in DEAF else None)
    if folder is None:
        return
    from saycheck.hearing.language.learned import choose, keep
    from saycheck.learning import own_narrations

    own = own_narrations(folder.expanduser())
    choose(keep(own.texts))
    typer.echo(_told(folder, own.narrations, own.walks, own.unreviewed), err=True)


def _chosen() -> Path | None:
    from saycheck.vocabulary.chosen import configured

    named = os.environ.get(LEARN_FROM, "").strip()
    return Path(named) if named else configured("learn_from")


def _told(folder: Path, narrations: int, walks: int, unreviewed: int) -> str:
    sources = [_counted(narrations, "narration"), _counted(walks, "reviewed walk")]
    told = f"the ears learn from {' and '.join(filter(None, sources))} in '{folder}'"
    return f"{told}; {_counted(unreviewed, 'walk')} not reviewed through left out" if unreviewed else told


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'s' if count > 1 else ''}" if count else ""
