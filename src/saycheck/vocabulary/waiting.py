"""What waiting would mean, in the words of ``vocab/shared/waiting.toml``: a sentence by check and condition."""

from collections.abc import Sequence
from pathlib import Path

from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Table


class Waiting(Table):
    """What is likely to come of leaving a fault, for some parts, some checks, some conditions, or all of these.

    ``parts`` are names of parts or shared parts, or of what is found on a part ("rod").
    """

    parts: list[str] = []
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


def waiting_for(
    checks: Sequence[str], condition: str, known: Sequence[Waiting], parts: Sequence[str] = ()
) -> Waiting | None:
    """The most particular sentence for a condition on one of the checks; None where there is none.

    ``parts`` are the names of what it was said of: as heard, of its line, of the shared part. A sentence for
    the part goes before one for the check, one for the name as heard first, a longer name before a shorter.
    Of equals that of the check named first counts. ``not works`` and the like, a good word denied, are
    looked up as ``inoperative``.
    """
    said = "inoperative" if condition.startswith("not ") else condition

    def of_part(one: Waiting) -> tuple[int, int] | None:
        fits = [
            (-place, len(name))
            for place, part in enumerate(parts)
            for name in one.parts
            if f" {part}".endswith(f" {name}")
        ]
        return max(fits, default=None)

    def rank(one: Waiting) -> tuple[bool, tuple[int, int], bool, bool, int]:
        place = min((checks.index(name) for name in one.checks if name in checks), default=len(checks))
        return bool(one.parts), of_part(one) or (0, 0), bool(one.checks), bool(one.conditions), -place

    fitting = [
        one
        for one in known
        if (not one.checks or set(checks) & set(one.checks))
        and (not one.conditions or said in one.conditions)
        and (not one.parts or of_part(one) is not None)
    ]
    return max(fitting, key=rank, default=None)
