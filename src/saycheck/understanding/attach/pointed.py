"""Words that point back to a part spoken of before: "the left one", "both", "left front"."""

from dataclasses import replace

from saycheck.understanding.attach.carried import FOCUS_SENTENCES
from saycheck.understanding.attach.groups import start_group
from saycheck.understanding.attach.sides import both_stand_here, note_side, side_here, stands_aside
from saycheck.understanding.attach.subjects import subject_of
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.events import PLACED, Pointer
from saycheck.understanding.parts import PartName
from saycheck.understanding.place import OTHER
from saycheck.understanding.statements import Subject
from saycheck.understanding.text import Mention

# A part that is pointed at is a little less sure than a part that is named.
POINTING_COSTS = 0.95
# For how many sentences "top" by itself is the upper of what was spoken of.
JUST_NOW = 2
# For how many sentences "the right one" is that of which the left one was spoken of, whatever was named since.
PARTNER_SENTENCES = 3


def point_back(walk: Walk, event: Mention) -> None:
    """Speak of the part in focus again, or of a tyre named by its corner alone."""
    pointer: Pointer = event.value
    base = partner(walk, pointer) or walk.focus
    there = (
        walk.rules.resolver.at_end(base.part, pointer.ends, walk.where.zone)
        if base and pointer.ends
        else None
    )
    if pointer.bare and not is_near(walk, pointer, listed=there is not None):
        return
    if there is None and pointer.ends and (pointer.side or not base) and is_tyre_talk(walk, pointer, base):
        tyre = PartName((*pointer.ends, "tyre"), ("tyre",), pointer.side)
        start_group(walk, subject_of(walk, tyre, event))
        return
    if base is None:
        return
    side = side_pointed(walk, pointer, base, event)
    part = there or base.part
    zone = walk.rules.resolver.zone_of(part.part, side, walk.where.zone) if part.part else part.zone
    subject = Subject(
        replace(part, zone=zone, score=part.score * POINTING_COSTS),
        side,
        event.start,
        event.end,
        plural=side == "both",
        carried=True,
        told_side=True,
        spoken=which(walk, base, event) if pointer.ends else base.spoken,
    )
    if walk.now.open and base in walk.now.group and not walk.now.current(base):
        # "Three of the wheel nuts on the left front": it is still said of how many.
        subject.count = base.count
    start_group(walk, subject)
    walk.remember(subject)
    if pointer.side:
        note_side(walk, side, subject.part)


def side_pointed(walk: Walk, pointer: Pointer, base: Subject, event: Mention) -> str | None:
    """The side of what is pointed at: as told, by "this side", else as of ``base``.

    "Both" of those that were told, or stand, on one side are on that side; "the rear one" of no side is where the
    walker stands.
    """
    on_one_side = base.told_side or both_stand_here(walk, base.part)
    if pointer.side == "both" and base.plural and base.side in OTHER and on_one_side:
        return base.side
    if pointer.side:
        return pointer.side
    if pointer.other:
        return OTHER.get(base.side or "")
    here = side_here(walk, event.end)
    if here is None and walk.side.told and base.side not in OTHER and stands_aside(walk, base.part):
        here = walk.side.side
    return here or base.side


def partner(walk: Walk, pointer: Pointer) -> Subject | None:
    """ "Left one's creeping, that's the check valve. Right one's holding": the right one of what the left one is of.

    None where the part in focus has sides itself or nothing was told of the other side lately.
    """
    focus = walk.focus
    if pointer.ends or focus is None or has_sides(focus):
        return None
    wanted = (OTHER[pointer.side],) if pointer.side in OTHER else tuple(OTHER) if pointer.other else ()
    since = walk.reading.sentences[max(0, walk.now.number - PARTNER_SENTENCES)][0]
    said = [statement.subject for statement in (*walk.statements, *walk.now.made)]
    told = [s for s in (*walk.spoken, *said) if s.told_side and s.side in wanted and s.start >= since]
    return max(told, key=lambda s: s.start, default=None)


def has_sides(subject: Subject) -> bool:
    """Whether a part may itself be on either side: it is known to be, is several, or its side was told."""
    return subject.plural or subject.told_side or (subject.part.sided and not subject.part.component)


def is_near(walk: Walk, pointer: Pointer, listed: bool) -> bool:
    """Whether a bare end ("Front, half", "Top, some") can be one of the parts that were spoken of."""
    return walk.focus_ago <= (FOCUS_SENTENCES if listed else JUST_NOW) and (
        listed or pointer.ends[0] in PLACED
    )


def which(walk: Walk, base: Subject, event: Mention) -> str:
    """What the part is called of which one is pointed at: "Steps" and "bottom one" are "Steps, bottom one"."""
    name = base.spoken.partition(",")[0]
    return f"{name}, {walk.reading.quote(event.start, event.end)}" if name else name


def is_tyre_talk(walk: Walk, pointer: Pointer, base: Subject | None) -> bool:
    """Whether a corner by itself is a tyre: the talk is not of another part that has sides or is several."""
    if not set(pointer.ends) <= {"front", "rear"}:
        return False
    if base is None or "tyre" in base.part.name or "wheel" in base.part.name:
        return True
    return not base.part.sided and not is_heading(walk, base)


def is_heading(walk: Walk, base: Subject) -> bool:
    """Whether several things were just named of which a corner is one: "Lights. Left front is smashed"."""
    if walk.focus_ago > 1:
        return False
    named = base.start == walk.reading.sentences[walk.focus_sentence][0] and not base.carried
    told = any(s.subject.start == base.start and s.claims for s in walk.statements)
    return (named and base.plural and not told) or (base.carried and base.told_side and "," in base.spoken)
