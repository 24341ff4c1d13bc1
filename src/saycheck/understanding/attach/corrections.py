"""Words that put right what was said: "scratch that", "no, make that forty", "no, the right one"."""

from dataclasses import replace
from itertools import pairwise

from saycheck.understanding.attach.subjects import unnamed
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Mention

# How many sentences back "scratch that" reaches.
TAKE_BACK_SENTENCES = 2
# The mark of a statement that was put on the other side.
PUT_RIGHT = "side-corrected"
# How far behind "no", in words, what it denies may end.
TROUBLE_REACH = 3


def take_back(walk: Walk, event: Mention) -> None:
    """ "Scratch that": the last statement no longer counts; what follows is about its part."""
    now = walk.now
    if now.made:
        last = now.made[-1]
    else:
        standing = [s for s in walk.statements if not s.taken_back]
        if not standing or now.number - standing[-1].sentence > TAKE_BACK_SENTENCES:
            return
        last = standing[-1]
    last.taken_back = walk.reading.quote(event.start, event.end)
    walk.remember(last.subject)
    now.group, now.open = [], False


def put_right(walk: Walk, event: Mention, last: Statement) -> bool:
    """Use a bare number after "no, make that" or "scratch that, call it", or for the other side.

    Returns whether the number, said in a sentence without a part, belongs to the statement ``last``.
    """
    if not last.quantities:
        return False
    old, place = last.quantities[-1]
    value: Quantity = event.value
    if value.unit is None:
        value = replace(value, unit=old.unit, quantity=old.quantity)
    elif old.unit is not None and old.quantity != value.quantity:
        return False
    if last.taken_back:
        walk.now.group = [last.subject]
        statement = walk.now.new(unnamed(last.subject))
        statement.claims = list(last.claims)
    elif walk.now.correcting:
        walk.taken.append((place.start, place.end))
        last.quantities[-1] = (value, event)
        return True
    elif walk.now.moved and last.subject.part.sided and walk.where.side:
        statement = walk.now.new(replace(unnamed(last.subject), side=walk.where.side))
    else:
        return False
    statement.quantities = [(value, event)]
    statement.stretch(event.start, event.end)
    return True


def only_denies(walk: Walk, event: Mention) -> bool:
    """Whether a bare "no" denies the trouble named behind it and puts nothing right: "forty psi, no cuts, ten mil"."""
    if walk.words[event.start : event.end] != ["no"]:
        return False
    behind = walk.reading.inside("condition", event.end, min(event.end + TROUBLE_REACH, walk.now.end))
    return any(m.value.condition.form == "fault" and m.value.form == "noun" for m in behind)


def move_side(walk: Walk) -> None:
    """ "Left one's wet, no, the right one": the statement goes to the other side."""
    subject = walk.now.group[-1]
    said = walk.now.made or walk.statements
    if said and subject.carried and subject.side and walk.now.number - said[-1].sentence <= 1:
        said[-1].subject.side = subject.side
        said[-1].marks.add(PUT_RIGHT)
        said[-1].stretch(subject.start, subject.end)


def take_back_corrected(walk: Walk) -> None:
    """ "Left one's leaking, no, the right one is leaking": what was said first no longer counts."""
    correcting = walk.now.correcting
    if correcting is None:
        return
    for before, after in pairwise(walk.now.made):
        same = (
            before.subject.part.name == after.subject.part.name and before.subject.side != after.subject.side
        )
        between = before.end <= correcting.start and correcting.end <= after.start
        if same and between and conditions(before) & conditions(after):
            before.taken_back = walk.reading.quote(correcting.start, correcting.end)


def conditions(statement: Statement) -> set[tuple[str, bool]]:
    """What is said of the part, and whether it is denied."""
    return {(claim.said.condition.name, bool(claim.denied)) for claim in statement.claims}
