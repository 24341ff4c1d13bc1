"""Numbers that tell how much it may be or should be: "limit's two", "should be fifty", "the plate says forty".

Such a number is no measurement of the part. It is what the one before it is held against: "three mil, max is two"
is a fault though no word says so. How far from what it should be, and how near a limit, a technician begins to watch:
common practice, no source; checked on the tuning narrations.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from saycheck.models.walk import State
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Mention, Reading

Kind = Literal["limit", "most", "least", "due", "new"]

PAPERS = frozenset(
    "plate sticker book manual placard chart label decal tag card sheet sign door handbook spec".split()
)
TELLS = frozenset(
    "say says said want wants call calls ask asks read reads show shows give gives gave".split()
)
LIMITS: dict[str, Kind] = {
    "limit": "limit", "limits": "limit", "max": "most", "maximum": "most", "min": "least", "minimum": "least",
}  # fmt: skip
SAYINGS: tuple[tuple[Kind, str], ...] = (
    ("due", "should be"), ("due", "should have"), ("due", "ought to be"), ("due", "supposed to be"),
    ("due", "meant to be"), ("due", "must be"), ("due", "wants to be"), ("due", "needs to be"), ("due", "has to be"),
    ("due", "should read"), ("due", "should show"), ("due", "should sit at"), ("due", "spec is"), ("due", "spec 's"),
    ("due", "i like"), ("due", "we like"), ("due", "i want"), ("due", "you want"), ("due", "they want"),
    ("due", "it wants"), ("due", "she wants"), ("due", "he wants"), ("due", "i'd want"), ("due", "i'd like"),
    ("limit", "scrap at"), ("limit", "scrapped at"), ("limit", "reject at"), ("limit", "rejected at"),
    ("limit", "condemned at"), ("limit", "scrap below"), ("limit", "scrap under"), ("limit", "finished at"),
    ("limit", "discard at"), ("limit", "turn it at"), ("limit", "turn them at"), ("limit", "turned at"),
    ("limit", "flip it at"), ("limit", "flip at"), ("limit", "flip them at"), ("limit", "change it at"),
    ("limit", "change them at"), ("limit", "changes them at"), ("limit", "changed at"), ("limit", "bin them at"),
    ("limit", "bin it at"), ("limit", "replace it at"), ("limit", "replace them at"), ("limit", "replace at"),
    ("new", "new is"), ("new", "new 's"), ("new", "new was"), ("new", "start at"), ("new", "starts at"),
    ("new", "started at"), ("new", "came at"), ("new", "come at"), ("new", "comes at"), ("new", "new it was"),
    ("new", "from a new"), ("new", "left of a"), ("new", "left of the"),
)  # fmt: skip
BEFORE = {tuple(saying.split()): kind for kind, saying in SAYINGS}
LONGEST = max(map(len, BEFORE))
PASSED = frozenset(
    "is 's was being of at on about around like more nearly near to be the it them these this here , permitted allowed"
    " legal wear for our".split()
)
"""What may stand between the word that tells and its number."""
FARTHEST = 5
"""Words between them, at most."""
BEHIND = frozenset("is 's being as the our my legal wear at".split())
"""What may stand between a number and "limit" behind it."""
AS_NEW = (("new",), ("when", "new"), ("when", "it", "was", "new"), ("when", "they", "were", "new"))
"""What tells behind a number that a new one has so much."""
OUTRIGHT = frozenset("remaining tread thick thickness depth deep height lining meat profile lug lugs".split())
"""What is measured with these, or in them, is used up: the less the worse."""
USED_UP = frozenset(
    "edge tread pad pads tooth teeth plate fork tyre grouser grousers shoe lining blade tip".split()
)
GROWS = frozenset(
    "play slop slack gap clearance backlash wear worn stretch lift movement knock wiggle".split()
)
"""The more of these the worse."""
NEAR_ENOUGH, OFF = 0.06, 0.15
"""Share by which a number may differ from what it should be and still be good, and still be watched."""
HALF_WAY = 0.5
"""From this share of what it may be at most, wear is watched."""
SOON = 1.25
"""Up to so many times the least that it may be, it is watched."""


@dataclass(frozen=True)
class Told:
    """A number that tells how much it may be or should be."""

    kind: Kind
    much: Quantity


def told_limits(reading: Reading) -> None:
    """Take such numbers out of the quantities of a reading; they become mentions of the kind ``told``."""
    words = reading.all_words
    numbers = reading.of("quantity")
    kinds = [kind_of(words, number, reading) for number in numbers]
    reading.mentions["quantity"] = [m for m, kind in zip(numbers, kinds, strict=True) if kind is None]
    reading.mentions["told"] = [
        Mention("told", m.start, m.end, Told(kind, m.value))
        for m, kind in zip(numbers, kinds, strict=True)
        if kind
    ]


def kind_of(words: Sequence[str], number: Mention, reading: Reading) -> Kind | None:
    """What the words around a number make of it; None where it is a measurement."""
    first = next((start for start, end in reading.sentences if start <= number.start < end), number.start)
    return ahead(words, first, number.start) or behind(words, number.end)


def ahead(words: Sequence[str], first: int, start: int) -> Kind | None:
    """What the words before a number make of it."""
    at = start
    while at > max(first, start - FARTHEST):
        for begin in range(max(first, at - LONGEST), at):
            if kind := BEFORE.get(tuple(words[begin:at])):
                return kind
        word = words[at - 1]
        if word in LIMITS:
            return LIMITS[word]
        if word in TELLS and at - 2 >= first and words[at - 2] in PAPERS:
            return "due"
        if word not in PASSED:
            return None
        at -= 1
    return None


def behind(words: Sequence[str], end: int) -> Kind | None:
    """What the words behind a number make of it: "two's the limit", "ten is maximum", "two at most"."""
    at = end
    while at < len(words) and at - end < FARTHEST and words[at] in BEHIND:
        at += 1
    if at > end and at < len(words) and words[at] in LIMITS:
        return LIMITS[words[at]]
    if tuple(words[end : end + 2]) == ("at", "most"):
        return "most"
    return "new" if any(tuple(words[end : end + len(run)]) == run for run in AS_NEW) else None


def hold(reading: Reading, statements: Iterable[Statement]) -> None:
    """Hold each measurement against what was told right behind it: leaves ``held`` on its statement, which then reaches
    to there where no other one stands between.
    """
    by_place = sorted(
        ((m.start, s, q) for s in statements for q, m in s.quantities if not s.copied_from),
        key=lambda row: row[0],
    )
    for mention in reading.of("told"):
        before = [row for row in by_place if row[0] < mention.start]
        if not before:
            continue
        start, statement, measured = before[-1]
        between = sentences_between(reading, start, mention.start)
        if between > 1:
            continue
        statement.held = held(reading, statement, measured, mention.value)
        if between == 0 and not any(start < s.start < mention.end for _, s, _ in by_place):
            statement.stretch(statement.start, mention.end)


def sentences_between(reading: Reading, first: int, second: int) -> int:
    """How many sentences lie between two tokens, 0 in the same one."""
    return sum(first < start <= second for start, _ in reading.sentences)


def held(reading: Reading, statement: Statement, measured: Quantity, told: Told) -> State | None:
    """What a measurement is beside what was told; None where that says nothing."""
    limit = told.much
    if told.kind == "new" or limit.value <= 0 or measured.value < 0:
        return None
    if limit.unit not in (None, measured.unit) and measured.unit is not None:
        return None
    share = measured.value / limit.value
    less_is_worse, more_is_worse = direction(reading, statement, measured)
    if told.kind == "least" or (told.kind == "limit" and less_is_worse):
        return "writeup" if share <= 1 else "watch" if share <= SOON else "good"
    if told.kind in ("limit", "most") or more_is_worse:
        return "writeup" if share > 1 else "watch" if share >= HALF_WAY else "good"
    off = (abs(measured.value - limit.value) - limit.plus_minus) / limit.value
    return "good" if off <= NEAR_ENOUGH else "watch" if off <= OFF else "writeup"


def direction(reading: Reading, statement: Statement, measured: Quantity) -> tuple[bool, bool]:
    """Whether it is the worse the less is left, as of an edge or a tread; or the more there is, as of play."""
    start, end = reading.sentences[statement.sentence]
    said = set(reading.all_words[start:end])
    used_up = measured.quantity == "length" and bool(
        said & OUTRIGHT or set(statement.subject.part.name.split()) & USED_UP
    )
    return used_up, not used_up and bool(said & GROWS)
