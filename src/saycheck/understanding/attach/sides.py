"""Which side a part is on: said with it, said around it, or where the walker stands."""

from collections.abc import Sequence

from saycheck.understanding.attach.walk import Walk, WalkerSide
from saycheck.understanding.parts import PartName
from saycheck.understanding.place import OTHER, is_comparison, is_side_word
from saycheck.understanding.resolve import Resolved
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Mention

# For how many sentences a side named with a part still tells where the walker stands.
SIDE_SENTENCES = 8
LEFT_OR_RIGHT = ("left", "right")
# What may stand between "this side" and its name.
NAMING = frozenset(", the i'm we're on that's so that 's".split())
# Where the walker stands.
HERE = (("this", "side"), ("over", "here"), ("this", "hand"))


def side_for(walk: Walk, name: PartName, part: Resolved, event: Mention) -> tuple[str | None, bool]:
    """The side of a part as it is named, and whether it was told with the part itself."""
    told = name.side or side_behind(walk.words, event.end) or side_here(walk, event.end)
    if told == "both" and both_stand_here(walk, part):
        return walk.where.side, True
    if told:
        return told, True
    if walk.rules.resolver.is_place(part):
        return None, False
    near = sentence_side(walk)
    if near and (part.sided or part.part is None or part.component):
        return near, False
    if part.component and walk.focus and walk.focus.part.part is part.part:
        return walk.focus.side, False
    if is_other(walk, event) and walk.focus and walk.focus.side in LEFT_OR_RIGHT:
        return OTHER[walk.focus.side], True
    if part.sided or part.part is None or part.component or (walk.side.told and stands_aside(walk, part)):
        side = walker_side(walk, name, part)
        if side:
            return side, False
    return ("both" if part.sided and name.plural else None), False


def both_stand_here(walk: Walk, part: Resolved) -> bool:
    """Whether "both tyres" are the front and the rear one: the walker has gone to one side, where they stand."""
    return walk.where.told and walk.where.side in LEFT_OR_RIGHT and stands_aside(walk, part)


def is_other(walk: Walk, event: Mention) -> bool:
    """Whether "the other" stands with the part: it is on the other side than the one before.

    "Front is the same as the other, back has a cut" only compares.
    """
    for at in range(max(0, event.start - 1), event.end):
        if walk.words[at] == "other":
            return not is_comparison(walk.words, at)
    return False


def side_here(walk: Walk, at: int) -> str | None:
    """The side meant by "this side", "over here" or "that side" from the token ``at`` on, a small word before it."""
    words = walk.words
    at += words[at : at + 1] in (["on"], ["down"], ["along"], ["up"], ["round"])
    if tuple(words[at : at + 2]) in HERE:
        return named_behind(words, at + 2) or walk.stood().side
    if words[at : at + 2] == ["that", "side"]:
        spoken_of = walk.focus.side if walk.focus else None
        return spoken_of if spoken_of in LEFT_OR_RIGHT else walk.stood().side
    return None


def named_behind(words: Sequence[str], at: int) -> str | None:
    """The side that is named at once behind "this side": "this side, the left", "this side, I'm on the right now"."""
    while at < len(words) and words[at] in NAMING:
        at += 1
    return is_side_word(words, at) if at < len(words) else None


def side_behind(words: Sequence[str], at: int) -> str | None:
    """A side right behind the part: "on the left", "left side", "both sides", "left hand"."""
    run = list(words[at : at + 5])
    if run[:1] and run[0] in ("on", "at", "to") and run[1:2] == ["the"] and at + 2 < len(words):
        return is_side_word(words, at + 2)
    if run[:2] in (["on", "both"], ["both", "sides"], ["each", "side"], ["either", "side"]):
        return "both"
    if run[:3] in (["on", "each", "side"], [",", "both", "sides"]):
        return "both"
    side = is_side_word(words, at) if at < len(words) else None
    return side if side and run[1:2] in (["side"], ["hand"]) else None


def sentence_side(walk: Walk) -> str | None:
    """The side told of an earlier part in this sentence."""
    told = (s.side for s in reversed(walk.now.group) if s.told_side and s.side in LEFT_OR_RIGHT)
    return next(told, None)


def walker_side(walk: Walk, name: PartName, part: Resolved) -> str | None:
    """The side the walker is on: as told, or as shown by a part named with its side not long ago."""
    if walk.side.told:
        return walk.side.side
    if walk.now.number - walk.side.sentence > SIDE_SENTENCES:
        return None
    if name.plural and not stands_aside(walk, part):
        return None
    return walk.side.side


def stands_aside(walk: Walk, part: Resolved) -> bool:
    """Whether the part stands in a zone that is on one side of the machine."""
    return part.part is not None and any(walk.rules.places.side_of[z] != "none" for z in part.part.zones)


def note_side(walk: Walk, side: str | None, part: Resolved) -> None:
    """Learn where the walker stands from a part told with its side; a told place gives way less easily."""
    if side not in LEFT_OR_RIGHT:
        return
    walk.named = WalkerSide(side, sentence=walk.now.number)
    if not walk.side.told or (side != walk.side.side and stands_aside(walk, part)):
        walk.side = WalkerSide(side, sentence=walk.now.number)


def side_in(walk: Walk, start: int, end: int) -> str | None:
    """The first side named between two tokens."""
    return next((s for i in range(start, end) if (s := is_side_word(walk.words, i))), None)


def take_side_around(walk: Walk, statement: Statement) -> None:
    """Take over a side named around the part: "in the left corner", "two gone on the right end", "nearside"."""
    subject = statement.subject
    if subject.told_side and subject.side:
        return
    others = [s for s in walk.now.made if s is not statement and s.subject is not subject]
    stop = min([walk.now.end, *(s.start for s in others if s.start >= statement.end)])
    begin = max([walk.now.start, *(s.end for s in others if s.end <= statement.start)])
    sides = {
        side
        for i in range(begin, stop)
        if (side := is_side_word(walk.words, i) or side_here(walk, i))
        and not is_comparison(walk.words, i)
        and not (i >= statement.end and is_told_of(walk.words, i))
    }
    if len(sides) == 1:
        subject.side, subject.told_side = sides.pop(), True
        note_side(walk, subject.side, subject.part)


def is_told_of(words: Sequence[str], at: int) -> bool:
    """Whether the side is what something else is said of: "the left side's where it should be", "right is dry"."""
    at += 1
    while words[at : at + 1] in (["hand"], ["side"], ["one"]):
        at += 1
    return words[at : at + 1] in (["'s"], ["is"], ["has"], ["are"], ["was"])
