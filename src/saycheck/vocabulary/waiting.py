"""What waiting would mean, in the words of ``vocab/shared/waiting.toml``: a sentence by check and condition."""

from collections.abc import Sequence
from pathlib import Path

from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Table


class Waiting(Table):
    """What is likely to come of leaving a fault, for some checks, some conditions, or both."""

    checks: list[str] = []
    conditions: list[str] = []
    text: str
    source: str = "common practice, no source"


class Waitings(Table):
    """The file ``shared/waiting.toml``."""

    waiting: list[Waiting] = []


def sentences(folders: Sequence[Path] = ()) -> list[Waiting]:
    """All of them; those of a folder on top come before the shipped ones."""
    layers = shared_tables("waiting.toml", Waitings, folders)
    return [one for layer in reversed(layers) for one in layer.waiting]


def waiting_for(checks: Sequence[str], condition: str, known: Sequence[Waiting]) -> Waiting | None:
    """The most particular sentence for a condition on one of the checks; None where there is none.

    Of equals that of the check named first counts. ``not works`` and the like, a good word denied, are
    looked up as ``inoperative``.
    """
    said = "inoperative" if condition.startswith("not ") else condition

    def rank(one: Waiting) -> tuple[bool, bool, int]:
        place = min((checks.index(name) for name in one.checks if name in checks), default=len(checks))
        return bool(one.checks), bool(one.conditions), -place

    fitting = [
        one
        for one in known
        if (not one.checks or set(checks) & set(one.checks))
        and (not one.conditions or said in one.conditions)
    ]
    return max(fitting, key=rank, default=None)
