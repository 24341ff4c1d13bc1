"""What a hearing takes from earlier walks: when it was walked, and what they leave to be asked."""

import os
from collections.abc import Callable, Sequence
from pathlib import Path

from saycheck.models.walk import Question, Walk


def walked_when(given: str | None, heard_before: Path | None = None) -> str | None:
    """The day, or day and minute, that was given, as ISO 8601; None where none was.

    A walk that is heard again (``heard_before``, its folder) was walked when it was walked, not today.

    Raises:
        WalkError: it is neither.
    """
    from datetime import datetime

    from saycheck.errors import WalkError

    if given is None:
        return _walked_before(heard_before) if heard_before else None
    try:
        when = datetime.fromisoformat(given)
    except ValueError as error:
        raise WalkError(
            f"'{given}' is no day; write when it was walked like 2025-03-09 or 2025-03-09T07:40"
        ) from error
    day = when.date().isoformat()
    return day if len(given) <= len(day) else when.isoformat(timespec="minutes")


def _walked_before(folder: Path) -> str | None:
    from saycheck import walkfolder
    from saycheck.errors import SaycheckError

    try:
        walk = walkfolder.read(folder)
    except SaycheckError:  # none, or one that is replaced because it is damaged
        return None
    return walk.walked_at or walk.id[:10]


def questions_from_earlier(
    unit: str | None, machine: str, note: Callable[[str], None]
) -> Callable[[Walk], Sequence[Question]]:
    """What asks about troubles that earlier walks of the unit left open; asks nothing where there are none.

    Earlier walks lie where ``SAYCHECK_WALKS`` says, else in ``walks/``.
    """
    from saycheck.walkfolder import walks_folder

    folder = walks_folder()
    if unit is None or not folder.is_dir():
        return _nothing
    from saycheck.history.again import asker
    from saycheck.vocabulary.load import load

    kind = load(machine).kind
    return asker(folder, unit, kind, os.environ.get("SAYCHECK_HISTORY"), note) or _nothing


def _nothing(_: Walk) -> Sequence[Question]:
    return ()
