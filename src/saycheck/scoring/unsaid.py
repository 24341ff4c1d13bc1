"""Whether the checklist tells rightly what was never mentioned."""

from collections.abc import Iterable

from saycheck.models.walk import ChecklistLine
from saycheck.scoring.labels import Item

LISTED = 75
"""Token-set ratio in percent from which an unsaid checklist line is the part the labels name."""

SAME_LINE = 90
"""Token-sort ratio in percent from which a checklist line is the very part of a label."""


def listed(name: str, checklist: Iterable[ChecklistLine]) -> bool:
    """Whether a part that was never mentioned stands on the checklist as unsaid."""
    from rapidfuzz import fuzz

    return any(
        fuzz.token_set_ratio(name.lower(), f"{line.zone} {line.part}".lower().replace("-", " ")) >= LISTED
        for line in checklist
        if line.state == "unsaid"
    )


def falsely_unsaid(item: Item, checklist: Iterable[ChecklistLine]) -> bool:
    """Whether the checklist calls a part unsaid that this label shows was spoken of."""
    from rapidfuzz import fuzz

    return any(
        fuzz.token_sort_ratio(item.part.lower(), line.part.lower().replace("-", " ")) >= SAME_LINE
        for line in checklist
        if line.state == "unsaid" and line.side in (item.side, "none")
    )
