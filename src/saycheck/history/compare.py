"""A walk against the one before: better, worse, new, back, gone, and what nobody looked at again."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from saycheck.history.troubles import Trouble

Change = Literal["worse", "new", "back", "same", "better", "gone", "not looked at"]
ORDER: tuple[Change, ...] = ("worse", "back", "new", "not looked at", "same", "better", "gone")
"""What wants attention first stands first."""

_WEIGHT = {"watch": 1, "writeup": 2}


@dataclass(frozen=True)
class Changed:
    """One trouble and what the last walk made of it; ``was`` is its state before, None where it is new."""

    change: Change
    trouble: Trouble
    was: str | None = None


def compared(troubles: Sequence[Trouble], last: int) -> list[Changed]:
    """What the walk at place ``last`` changed, what wants attention first; nothing of what ended before it."""
    found = [one for trouble in troubles if (one := _changed(trouble, last))]
    return sorted(found, key=lambda one: (ORDER.index(one.change), one.trouble.opened))


def _changed(trouble: Trouble, last: int) -> Changed | None:
    if trouble.opened > last or (trouble.closed is not None and trouble.closed < last):
        return None
    before = [place for place in trouble.states if place < last]
    was = trouble.states[max(before)] if before else None
    if trouble.opened == last:
        return Changed("back" if trouble.spell > 1 else "new", trouble)
    if trouble.closed == last:
        return Changed("gone", trouble, was)
    if last not in trouble.states:
        return Changed("not looked at", trouble, was)
    by = _WEIGHT[trouble.states[last]] - _WEIGHT[was or "watch"]
    return Changed("worse" if by > 0 else "better" if by < 0 else "same", trouble, was)
