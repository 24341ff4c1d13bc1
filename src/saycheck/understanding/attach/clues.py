"""Parts of one name told apart by what is said of them: "belt clicks in" is the seat belt, "hydraulic tank
is on the mark" is the oil in it. Common practice, no source.
"""

from dataclasses import dataclass, replace

from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.parts import PartName
from saycheck.understanding.text import Mention

# How far behind a part its clue may stand, in words; never behind the next part.
REACH = 9


@dataclass(frozen=True)
class Clue:
    """``named`` (folded words) is ``meant`` where one of ``said`` follows, or the talk is of ``beside``."""

    named: frozenset[tuple[str, ...]]
    meant: tuple[str, ...]
    said: frozenset[str]
    beside: frozenset[str] = frozenset()


def _names(text: str) -> frozenset[tuple[str, ...]]:
    return frozenset(tuple(name.split()) for name in text.split(", "))


LEVELS = frozenset(
    "level levels glass gauge mark marks full half low dip dips dipped dipstick stick minimum maximum min max litre"
    " litres liter liters quart quarts topped topping top".split()
)
CLUES = (
    Clue(
        _names("belt"),
        ("seat", "belt"),
        frozenset(
            "click clicks clicking clip clips latch latches latching buckle buckles webbing retract retracts"
            " retracting stitching stitched lap anchor work works working".split()
        ),
        frozenset(["seat", "seat belt", "steering wheel", "armrest", "horn"]),
    ),
    Clue(_names("hydraulic tank, hydraulic, hydraulics"), ("hydraulic", "oil"), LEVELS),
    Clue(
        _names("transmission, tran, trans, gearbox"),
        ("transmission", "oil"),
        LEVELS | frozenset(["hot", "warm"]),
    ),
)


def by_what_is_said(walk: Walk, name: PartName, event: Mention) -> PartName:
    """The name of the part that is meant; the name as it is where nothing tells otherwise."""
    clue = next((c for c in CLUES if name.words in c.named), None)
    if clue is None:
        return name
    ends = [m.start for m in walk.now.events if m.kind == "part" and m.start >= event.end]
    behind = walk.words[event.end : min([event.end + REACH, walk.now.end, *ends])]
    near = walk.focus.part.name if walk.focus else ""
    if clue.said & set(behind) or any(near.startswith(word) for word in clue.beside):
        return replace(name, words=clue.meant, head=clue.meant)
    return name
