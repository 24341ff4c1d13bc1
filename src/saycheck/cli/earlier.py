"""What a hearing takes from earlier walks: when it was walked, and what they leave to be asked."""

import os
from collections.abc import Callable, Sequence

from saycheck.models.walk import Question, Walk


def walked_when(given: str | None) -> str | None:
    """The day, or day and minute, that was given, as ISO 8601; None where none was.

    Raises:
        WalkError: it is neither.
    """
    from datetime import datetime

    from saycheck.errors import WalkError

    if given is None:
        return None
    try:
        when = datetime.fromisoformat(given)
    except ValueError as error:
        raise WalkError(
            f"'{given}' is no day; write when it was walked like 2025-03-09 or 2025-03-09T07:40"
        ) from error
    day = when.date().isoformat()
    return day if len(given) <= len(day) else when.isoformat(timespec="minutes")


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
