"""``saycheck doctor``: is everything here that hearing needs?"""

import sys
from collections.abc import Callable

import typer


def doctor() -> None:
    """Look whether everything that hearing needs is here, and say what to do where it is not."""
    wrong = 0
    for name, look in CHECKS.items():
        try:
            found, well = look(), True
        except Exception as error:  # whatever a broken installation throws is what is to be told
            found, well = str(error) or type(error).__name__, False
            wrong += 1
        typer.echo(f"{'ok' if well else 'wrong':>6}  {name}: {found}")
    if wrong:
        raise typer.Exit(2)


def _python() -> str:
    return f"{sys.version.split()[0]}, {sys.executable}"


def _packages() -> str:
    from importlib.metadata import PackageNotFoundError, requires, version

    from packaging.requirements import Requirement

    from saycheck.errors import SaycheckError

    needed = [Requirement(line) for line in requires("saycheck") or []]
    here, missing = 0, []
    for one in needed:
        if one.marker and not one.marker.evaluate({"extra": ""}):
            continue
        try:
            fits = one.specifier.contains(version(one.name), prereleases=True)
        except PackageNotFoundError:
            fits = False
        if fits:
            here += 1
        else:
            missing.append(str(one))
    if missing:
        raise SaycheckError(f"missing or too old: {', '.join(missing)}; install saycheck again with pip")
    return f"all {here} are here"


def _vocabulary() -> str:
    from saycheck.vocabulary.load import kinds, load

    names = kinds()
    for kind in names:
        load(kind)
    return f"{len(names)} machine kinds"


CHECKS: dict[str, Callable[[], str]] = {
    "python": _python,
    "packages": _packages,
    "vocabulary": _vocabulary,
}
