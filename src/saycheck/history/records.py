"""What the history takes from one walk: small, flat, and all that its answers need.

The small ones are named tuples, since there are many of them and they are rows of the index as they stand.
"""

from dataclasses import dataclass
from typing import NamedTuple

BAD = frozenset(["watch", "writeup"])
"""States of a finding that want something from the owner."""
WORST_FIRST = ("writeup", "watch")


class Said(NamedTuple):
    """One thing said of one line of the checklist; a finding that reaches several lines makes several.

    ``line`` and ``side`` name the line, ``part`` what was named on it. ``flagged`` is true where nobody has
    yet looked at a finding that needed it. ``words`` are those it came from.
    """

    zone: str
    line: str
    side: str
    part: str
    condition: str
    state: str
    denied: bool = False
    flagged: bool = False
    words: str = ""


class Measured(NamedTuple):
    """One number said of one line, as said and in SI; ``attribute`` is empty where it was not told.

    ``renewed`` says why a new series begins with it ("part replaced"), empty where it goes on.
    """

    line: str
    side: str
    part: str
    attribute: str
    value: float
    unit: str
    plus_minus: float
    value_si: float
    unit_si: str
    judged: str = ""
    renewed: str = ""


class Decided(NamedTuple):
    """What the owner decided about a finding: ``now``, ``later`` or ``never``, by whom, on which day."""

    part: str
    side: str
    condition: str
    choice: str
    who: str = ""
    day: str = ""
    due: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Walked:
    """One walk. ``when`` is the local time it was walked, ISO 8601, to the minute or only the day.

    ``hours`` is the hour-meter reading in h. ``questions`` counts those asked when it was heard, ``answered``
    those answered since, ``edits`` what people did to it, ``unreviewed`` the findings that still need a look.
    """

    walk_id: str
    folder: str
    kind: str
    unit: str | None
    hours: float | None
    when: str
    questions: int = 0
    answered: int = 0
    edits: int = 0
    unreviewed: int = 0
    said: tuple[Said, ...] = ()
    measured: tuple[Measured, ...] = ()
    decided: tuple[Decided, ...] = ()

    @property
    def day(self) -> str:
        """The day of the walk, ``2025-03-09``."""
        return self.when[:10]
