"""Says something of every part of the group at hand: a condition, a mark or a number."""

from collections.abc import Iterable

from saycheck.understanding.attach.how_many import first_count
from saycheck.understanding.attach.links import POINTS_ANEW
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.conditions import Said
from saycheck.understanding.denial import denied
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.statements import Claim, Statement, Subject
from saycheck.understanding.text import Mention

# How far behind trouble its verdict stands, in words, and what points at something else between them.
VERDICT_REACH = 7
POINTS_ELSEWHERE = POINTS_ANEW | frozenset(["one", "ones", "other", "others"])


def say(walk: Walk, events: Iterable[Mention]) -> None:
    """Give conditions, marks and numbers to the group, in this order of events."""
    for event in events:
        if event.kind == "quantity":
            say_number(walk, event)
        elif event.kind == "condition":
            say_condition(walk, event)
        else:
            say_mark(walk, event)


def say_condition(walk: Walk, event: Mention) -> None:
    """The condition of every part of the group; what goes on in another vein is a new statement."""
    now = walk.now
    for subject in now.group:
        claim = claim_of(walk, event, subject)
        statement = now.current(subject)
        if statement is None or (statement.claims and not agrees(walk, statement, claim)):
            statement = now.new(subject)
        statement.claims.append(claim)
        take_amounts(walk, statement, event)
        statement.count = (
            statement.count or now.count or subject.count or first_count(walk.reading, event, now.start)
        )
        statement.stretch(event.start, event.end)
    now.open, now.count = False, None


def take_amounts(walk: Walk, statement: Statement, event: Mention) -> None:
    """What is measured within the words of a condition: "down a quart"."""
    for mention in walk.reading.inside("quantity", event.start, event.end):
        known = any(mention is kept for _, kept in statement.quantities)
        if mention.value.unit is not None and not known:
            statement.quantities.append((mention.value, mention))


def claim_of(walk: Walk, event: Mention, subject: Subject) -> Claim:
    """The condition with how it was said of a subject; the last word of degree beside it counts."""
    degree = None
    for kind in ("slight", "strong"):
        for mention in walk.reading.of(kind):
            near = 0 <= event.start - mention.end <= 1 or mention.start == event.end
            if near and not (event.start <= mention.start and mention.end <= event.end):
                degree = kind
    cue = denied(walk.reading, event, walk.now.events)
    return Claim(meant_of(walk, event.value, subject), event, cue is not None, degree)


def meant_of(walk: Walk, said: Said, subject: Subject) -> Said:
    """What a condition means of this part: some words mean another thing of parts of which one check is made."""
    narrow = said.narrowed
    checks = walk.rules.resolver.checks_of(subject.part)
    return narrow if narrow and set(narrow.condition.checks) & set(checks) else said


def agrees(walk: Walk, statement: Statement, claim: Claim) -> bool:
    """Whether a claim joins the statement so far: both say what is there, or both what is not.

    Trouble and its verdict are one finding, "a quart low, but that's fine", where they stand close and the second
    does not point anew: "if they run dry you're boring, but these have fresh grease".
    """
    last = statement.claims[-1]
    if last.denied != claim.denied:
        return False
    between = walk.words[last.mention.end : claim.mention.start]
    near = len(between) <= VERDICT_REACH and not POINTS_ELSEWHERE & set(between)
    return near or last.said.condition.form == claim.said.condition.form


def say_presence(walk: Walk, mark: str, event: Mention) -> None:
    """A new statement for every part of the group that something is there ("has") or not ("absent")."""
    for subject in walk.now.group:
        statement = walk.now.new(subject)
        statement.marks.add(mark)
        statement.stretch(event.start, event.end)
    walk.now.open, walk.now.count = False, None


def say_mark(walk: Walk, event: Mention) -> None:
    """Mark what is said of every part of the group as hidden, later, to watch or to write up."""
    for subject in walk.now.group:
        statement = walk.now.about(subject)
        statement.marks.add(event.kind)
        statement.stretch(event.start, event.end)
    walk.now.open = False


def alike(one: Quantity, other: Quantity) -> bool:
    """Whether a number may stand in place of another: both measure the same, or one has no unit."""
    return None in (one.unit, other.unit) or one.quantity == other.quantity


def say_number(walk: Walk, event: Mention) -> None:
    """The number of every part of the group; behind a correction it takes the place of the last one."""
    correcting = walk.now.correcting
    for subject in walk.now.group:
        statement = walk.now.about(subject)
        last = statement.quantities[-1] if statement.quantities else None
        if correcting and last and last[1].end <= correcting.start and alike(last[0], event.value):
            _, old = statement.quantities.pop()
            walk.taken.append((old.start, old.end))
        statement.quantities.append((event.value, event))
        statement.stretch(event.start, event.end)
