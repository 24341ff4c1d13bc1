"""What is said again: "ditto over here", "same on the other side"."""

from collections.abc import Sequence
from dataclasses import replace

from saycheck.understanding.attach.sides import side_in
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.place import OTHER
from saycheck.understanding.statements import Statement, Subject
from saycheck.understanding.text import Mention

# How many sentences back what is said of another part is still meant.
JUST_NOW = 2
REPEATED_MARKS = frozenset(["hidden", "later", "keep-an-eye", "needs-work"])


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
        repeat_on_side(walk, sources, event)


def source_for(subject: Subject, sources: Sequence[Statement]) -> Statement:
    """What was last said of the same part, else of one like it, else of anything."""
    part = subject.part
    same = [s for s in sources if part.part and s.subject.part.part is part.part]
    like = [s for s in sources if s.subject.part.family == part.family]
    return (same or like or sources)[-1]


def says(statement: Statement) -> bool:
    """Whether it says something that can be said again."""
    return bool(statement.claims or statement.quantities or statement.marks & REPEATED_MARKS)


def repeat_on_side(walk: Walk, sources: list[Statement], event: Mention) -> None:
    """All that was just said of one part, again on the side named here or on its other side."""
    last = sources[-1]
    side = side_in(walk, walk.now.start, walk.now.end)
    side = side or OTHER.get(last.subject.side or "", walk.where.side)
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
    statement = walk.now.about(subject)
    statement.claims = list(source.claims)
    statement.copied_from = source
    statement.marks |= {"same"} | (source.marks & REPEATED_MARKS)
    statement.stretch(event.start, event.end)
