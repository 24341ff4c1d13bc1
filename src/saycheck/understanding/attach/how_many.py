"""How many of a thing a condition is said of: "one of the four is weeping", "lost two of its bolts", "a bolt missing".

The number nearest before the condition counts, or what is lost right behind it; of "three of the eight" the
three. ``first_count`` tells what the condition's own words make of it when it is met, ``how_many`` reads farther
once the sentence is over and has the last word, and ``one_in`` is for statements of which neither says anything.
"""

from collections.abc import Sequence

from saycheck.understanding.attach.links import COUNT_LINKS, MOST_COUNTED, POINTS_AT_ONE
from saycheck.understanding.number_words import ONES, TEENS
from saycheck.understanding.statements import Claim, Statement
from saycheck.understanding.text import Mention, Reading

COUNTS = {word: n for word, n in (ONES | TEENS).items() if 0 < n <= MOST_COUNTED}
COUNTS |= {str(n): n for n in range(1, MOST_COUNTED + 1)}
# Behind these stands what is not there.
LACKS = frozenset(["missing", "lost", "lacking", "short", "minus", "lacks", "loses", "without"])
# Where on the machine a thing is, told right before "one".
PLACES = frozenset("left right front rear back".split())
# Before what is one thing.
SINGLE = frozenset(["a", "an", "one"])
OWN = frozenset(["its", "his", "her"])
# What follows "one" where it counts and does not point.
OF_ONE = frozenset("of 's is has was with gone missing loose broken bent cracked . , ;".split())
# Words that may stand between a number and what is said of so many, beside the things themselves.
PASSED = COUNT_LINKS | frozenset(
    "just plain clean half already with on it it's there there's got in".split()
) - {","}
# Before a number that names one of several: "number two tooth".
NAMING = frozenset(["number", "axle", "section", "cylinder"])
# Behind "a" these make no thing: "a bit loose".
NO_THING = frozenset(
    "bit little touch tad shade hair wee lot lots mite fair good quite some few handful number".split()
)
# How many words of the things themselves, and words in all, may stand between a number and its condition.
MOST_THINGS, FARTHEST = 3, 6


def first_count(reading: Reading, event: Mention, start: int) -> tuple[int, Mention] | None:
    """How many a condition is said of, by "one" before it from ``start`` on or by what is lost right behind it."""
    words = reading.all_words
    at = event.start - 1
    while at > start and words[at] in COUNT_LINKS:
        at -= 1
    one = one_at(words, at) if at >= start and words[at] == "one" else None
    return one or lost(reading, event, SINGLE)


def how_many(reading: Reading, statement: Statement, start: int) -> tuple[int, Mention] | None:
    """The count said with the conditions of a statement in words from ``start`` on, or None."""
    words = reading.all_words
    numbers = [m for m in reading.of("quantity") if measures(m)]
    measured = {i for m in (*numbers, *reading.of("told")) for i in range(m.start, m.end)}
    said = [claim for claim in statement.claims if not claim.denied]
    for claim in sorted(said, key=lambda claim: claim.said.condition.form != "fault"):
        found = number_before(words, claim, start)
        if found is None and claim.said.condition.form == "fault":
            found = lost(reading, claim.mention, SINGLE | OWN) or held_by(words, claim.mention)
        if found and found[1].start not in measured:
            return found
    return None


def measures(number: Mention) -> bool:
    """Whether a number counts nothing: it has a unit or a point, is said digit by digit, or there is no such number
    of anything.
    """
    value, form = number.value.value, number.value.form
    return (
        number.value.unit not in (None, "count")
        or form == "digits"
        or value > MOST_COUNTED
        or value != int(value)
    )


def one_in(words: Sequence[str], statement: Statement) -> tuple[int, Mention] | None:
    """The count of one that is said inside a statement: "all but one", "one of the struts is bent"."""
    for at in range(statement.start, statement.end):
        if words[at] == "one" and words[at + 1 : at + 2] and words[at + 1] in OF_ONE:
            return one_at(words, at)
    return None


