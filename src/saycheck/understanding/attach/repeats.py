"""What is said again: "ditto over here", "same on the other side"."""

from collections.abc import Sequence
from dataclasses import replace

from saycheck.understanding.attach.links import CLAUSE_MARKS, only_small
from saycheck.understanding.attach.sides import side_in
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.place import OTHER
from saycheck.understanding.statements import Statement, Subject
from saycheck.understanding.text import Mention

# How many sentences back what is said of another part is still meant.
JUST_NOW = 2
# Within so many words behind "same" stands the side that it is said of: "and same on the right".
SIDE_REACH = 4
# What may stand between a part and "the same".
LINKING = frozenset("is 's are 're was just about pretty much exactly the , and a".split())
REPEATED_MARKS = frozenset(["hidden", "later", "keep-an-eye", "needs-work"])


def take_same(walk: Walk, event: Mention) -> None:
    """Take in words such as "the same": said again at once of a part that waits for it ("left is tight, right the
    same"), else when the sentence is over.
    """
    now = walk.now
    unsaid = now.open and not any(now.current(subject) for subject in now.group)
    if now.made and now.group and unsaid and just_before(walk, event):
        for subject in now.group:
            repeat_one(walk, now.made[-1], subject, event)
        now.open = False
    else:
        now.same = event


def just_before(walk: Walk, event: Mention) -> bool:
    """Whether no other than small words stand between the part in hand and "the same", and the clause ends with it."""
    after = walk.words[event.end : event.end + 1]
    between = walk.words[walk.now.group[-1].end : event.start]
    closes = not after or event.end >= walk.now.end or after[0] in CLAUSE_MARKS | {"and", "as"}
    return closes and all(word in LINKING for word in between)


def settle_same(walk: Walk) -> None:
    """What a sentence says with "the same", now that all of it is known."""
    now = walk.now
    if now.same is None:
        return
    said = [s for s in now.made if s.claims]
    if not said:
        repeat(walk, now.same)
    elif now.open and is_of_next(walk, now.same):
        for subject in now.group:
            repeat_one(walk, said[-1], subject, now.same)
        now.open = False
    elif all(s.end <= now.same.start for s in said) and not now.open:
        side = side_in(walk, now.same.end, min(now.same.end + SIDE_REACH, now.end))
        if side and side != said[-1].subject.side:
            repeat_on_side(walk, said, now.same, side)


def is_of_next(walk: Walk, event: Mention) -> bool:
    """Whether "the same" leads on to the part in hand: "horn doesn't work and neither does the beacon"."""
    now = walk.now
    first = now.group[0].start
    between = walk.words[event.end : first]
    told = all(s.end <= event.start for s in now.made)
    return told and event.end <= first <= event.end + SIDE_REACH and only_small(between)


def repeat(walk: Walk, event: Mention) -> None:
    """Say the last statements again, of the parts named in this sentence or of the other side."""
    sources = [s for s in walk.statements if not s.taken_back and says(s) and not s.copied_from]
    if not sources:
        return
    for subject in walk.now.group:
        source = source_for(subject, sources)
        if source.subject.part.family == subject.part.family or walk.now.number - source.sentence <= JUST_NOW:
            repeat_one(walk, source, subject, event)
    if not walk.now.group:
        side = side_in(walk, walk.now.start, walk.now.end)
        repeat_on_side(
            walk, sources, event, side or OTHER.get(sources[-1].subject.side or "", walk.where.side)
        )


def source_for(subject: Subject, sources: Sequence[Statement]) -> Statement:
    """What was last said of the same part, else of one like it, else of anything."""
    part = subject.part
    same = [s for s in sources if part.part and s.subject.part.part is part.part]
    like = [s for s in sources if s.subject.part.family == part.family]
    return (same or like or sources)[-1]


def says(statement: Statement) -> bool:
    """Whether it says something that can be said again."""
    return bool(statement.claims or statement.quantities or statement.marks & REPEATED_MARKS)


def repeat_on_side(walk: Walk, sources: list[Statement], event: Mention, side: str | None) -> None:
    """All that was just said of one part, again on ``side``."""
    last = sources[-1]
    for source in sources:
        part = source.subject.part
        if last.sentence - source.sentence > 1 or part.part is not last.subject.part.part:
            continue
        zone = walk.rules.resolver.zone_of(part.part, side, part.zone) if part.part else part.zone
        subject = Subject(
            replace(part, zone=zone, score=1.0),
            side,
            -1,
            -1,
            source.subject.plural,
            carried=True,
            spoken=source.subject.spoken,
        )
        repeat_one(walk, source, subject, event)


def repeat_one(walk: Walk, source: Statement, subject: Subject, event: Mention) -> None:
    """Say of the subject what ``source`` says of its own."""
    if subject.side is None and "here" in walk.words[event.start : event.end + 2]:
        subject.side = walk.side.side
    statement = walk.now.about(subject)
    statement.claims = list(source.claims)
    statement.copied_from = source
    statement.marks |= {"same"} | (source.marks & REPEATED_MARKS)
    statement.stretch(event.start, event.end)
