"""What is not as the rest: "all tight except two on the right"."""

from saycheck.understanding.attach.sides import side_in
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.statements import Subject
from saycheck.understanding.text import Mention


def except_from(walk: Walk, event: Mention) -> None:
    """Mark what stands behind "except"; where no part does, it is of the part before."""
    now = walk.now
    if any(s.start >= event.end and s.claims for s in now.made):
        return
    behind = [s for s in now.group if s.start >= event.end]
    for subject in behind:
        statement = now.about(subject)
        statement.marks.add("exception")
        statement.stretch(event.start, subject.end)
    if not behind and now.made:
        except_some(walk, event)


def except_some(walk: Walk, event: Mention) -> None:
    """Some of the things just spoken of: their own side and count, and the claim they do not share."""
    now = walk.now
    base = now.made[-1]
    side = side_in(walk, event.end, now.end) or base.subject.side
    subject = Subject(base.subject.part, side, -1, -1, carried=True, spoken=base.subject.spoken)
    statement = now.new(subject)
    statement.marks.add("exception")
    statement.claims = base.claims[-1:]
    statement.count = now.count
    end = now.end - walk.reading.tokens[now.end - 1].is_mark
    statement.stretch(event.start, max(end, event.end))
