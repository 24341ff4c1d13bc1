"""``saycheck doctor``: is everything here that hearing needs?"""

import sys
from collections.abc import Callable
from typing import Annotated

import typer

from saycheck.cli import checkup
from saycheck.cli.checkup import SparedError

LITTLE_GB = 1.0
"""Free space below which one is told; an hour of sound and the kept language models need less."""

MACHINE = "wheel-loader"
"""The machine kind that the ears are tried with."""


def doctor(
    quick: Annotated[
        bool, typer.Option("--quick", help="Do not load the ears or listen, which takes seconds.")
    ] = False,
) -> None:
    """Look whether everything that hearing needs is here, and say what to do where it is not."""
    wrong = 0
    for name, look in (CHECKS if quick else CHECKS | EARS | LIVE).items():
        try:
            word, found = "ok", look()
        except SparedError as reason:
            word, found = "without", str(reason)
        except Exception as error:  # whatever a broken installation throws is what is to be told
            word, found = "wrong", str(error) or type(error).__name__
            wrong += 1
        typer.echo(f"{word:>7}  {name}: {found}")
    if wrong:
        raise typer.Exit(2)


def _python() -> str:
    return f"{sys.version.split()[0]} ({sys.executable})"


def _packages() -> str:
    from importlib.metadata import PackageNotFoundError, requires, version

    from packaging.requirements import Requirement

    from saycheck.errors import SaycheckError

    try:
        lines = requires("saycheck") or []
    except PackageNotFoundError:
        raise SparedError(
            "saycheck runs from its source, not installed: what it needs is not listed"
        ) from None
    needed = [Requirement(line) for line in lines]
    needed = [one for one in needed if one.marker is None or one.marker.evaluate({"extra": ""})]
    unfit = []
    for one in needed:
        try:
            if not one.specifier.contains(version(one.name), prereleases=True):
                unfit.append(f"{one} (here is {version(one.name)})")
        except PackageNotFoundError:
            unfit.append(f"{one} (missing)")
    if unfit:
        raise SaycheckError(f"{', '.join(unfit)}; install saycheck again with pip")
    return f"all {len(needed)} are here"


def _vocabulary() -> str:
    from saycheck.vocabulary.load import kinds, load

    names = kinds()
    for kind in names:
        load(kind)
    return f"{len(names)} machine kinds"


def _cache() -> str:
    import tempfile

    from platformdirs import user_cache_path

    folder = user_cache_path("saycheck")
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryFile(dir=folder):
        return f"{folder} can be written to"


def _space() -> str:
    import shutil

    from saycheck.errors import SaycheckError

    free = shutil.disk_usage(".").free / 1e9
    if free < LITTLE_GB:
        raise SaycheckError(
            f"only {free:.1f} GB are free in this folder; make room before hearing a long walk"
        )
    return f"{free:.1f} GB are free in this folder"


def _vosk() -> str:
    from saycheck.hearing.vosk_folder import CONTAINS, VARIABLE, checked, home, named

    folder = named(None)
    if folder is None:
        raise SparedError(
            f"no model folder, so the built-in ear hears; to use one, put it at {home()} or name it with "
            f"--model or {VARIABLE}; {CONTAINS}"
        )
    return f"the model folder {checked(folder)} looks whole"


def _ear(name: str) -> Callable[[], str]:
    def load() -> str:
        from saycheck.hearing.choose import open_ear

        open_ear(name, MACHINE)
        return f"loads, and knows the words of a {MACHINE}" if name != "plain" else "loads"

    return load


CHECKS: dict[str, Callable[[], str]] = {
    "python": _python,
    "packages": _packages,
    "vocabulary": _vocabulary,
    "cache folder": _cache,
    "disk": _space,
    "vosk": _vosk,
    "microphone": checkup.microphone,
}

EARS = {f"{name} ear": _ear(name) for name in ("builtin", "plain", "trade")}

LIVE: dict[str, Callable[[], str]] = {"level": checkup.level, "voice": checkup.voice, "speed": checkup.speed}
