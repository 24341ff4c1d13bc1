"""What the owner decided, as it stands in the walk folder."""

import json
import re
from pathlib import Path

from saycheck.errors import WalkError
from saycheck.history.names import storable
from saycheck.history.records import Decided

DECISIONS = "decisions.jsonl"
_DAY = re.compile(r"\b\d{4}-\d\d-\d\d\b")


def decided(folder: Path) -> tuple[Decided, ...]:
    """The decisions in a walk folder that count, none where there are none.

    The last one about a finding counts; a last line that was never written whole does not. A day in the
    note ("when the parts are here, by 2025-04-01") is the day until which it is put off.

    Raises:
        WalkError: a line is damaged or cannot be read.
    """
    path = folder / DECISIONS
    if not path.exists():
        return ()
    try:
        lines = path.read_bytes().split(b"\n")
    except OSError as error:
        raise WalkError(f"'{path}' cannot be read ({error.strerror}); check who may read it") from error
    last: dict[str, Decided | None] = {}
    for number, line in enumerate(lines, 1):
        if not line.strip():
            continue
        try:
            given = json.loads(line)
            last[str(given["finding"])] = _decided(given) if given["choice"] else None
        except (ValueError, KeyError, TypeError) as error:
            if number < len(lines):
                raise WalkError(
                    f"line {number} of '{path}' is damaged; put it right or take it out, the other lines are whole"
                ) from error
    return tuple(one for one in last.values() if one)


def _decided(given: dict[str, object]) -> Decided:
    def text(name: str) -> str:
        return storable(str(given.get(name) or ""))

    day = _DAY.search(text("note"))
    return Decided(
        part=text("part"),
        side=text("side") or "none",
        condition=text("condition"),
        choice=text("choice"),
        who=text("who"),
        day=text("at")[:10],
        due=day.group() if day else "",
        note=text("note"),
    )
