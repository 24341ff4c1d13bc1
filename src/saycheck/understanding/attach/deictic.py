"""Clauses that only point: "these here you could shave in". Something may be said of the part spoken of before.

No table knows what; the weighing tells whether it is a finding and of which state.
"""

from collections.abc import Iterator

from saycheck.understanding.attach.links import CLAUSE_MARKS, POINTS_ANEW
from saycheck.understanding.attach.subjects import carried_on
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.denial import absent
from saycheck.understanding.statements import Subject
from saycheck.understanding.text import Mention

# What a clause that points begins with.
POINTING = frozenset(
    "this these that those it it's its that's they they're them she she's he he's mine ours hers one ones both none"
    " neither either here's there's all nope yep yes aye nothing".split()
)
# What it may end with instead: "you could eat off it".
ENDING = frozenset("it that this these those them 'em one ones".split())
# What may stand before it and says nothing.
FILLING = frozenset(
    "and but so now okay ok yeah yep well uh um er ah see look like because cause cos then alright right anyway oh"
    " you know i mean think reckon guess 'd 'll say i'd i'll".split()
)
CLAUSE_ENDS = CLAUSE_MARKS | {"but", "so"}
# For how many sentences a clause may point at the part that was spoken of before.
FOCUS_SENTENCES = 2
# Words of such a clause, fillers left out.
SHORTEST, LONGEST = 1, 18


def point_on(walk: Walk, focus: Subject | None, focus_sentence: int) -> None:
    """Make a statement of each clause of the sentence that points and holds nothing a table knows.

    ``focus`` is the part spoken of before the sentence, last in the sentence ``focus_sentence``.
    """
    now = walk.now
    if focus is None or now.number - focus_sentence > FOCUS_SENTENCES:
        focus = None
    for start, end in clauses(walk):
        before = [s.subject for s in now.made if 0 <= s.end <= start]
        subject = before[-1] if before else focus
        if subject is None or not (points(walk.words, start, end) or lacks(walk, start, end)):
            continue
        if before and walk.words[start] not in POINTS_ANEW:
            continue  # more of what was said
        statement = now.new(carried_on(subject))
        statement.marks |= {"unworded", "pointed"}
        statement.stretch(start, end)
    now.made.sort(key=lambda s: s.start)


def clauses(walk: Walk) -> Iterator[tuple[int, int]]:
    """The clauses of the sentence without an event in them, fillers at their start left out."""
    now, words = walk.now, walk.words
    free = [m for m in now.events if is_common(m) or lacks(walk, m.start, now.end)]
    taken = {i for m in now.events if m not in free for i in range(m.start, m.end)}
    taken |= {i for s in now.made for i in range(s.start, s.end)}
    start = now.start
    for at in range(now.start, now.end + 1):
        if at < now.end and words[at] not in CLAUSE_ENDS:
            continue
        first = start
        while first < at and words[first] in FILLING:
            first += 1
        question = at < now.end and words[at] == "?"
        if not question and SHORTEST <= at - first <= LONGEST and not taken & set(range(first, at)):
            yield first, at
        start = at + 1


def is_common(event: Mention) -> bool:
    """Whether a word counts right beside a part only: where it counted for none, "these go home" just points."""
    return event.kind == "condition" and not event.value.condition.alone


def points(words: list[str], start: int, end: int) -> bool:
    """Whether the clause begins or ends with a word that stands for a part: "you could eat off it"."""
    bare = words[start : start + 2] in (["that", "is"], ["it", "is"])
    return (words[start] in POINTING and not (bare and end - start <= 2)) or words[end - 1] in ENDING


def lacks(walk: Walk, start: int, end: int) -> bool:
    """Whether "no" begins what the part spoken of has not, and no part is named: "no lumps out of it"."""
    return walk.words[start] == "no" and not walk.now.group and absent(walk.reading, start, end) is not None
