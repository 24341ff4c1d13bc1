"""What has no part in its own sentence: it goes to the part last spoken of."""

from dataclasses import replace

from saycheck.understanding.attach.corrections import put_right
from saycheck.understanding.attach.deictic import FILLING
from saycheck.understanding.attach.marks import ORDERS, UNSEEN
from saycheck.understanding.attach.saying import claim_of, say
from saycheck.understanding.attach.subjects import carried_on
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.place import OTHER
from saycheck.understanding.statements import Statement, Subject
from saycheck.understanding.text import Mention

# What a sentence begins with that tells a number.
MEASURED = frozenset(
    "voltage pressure tread depth sag slack play wear gap thickness temperature level".split()
)
# For how many sentences a part stays the one that is spoken of.
FOCUS_SENTENCES = 3


def place_waiting(walk: Walk) -> None:
    """Give what still waits at the end of a sentence to its group, or to the part in focus."""
    waiting = [e for e in walk.now.waiting if e.kind not in ORDERS]
    walk.now.waiting = []
    if walk.now.group:
        say(walk, [e for e in waiting if e.kind in UNSEEN])
        say(walk, [e for e in waiting if e.kind not in UNSEEN])
    elif waiting:
        carry(walk, waiting)


def carry(walk: Walk, waiting: list[Mention]) -> None:
    """Give events of a sentence without a part to what was said before it."""
    last = just_said(walk)
    only_numbers = all(e.kind == "quantity" for e in waiting)
    if last and only_numbers and put_right(walk, waiting[-1], last):
        return
    # A bare number far from its part could be anything, unless the sentence is there to tell it.
    waiting = [e for e in waiting if e.kind != "quantity" or e.value.unit is not None or tells(walk, e)]
    if not waiting:
        return
    if last and only_numbers and not last.quantities and not last.taken_back:
        last.quantities += [(e.value, e) for e in waiting]
        return
    if last and not only_numbers and last.quantities and not last.claims and not last.taken_back:
        join(walk, last, waiting)
        return
    if walk.focus is None or walk.focus_ago > FOCUS_SENTENCES:
        walk.orphans += waiting
        return
    spoken_of = walk.last_group if walk.focus in walk.last_group else [walk.focus]
    walk.now.group = [carried_on(across(walk, s)) for s in spoken_of]
    say(walk, waiting)
    for statement in walk.now.made:
        statement.stretch(waiting[0].start, statement.end)


def across(walk: Walk, subject: Subject) -> Subject:
    """ "Other side's tight": the same part on the side that this sentence goes to."""
    side = walk.where.side
    return replace(subject, side=side) if walk.now.moved and {side, subject.side} <= set(OTHER) else subject


def tells(walk: Walk, number: Mention) -> bool:
    """Whether the sentence is there to tell a number: it begins with it ("Thirty. Plenty yet") or says of what it is
    ("voltage is twelve point five").
    """
    before = [w for w in walk.words[walk.now.start : number.start] if w not in FILLING]
    return not before or before[0].removesuffix("'s") in MEASURED


def join(walk: Walk, last: Statement, waiting: list[Mention]) -> None:
    """ "Twelve point two volts. That's low": what is said next tells how the number is to be taken."""
    for event in waiting:
        if event.kind == "quantity":
            last.quantities.append((event.value, event))
        elif event.kind == "condition":
            last.claims.append(claim_of(walk, event, last.subject))
        else:
            last.marks.add(event.kind)
        last.stretch(event.start, event.end)


def just_said(walk: Walk) -> Statement | None:
    """The last statement, where it stands in the sentence before this one."""
    last = walk.statements[-1] if walk.statements else None
    return last if last and walk.now.number - last.sentence <= 1 else None