def one_at(words: Sequence[str], at: int) -> tuple[int, Mention] | None:
    """The count of one that the word "one" at ``at`` says, or None where it points ("left one", "the wrong one")."""
    if at and (words[at - 1] in POINTS_AT_ONE or words[max(0, at - 2)] == "the"):
        return None
    return 1, Mention("quantity", at, at + 1)


def number_before(words: Sequence[str], claim: Claim, start: int) -> tuple[int, Mention] | None:
    """ "Two of the little bolts are loose", "one gone"; for a fault "a bolt missing" too."""
    things, at = 0, claim.mention.start - 1
    fault = claim.said.condition.form == "fault"
    while at >= max(start, claim.mention.start - FARTHEST):
        word = words[at]
        if word in COUNTS and word not in ("o", "oh"):
            if word == "one" and things and fault and is_behind_place(words, at):
                return 1, Mention("quantity", at, at + 1)
            return counted_at(words, at, start)
        if word in ("a", "an"):
            thing = fault and things and words[at + 1] not in NO_THING
            return (1, Mention("quantity", at, at + 1)) if thing else None
        if word not in PASSED:
            things += 1
            if things > MOST_THINGS or not word.isalpha():
                return None
        at -= 1
    return None


def is_behind_place(words: Sequence[str], at: int) -> bool:
    """Whether "one" only stands behind where it is and counts what it stands before: "front left one stud's broken"."""
    placed = words[at - 1 : at] and words[at - 1] in PLACES and words[at + 1].isalpha()
    return bool(placed) and "the" not in words[max(0, at - 3) : at]


def counted_at(words: Sequence[str], at: int, start: int) -> tuple[int, Mention] | None:
    """The number at ``at``, or that of which it is the whole; None where it points."""
    first = at - 1
    while first > start and words[first] in ("the", "out", "all", "these", "those", "its"):
        first -= 1
    if first > start and words[first] == "of":
        first -= 2 if words[first - 1] == "out" else 1
        # "One out of four", "one bolt out of four".
        at = next((i for i in (first, first - 1) if i >= start and words[i] in COUNTS), at)
    if words[at] not in COUNTS or (at and words[at - 1] in NAMING):
        return None
    if words[at] == "one":
        return one_at(words, at)
    return COUNTS[words[at]], Mention("quantity", at, at + 1)


def held_by(words: Sequence[str], event: Mention) -> tuple[int, Mention] | None:
    """ "Hanging by one bolt": how many hold it still; the number may be of the saying, "hanging on one"."""
    if event.end - event.start > 1 and words[event.end - 1] in COUNTS:
        event = Mention("condition", event.start, event.end - 1)
    at = event.end if words[event.end - 1] in ("by", "on") else event.end + 1
    if words[at - 1 : at] not in (["by"], ["on"]) or at + 1 >= len(words) or words[at] not in COUNTS:
        return None
    return (COUNTS[words[at]], Mention("quantity", at, at + 1)) if words[at + 1].isalpha() else None


def lost(reading: Reading, event: Mention, single: frozenset[str]) -> tuple[int, Mention] | None:
    """ "Missing two bolts", "lost its roll pin": how many are not there; words of ``single`` stand for one."""
    words, at = reading.all_words, event.end
    # The number may be of the saying: "short two".
    if at > 1 and words[at - 2] in LACKS and words[at - 1] in COUNTS:
        at -= 1
    lacks = words[at - 1] in LACKS or words[max(0, at - 2) : at] == ["short", "of"]
    if not lacks or at + 1 >= len(words):
        return None
    number = next((m for m in reading.of("quantity") if m.start == at), None)
    if number and measures(number):
        return None
    if words[at] in COUNTS:
        return COUNTS[words[at]], Mention("quantity", at, at + 1)
    if number and number.value.value in range(1, MOST_COUNTED + 1):
        return int(number.value.value), number
    thing = words[at] in single and words[at + 1].isalpha() and words[at + 1] not in NO_THING
    return (1, Mention("quantity", at, at + 1)) if thing else None
