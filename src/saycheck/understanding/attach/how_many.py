"""How many of a thing a condition is said of: "one of the four is weeping", "lost two of its bolts", "a bolt missing".

The number nearest before the condition counts, or what is lost right behind it; of "three of the eight" the
three.
"""

from collections.abc import Sequence

from saycheck.understanding.attach.links import COUNT_LINKS, MOST_COUNTED, POINTS_AT_ONE
from saycheck.understanding.number_words import ONES, TEENS
from saycheck.understanding.statements import Claim, Statement
from saycheck.understanding.text import Mention, Reading

COUNTS = {word: n for word, n in (ONES | TEENS).items() if 0 < n <= MOST_COUNTED}
COUNTS |= {str(n): n for n in range(1, MOST_COUNTED + 1)}
LACKS = frozenset(["missing", "lost", "lacking", "short", "minus", "lacks", "loses", "without"])
SINGLE = frozenset(["a", "an", "its", "his", "her", "one"])
# Words that may stand between a number and what is said of so many, beside the things themselves.
PASSED = COUNT_LINKS | frozenset(
    "just plain clean half already with on it it's there there's got in".split()
) - {","}
# Before a number that names one of several: "number two tooth".
NAMING = frozenset(["number", "axle", "section", "cylinder"])
# Behind "a" these make no thing: "a bit loose".
NO_THING = frozenset("bit little touch tad shade hair wee lot lots mite fair good quite some".split())
MOST_THINGS, FARTHEST = 3, 6


def how_many(reading: Reading, statement: Statement, start: int) -> tuple[int, Mention] | None:
    """The count said with the conditions of a statement in words from ``start`` on, or None."""
    words = reading.all_words
    numbers = [m for m in reading.of("quantity") if m.value.unit or m.value.value > MOST_COUNTED]
    measured = {i for m in numbers for i in range(m.start, m.end)}
    said = [claim for claim in statement.claims if not claim.denied]
    for claim in sorted(said, key=lambda claim: claim.said.condition.form != "fault"):
        found = before(words, claim, start)
        if found is None and claim.said.condition.form == "fault":
            found = behind(words, claim)
        if found and found[1].start not in measured:
            return found
    return None


def before(words: Sequence[str], claim: Claim, start: int) -> tuple[int, Mention] | None:
    """ "Two of the little bolts are loose", "one gone"; for a fault "a bolt missing" too."""
    things, at = 0, claim.mention.start - 1
    fault = claim.said.condition.form == "fault"
    while at >= max(start, claim.mention.start - FARTHEST):
        word = words[at]
        if word in COUNTS and word not in ("o", "oh"):
            return told(words, at, start)
        if word in ("a", "an"):
            thing = fault and things and words[at + 1] not in NO_THING
            return (1, Mention("quantity", at, at + 1)) if thing else None
        if word not in PASSED:
            things += 1
            if things > MOST_THINGS or not word.isalpha():
                return None
        at -= 1
    return None


def told(words: Sequence[str], at: int, start: int) -> tuple[int, Mention] | None:
    """The number at ``at``, or that of which it is the whole; None where it points."""
    first = at - 1
    while first > start and words[first] in ("the", "out", "all", "these", "those", "its"):
        first -= 1
    if first > start and words[first] == "of":
        first -= 2 if words[first - 1] == "out" else 1
        if first >= start and words[first] in COUNTS:
            at = first
    if at and (words[at - 1] in NAMING or (words[at] == "one" and words[at - 1] in POINTS_AT_ONE)):
        return None
    return COUNTS[words[at]], Mention("quantity", at, at + 1)


def behind(words: Sequence[str], claim: Claim) -> tuple[int, Mention] | None:
    """ "Missing two bolts", "lost its roll pin"."""
    at = claim.mention.end
    if words[at - 1] not in LACKS or at + 1 >= len(words):
        return None
    if words[at] in COUNTS:
        return COUNTS[words[at]], Mention("quantity", at, at + 1)
    thing = words[at] in SINGLE and words[at + 1].isalpha() and words[at + 1] not in NO_THING
    return (1, Mention("quantity", at, at + 1)) if thing else None
