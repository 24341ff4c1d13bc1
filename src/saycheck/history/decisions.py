"""What the owner decided, as it stands in the walk folder."""

import re
from pathlib import Path

from saycheck.decisions import DECISIONS, read
from saycheck.history.names import storable
from saycheck.history.records import Decided
from saycheck.models.decisions import standing_decisions

__all__ = ["DECISIONS", "decided"]

_DAY = re.compile(r"\b\d{4}-\d\d-\d\d\b")


def decided(folder: Path) -> tuple[Decided, ...]:
    """The decisions in a walk folder that count, none where there are none.

    A day in the note ("when the parts are here, by 2025-04-01") is the day until which it is put off.

    Raises:
        WalkError: a line is damaged or cannot be read.
    """
    if not (folder / DECISIONS).exists():
        return ()
    found = []
    for one in standing_decisions(read(folder)).values():
        day = _DAY.search(one.note)
        found.append(
            Decided(
                part=storable(one.part),
                side=one.side,
                condition=storable(one.condition),
                choice=one.choice or "",
                who=storable(one.who),
                day=one.at[:10],
                due=day.group() if day else "",
                note=storable(one.note),
            )
        )
    return tuple(found)
