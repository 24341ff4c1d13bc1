"""Words that tell how to take what is said: hidden, left for later, to watch, to write up."""

from saycheck.understanding.attach.links import only_small
from saycheck.understanding.attach.saying import say_mark
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.denial import denied
from saycheck.understanding.text import Mention

UNSEEN = ("hidden", "later")
ORDERS = ("keep-an-eye", "needs-work")
# How far behind "can't see" a condition may stand that is denied by it, in words.
DENIAL_REACH = 5


def mark_unseen(walk: Walk, event: Mention, following: Mention | None) -> None:
    """ "Can't see it", "check it later": about the group, or about the part behind."""
    now = walk.now
    if event.kind == "hidden" and is_denial(walk, event):
        return
    if now.group and (now.open or not following or following.kind != "part"):
        say_mark(walk, event)
    else:
        now.waiting.append(event)


def is_denial(walk: Walk, event: Mention) -> bool:
    """ "Can't see any leaks" denies the leaks; it does not say that the part was hidden."""
    behind = [m for m in walk.now.events if m.kind == "condition" and m.start >= event.end]
    return any(
        denied(walk.reading, m, walk.now.events) == event
        for m in behind
        if m.start - event.end <= DENIAL_REACH
    )


def mark_order(walk: Walk, event: Mention, following: Mention | None) -> None:
    """ "Keep an eye on", "write up": about the part right behind, or about what was said last."""
    ahead = following and following.kind == "part" and only_small(walk.gap(event, following))
    if ahead and not walk.now.open:
        walk.now.waiting.append(event)
    else:
        mark_last(walk, event)


def mark_last(walk: Walk, event: Mention) -> None:
    """ "Keep an eye on it", "write that up": about what was said last, also a sentence ago."""
    now = walk.now
    target = now.made or [s for s in walk.statements[-1:] if now.number - s.sentence <= 1]
    if now.open and now.group:
        target = [now.about(s) for s in now.group]
    for statement in target[-max(1, len(now.group)) :]:
        statement.marks.add(event.kind)
        if statement.sentence == now.number:
            statement.stretch(event.start, event.end)
