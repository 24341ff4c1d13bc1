"""From a part as named to the subject of a statement: which part is meant, on which side, how many."""

from collections.abc import Sequence
from dataclasses import replace

from saycheck.understanding.attach.clues import by_what_is_said
from saycheck.understanding.attach.completed import completed
from saycheck.understanding.attach.how_many import one_at
from saycheck.understanding.attach.links import CLAUSE_MARKS, SMALL
from saycheck.understanding.attach.sides import note_side, side_for
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.parts import PartName
from saycheck.understanding.place import Where
from saycheck.understanding.statements import Subject
from saycheck.understanding.text import Mention

# A part named this well shows in which zone the walker is.
SURE_OF_PART = 0.9
# Words that name a part no surer than this do not change what is spoken of: "let me get the light".
SURE_OF_NAME = 0.8


def subject_of(walk: Walk, name: PartName, event: Mention, *, headed: bool = False) -> Subject:
    """The subject that ``name``, said at ``event``, means here and now; it becomes the focus.

    ``headed`` tells that the part before is only a heading for it.
    """
    name = completed(walk, by_what_is_said(walk, name, event), event)
    focus = walk.focus.part if walk.focus else None
    beside = focus if walk.focus_sentence == walk.now.number else None
    part = walk.rules.resolver(name, walk.where.zone, focus, beside, headed=headed)
    side, told = side_for(walk, name, part, event)
    zone = walk.where.zone
    if part.part:
        zone = walk.rules.resolver.zone_of(part.part, side, zone)
    elif walk.rules.resolver.is_place(part):
        zone = part.name
    part = replace(part, zone=zone)
    spoken = walk.reading.quote(event.start, event.end)
    subject = Subject(part, side, event.start, event.end, name.plural, told_side=told, spoken=spoken)
    subject.owner = owner_of(subject, walk.focus)
    subject.sure = sure_of(walk, event)
    if walk.now.count:
        subject.count, walk.now.count = walk.now.count, None
    else:
        subject.count = one_of(walk.words, event)
    if part.part and part.score >= SURE_OF_PART and not walk.where.told:
        walk.where = Where(zone, walk.where.side)
    if told:
        note_side(walk, side, part)
    walk.spoken.append(subject)
    if subject.sure >= SURE_OF_NAME or walk.focus is None or is_clause(walk, event):
        walk.remember(subject)
    return subject


def owner_of(subject: Subject, focus: Subject | None) -> str:
    """How the part that the subject is a component of was called when it was spoken of before; nothing elsewhere."""
    part = subject.part
    if focus is None or part.part is None or not part.component or focus.part.part is not part.part:
        return ""
    return focus.owner or ("" if focus.part.component else focus.spoken)


def is_clause(walk: Walk, event: Mention) -> bool:
    """Whether the name is all that its clause says: "Bonnet, dipstick. On the mark"."""
    words, first = walk.words, event.start
    while first > walk.now.start and words[first - 1] in SMALL:
        first -= 1
    begins = first == walk.now.start or words[first - 1] in CLAUSE_MARKS
    return begins and (event.end >= walk.now.end or words[event.end] in CLAUSE_MARKS)


def unnamed(subject: Subject) -> Subject:
    """The same subject where no token names it."""
    return replace(subject, start=-1, end=-1, carried=True)


def carried_on(subject: Subject) -> Subject:
    """The same subject in a later clause that does not name it: how many and which side is not told again."""
    return replace(unnamed(subject), count=None, told_side=False)


def sure_of(walk: Walk, event: Mention) -> float:
    """How sure it is that the words name a part here; 1 where nobody has said."""
    told: list[float] = walk.reading.data.get("names", [])
    return max(told[event.start : event.end], default=1.0)


def one_of(words: Sequence[str], event: Mention) -> tuple[int, Mention] | None:
    """ "One bolt", "one of the bolts": a count of one, unless "one" points at something."""
    start = event.start
    if list(words[max(0, start - 3) : start]) in (["one", "of", "the"], ["one", "of", "these"]):
        return one_at(words, start - 3)
    if words[start] == "one":
        return one_at(words, start)
    return one_at(words, start - 1) if start and words[start - 1] == "one" else None
