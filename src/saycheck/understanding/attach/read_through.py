"""What is told in words that no table knows: "it danced", "this one shows one sixty-five", "the point's wobbling".

Where no rule finds that anything is said of a part, the encoder, which reads the narration through, may see that
something of this machine is told (``throughout``). It is said of the part that was spoken of last.
"""

from collections.abc import Iterator

from saycheck.understanding import throughout
from saycheck.understanding.attach.saying import claim_of
from saycheck.understanding.attach.subjects import carried_on
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.names import PLACES
from saycheck.understanding.statements import Subject
from saycheck.understanding.text import runs

# From this likelihood on a word tells something of this machine; at 0.5 to 0.8 F1 of writers left out is
# the same within 0.002, and fewer troubles are lost than without.
TELLS_FROM = 0.65
# Words that must tell, at least, beside names and places, where they are not all of their sentence.
FEWEST = 2
# For how many sentences a part is still what such words are about.
REACH = 4


def say_what_is_read(walk: Walk) -> None:
    """Make statements of the words of the sentence at hand that tell something and belong to none."""
    telling = throughout.telling(walk.reading)
    if telling is None:
        return
    now = walk.now
    for run in untold(walk, [share >= TELLS_FROM for share in telling[now.start : now.end]]):
        subject = subject_for(walk, run)
        if subject is None or is_more_of_another(walk, run, subject):
            continue
        statement = now.new(subject)
        statement.marks |= {"unworded", "read"}
        statement.start, statement.end = run.start, run.stop
        inside = walk.reading.inside("condition", run.start, run.stop)
        statement.claims = [claim_of(walk, m, subject) for m in inside if m.value.condition.alone]
        numbers = walk.reading.inside("quantity", run.start, run.stop)
        statement.quantities = [(m.value, m) for m in numbers if m.value.unit is not None]
        walk.orphans = [m for m in walk.orphans if not (run.start <= m.start < run.stop)]
    now.made.sort(key=lambda s: s.start)


def untold(walk: Walk, telling: list[bool]) -> Iterator[range]:
    """The runs of words of the sentence that tell something and stand in no statement, without marks at their ends."""
    now, tokens = walk.now, walk.reading.tokens
    taken = {i for s in now.made for i in range(s.start, s.end)}
    free = [
        i not in taken and (telling[i - now.start] or tokens[i].is_mark) for i in range(now.start, now.end)
    ]
    for start, end in runs(free):
        first, last = now.start + start, now.start + end
        while first < last and tokens[first].is_mark:
            first += 1
        while last > first and tokens[last - 1].is_mark:
            last -= 1
        if first < last and is_enough(walk, first, last):
            yield range(first, last)


def is_more_of_another(walk: Walk, run: range, subject: Subject) -> bool:
    """Whether the words go on right before or behind a statement: without a mark between them, whatever its part is,
    else where it is of the same part.
    """
    tokens = walk.reading.tokens
    for s in walk.now.made:
        if s.end > run.start and s.start < run.stop:
            continue
        between = tokens[s.end : run.start] or tokens[run.stop : s.start]
        same = s.subject.part.name == subject.part.name
        if not between or (same and all(token.is_mark for token in between)):
            return True
    return False


def is_enough(walk: Walk, first: int, last: int) -> bool:
    """Whether so many words say something: two or more that name no part and no place, or all of the sentence."""
    now, tokens = walk.now, walk.reading.tokens
    named = {i for m in walk.reading.inside("part", first, last) for i in range(m.start, m.end)}
    words = sum(not (tokens[i].is_mark or i in named or tokens[i].text in PLACES) for i in range(first, last))
    rest = (*tokens[now.start : first], *tokens[last : now.end])
    return words >= (1 if all(token.is_mark for token in rest) else FEWEST)


def subject_for(walk: Walk, run: range) -> Subject | None:
    """The part that these words are about: one named in them, else the last one spoken of."""
    known = [s for s in (*walk.spoken, walk.focus) if s is not None and s.start < run.stop]
    subject = max(known, key=lambda s: s.start, default=None)
    if subject is None:
        return None
    if subject.start >= run.start and not subject.carried:
        return subject
    since = walk.reading.sentences[max(0, walk.now.number - REACH)][0]
    lately = walk.focus_ago <= REACH if subject is walk.focus else subject.start >= since
    return carried_on(subject) if lately else None
