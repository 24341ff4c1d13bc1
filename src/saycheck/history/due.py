"""When a trouble wants attention: by the owner's own day, else by how soon its check says.

``before work`` is the day of the walk in which it was last seen, ``this week`` seven days later; ``next
service`` has no day here, because nobody told when that is. Only what is to be written up is due; what is to
be watched is looked at on the next walk. The times are common practice, no source; they defer to the maker's
manual and local rules.
"""

from dataclasses import dataclass
from datetime import date, timedelta

WEEK = timedelta(days=7)
FOR_GOOD = "never"


@dataclass(frozen=True)
class Due:
    """The day on which something is due, None where no day can be named, and why."""

    day: str | None
    why: str


def due(
    state: str, urgency: str, seen: str, choice: str = "", decided_due: str = "", decided: str = ""
) -> Due:
    """When a trouble is due.

    ``urgency`` is that of its check, ``seen`` the day it was last seen (ISO 8601). ``choice`` is the owner's:
    ``now``, ``later`` or ``never``, made on the day ``decided``, with the day ``decided_due`` where one was named.
    """
    if choice == FOR_GOOD:
        return Due(None, "decided: not at all")
    if choice and _is_day(decided_due):
        return Due(decided_due, f"decided: {choice}")
    if choice == "now":
        return Due(decided or seen, "decided: now")
    if choice == "later":
        return Due(None, "decided: later, no day named")
    if state != "writeup":
        return Due(None, "next walk")
    if urgency == "before work":
        return Due(seen, urgency)
    if urgency == "this week" and _is_day(seen):
        return Due(_after_a_week(seen), urgency)
    return Due(None, urgency)


def _after_a_week(day: str) -> str | None:
    try:
        return (date.fromisoformat(day) + WEEK).isoformat()
    except OverflowError:  # a walk at the end of all calendars
        return None


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return len(text) == len("2025-03-09")
