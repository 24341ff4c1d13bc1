"""Groups of parts that are spoken of together: begins one, and closes the one before."""

from saycheck.understanding.attach.links import is_telling
from saycheck.understanding.attach.saying import say
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.statements import Subject


def start_group(walk: Walk, subject: Subject) -> None:
    """Speak of the subject from here on, and give it what waited for a part."""
    now = walk.now
    if now.open and now.group and is_telling(between(walk, subject)):
        say_rest(walk, subject.start)
    now.group, now.open = [subject], True
    say(walk, now.waiting)
    now.waiting = []


def between(walk: Walk, subject: Subject) -> list[str]:
    """The words from the group before to this subject without those that wait for it: "box has a broken | clamp"."""
    waiting = {i for m in walk.now.waiting for i in range(m.start, m.end)}
    gap = range(walk.now.group[-1].end, counted_from(subject))
    return [walk.words[i] for i in gap if i not in waiting]


def counted_from(subject: Subject) -> int:
    """The token from which the subject is named, how many there are included: "five teeth"."""
    return min(subject.start, subject.count[1].start) if subject.count else subject.start


def say_rest(walk: Walk, end: int) -> None:
    """A part of which something is said in words no table knows: a statement without claims."""
    now = walk.now
    last = now.group[-1]
    while end > last.end and walk.reading.tokens[end - 1].is_mark:
        end -= 1
    if end <= last.end or any(now.current(s) for s in now.group):
        return
    for subject in now.group:
        statement = now.new(subject)
        statement.marks.add("unworded")
        statement.stretch(last.start, end)
