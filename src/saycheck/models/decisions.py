"""What the owner decides about a finding: the lines of ``decisions.jsonl``."""

from collections.abc import Iterable
from typing import Literal

from saycheck.models.base import Model
from saycheck.models.walk import Finding, Side

Choice = Literal["now", "later", "never"]

CHOICE_WORDS: dict[str, str] = {"now": "now", "later": "later", "never": "not at all"}
"""Each choice as it is shown."""


class Decision(Model):
    """One choice of one person about one finding; one line of ``decisions.jsonl``, only ever added to.

    ``at`` is ISO 8601 in UTC. Of several lines about one finding the last counts; ``choice`` None takes the
    earlier one back. ``zone``, ``part``, ``side`` and ``condition`` are those of the finding as it stood
    then, so that a history of the unit needs nothing else.
    """

    at: str
    who: str
    finding: str
    choice: Choice | None
    note: str = ""
    zone: str
    part: str
    side: Side = "none"
    condition: str = ""


def standing_decisions(decisions: Iterable[Decision]) -> dict[str, Decision]:
    """The choice that counts for each finding, by finding id; those taken back are left out."""
    last = {one.finding: one for one in decisions}
    return {name: one for name, one in last.items() if one.choice is not None}


def decision_of(finding: Finding, decisions: Iterable[Decision]) -> Decision | None:
    """The choice that counts for a finding, None where there is none.

    Ids can change when a recording is heard again; a choice of that id counts only while it is about the
    same part on the same side, and one about the same part, side and condition is found under another id.
    """
    standing = standing_decisions(decisions)
    one = standing.get(finding.id)
    if one is not None and (one.part, one.side) == (finding.part, finding.side):
        return one
    told = (finding.zone, finding.part, finding.side, finding.condition)
    alike = [each for each in standing.values() if (each.zone, each.part, each.side, each.condition) == told]
    return alike[-1] if alike else None
