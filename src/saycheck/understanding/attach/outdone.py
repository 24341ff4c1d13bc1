"""What the speaker at once puts right about the same part: "that's leaking. No, it isn't, it's wash water".

The first saying no longer counts where words of correction follow it and what comes then is another state of
that part, the contrary, or another number of the kind.
"""

from collections.abc import Sequence
from itertools import pairwise

from saycheck.understanding.attach.subjects import carried_on
from saycheck.understanding.judge import judge
from saycheck.understanding.said_anew import denies
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Mention, Reading

# Words between a saying and the correction of it, at most, and from there to what is right.
NEAR, FAR = 3, 14
# Sentences in between: "forty mil. No. Torch was lying. Thirty."
SENTENCES = 3


def without_outdone(reading: Reading, statements: Sequence[Statement]) -> None:
    """Mark statements as taken back where the next one puts them right."""
    standing = [s for s in statements if not s.taken_back]
    for wrong, right in reading.data.get("put right", []):
        put_right(standing, wrong, right)
    for first, second in pairwise(standing):
        cue = correction(reading, first, second)
        if cue and about_one(first, second) and differs(first, second):
            first.taken_back = reading.quote(cue.start, cue.end)


def put_right(statements: Sequence[Statement], wrong: Mention, right: Mention) -> None:
    """Drop a wrong number where the right one is said of the same part, with its statement if that says no more."""
    first = next((s for s in statements if holds(s, wrong)), None)
    for second in [s for s in statements if holds(s, right)]:
        if first and first is not second and wrong.end <= second.subject.start < right.start:
            # The part is named to tell what went wrong: "sixty, tape was on the wrong shoe, fifty".
            second.subject = carried_on(first.subject)
        second.quantities = [
            (q, m) for q, m in second.quantities if m.start >= right.start or q.value != wrong.value.value
        ]
        for first in [s for s in statements if s is not second and holds(s, wrong) and about_one(s, second)]:
            first.quantities = [(q, m) for q, m in first.quantities if m.start != wrong.start]
            if not first.claims:
                first.taken_back = "said anew"


def holds(statement: Statement, number: Mention) -> bool:
    """Whether the number is one of the statement's."""
    return any(m.start == number.start for _, m in statement.quantities)


def correction(reading: Reading, first: Statement, second: Statement) -> Mention | None:
    """Words of correction between two statements, near the first."""
    said = [claim.mention.start for claim in second.claims] + [m.start for _, m in second.quantities]
    begins = min(said, default=second.start)
    if second.sentence - first.sentence > SENTENCES or begins - first.end > FAR:
        return None
    for cue in reading.of("correct"):
        near = first.end <= cue.start < begins and cue.start - first.end <= NEAR
        if near and not denies(reading.all_words, cue):
            return cue
    return None


def about_one(first: Statement, second: Statement) -> bool:
    """Whether two statements are about the same part, on sides that may be the same."""
    one, other = first.subject, second.subject
    return one.part.name == other.part.name and (one.side == other.side or not one.side or not other.side)


def differs(first: Statement, second: Statement) -> bool:
    """Whether the second says something else of what the first says."""
    was, now = judge(first), judge(second)
    if first.claims and second.claims and (was.state, was.denied) != (now.state, now.denied):
        return True
    units = {q.unit for q, _ in first.quantities}
    return bool(units) and any(q.unit is None or q.unit in units for q, _ in second.quantities)
