"""The things of one sentence that matter, in order and without overlap: parts, conditions, quantities,
marks, words that point back ("the left one").
"""

from dataclasses import dataclass

from saycheck.understanding.numbers import LABELLED
from saycheck.understanding.parts import ENDS
from saycheck.understanding.place import is_comparison, is_side_word
from saycheck.understanding.text import Mention, Reading
from saycheck.understanding.told_limits import PAPERS, TELLS

IN_HAND = frozenset("feeler feelers tape ruler rule calipers caliper multimeter".split())
"""No part of any machine: "feeler goes in point eight of a mil" is said of what it is held to."""
TOOLS = IN_HAND | frozenset("gauge tester".split())
PARTS_TOO = frozenset("stick dial meter".split())
"""What is measured with these or is a part itself: "a litre down on the stick", "a crack on the stick"."""
HELD = frozenset("torch flashlight tape rule ruler thumb finger glove rag pen".split())
"""What the walker has in the hand: "no, torch slipped" is said of no part."""
SOMEONE = frozenset("someone somebody anyone anybody everyone everybody nobody people".split())
"""Of whom it is said, not of a part: "straighten it before someone slips"."""
MOVED = frozenset(
    "give gave giving rock rocked rocking wiggle wiggled waggle waggled turn turned turning spin spun spinning jack"
    " jacked lift lifted had got shake shook grab grabbed push pushed pull pulled kick kicked".split()
)
"""What one does to a wheel to try a joint or a bearing."""
DETERMINERS = frozenset("the a an my your this that".split())
TOOL_BEFORE = frozenset("on by with from of against off".split())
MARKS = ("hidden", "later", "keep-an-eye", "needs-work", "same", "except", "take-back", "correct")
RANK = {"part": 0, "condition": 1, "quantity": 2}
ONE = frozenset(["one", "ones", "one's", "two", "three", "four", "pair", "set", "un", "uns"])
REST = frozenset(["rest", "remainder", "others"])
POINTING = frozenset(
    "left right front rear back top bottom upper lower inner outer other first second third fourth middle"
    " nearside offside outside inside".split()
)
PLACED = frozenset("top bottom upper lower inner outer middle".split())
"""Which of two or three alike: by itself these name one of those that were just spoken of."""
NUMBERED = frozenset("one two three four five six seven eight nine ten 1 2 3 4 5 6 7 8 9 10".split())
TRAILING = frozenset("so too again altogether completely as n'all".split())
"""Behind what is said of a part these open or close a clause."""
CLAUSE_ENDS = TRAILING | frozenset(". , ; : ! ? and but — – … now here".split())
BESIDE = frozenset("behind inside under above below beside near past".split())
BOTH = frozenset(["both", "pair"])
SAYS = frozenset([",", ":", "-", "–", "is", "'s", "has", "same"])
LEADS_TO_PLACE = frozenset(
    "on to at in of from off behind by near under over with for around along through between than as like round"
    " up down".split()
)
"""Behind one of these "the left" is where something is."""
TELLS_OF = frozenset(
    "'s is are was were has have had 'd aren't isn't wasn't hasn't ain't looks feels".split()
)
"""With one of these something is said of what stands before it."""
ENDS_OF_BOTH = {"fronts": "front", "rears": "rear"}
"""The two at an end by one word: "the rears have good rubber"."""
WALKER = frozenset("i i'd i'll i've we we'd can't couldn't".split())
"""Who looks at what stands before: "lower I can't get a hand to"."""
OPENING = frozenset(". , ; : and but".split())
"""Behind one of these a clause begins."""
LOOKED = frozenset("see seen check checked reach read".split())
REASONS = frozenset("for because with until till".split())
"""Behind what is looked at these tell why it is not seen."""
DENIED_REACH = 2
"""How many words with its own the condition denied may stand behind the denial."""
SIDE_NOUNS = frozenset(["side", "hand", "sides"])


@dataclass(frozen=True)
class Pointer:
    """Words that point back to a part spoken of before: "the left one", "both", "right"."""

    side: str | None
    ends: tuple[str, ...]
    other: bool = False
    bare: bool = False
    """An end of the machine by itself ("Front, half worn"): a part only where one like it was just spoken of."""


def is_none(words: list[str], mention: Mention, end: int) -> bool:
    """Whether a condition is none: a very common word ("on", "in") that goes on with something, or said of what the
    walker holds or of a person.
    """
    said = mention.value
    if mention.start and words[mention.start - 1] in HELD | SOMEONE:
        return True
    if said.condition.alone or said.form == "noun" or mention.end >= end:
        return False
    return words[mention.end] not in CLAUSE_ENDS


def only_denies(reading: Reading, mention: Mention, end: int) -> bool:
    """Whether a condition in the words of a denial only denies the one right behind it: "doesn't knock", "there isn't
    a crack".
    """
    if not any(
        (m.start, m.end) == (mention.start, mention.end) for m in reading.inside("deny", mention.start, end)
    ):
        return False
    behind = reading.inside("condition", mention.end, min(end, mention.end + 1 + DENIED_REACH))
    return any(m.start - mention.end < DENIED_REACH for m in behind)


def rank(mention: Mention) -> int:
    """Order among mentions of one length: a saying of two words and more beats a part made up of parts."""
    if mention.kind == "condition" and len(mention) > 1 and mention.value.form == "phrase":
        return -1
    return RANK.get(mention.kind, 3)


def overlap_free(mentions: list[Mention]) -> list[Mention]:
    """Of overlapping mentions keep the longest, parts before conditions before the rest."""
    kept: list[Mention] = []
    for mention in sorted(mentions, key=lambda m: (-len(m), rank(m), m.start)):
        if not any(mention.overlaps(k) for k in kept):
            kept.append(mention)
    return sorted(kept, key=lambda m: m.start)


def pointers(reading: Reading, start: int, end: int, taken: set[int]) -> list[Mention]:
    """Words in the sentence that point back to a part, outside other mentions."""
    words = reading.all_words
    found, at = [], start
    while at < end:
        run = at
        while run < end and (words[run] in POINTING or is_handed(words, at, run)) and run not in taken:
            run += 1
        if run > at and is_comparison(words, at):
            at = run
        elif run > at and run < end and words[run] in ONE:
            found.append(Mention("pointer", at, run + 1, pointing(words, at, run)))
            at = run + 1
        elif run > at and (run >= end or words[run] not in SIDE_NOUNS) and is_pointing(words, at, run):
            found.append(Mention("pointer", at, run, pointing(words, at, run)))
            at = run
        elif at not in taken and is_end_alone(words, at, start, end):
            found.append(
                Mention("pointer", at, at + 1, Pointer(None, (ENDS.get(words[at], words[at]),), bare=True))
            )
            at += 1
        elif words[at] in ENDS_OF_BOTH and at not in taken and is_one_of_them(words, at, start):
            found.append(
                Mention("pointer", at, at + 1, Pointer("both", (ENDS_OF_BOTH[words[at]],), bare=True))
            )
            at += 1
        elif words[at] in ONE and (behind := one_on_side(words, at, end)) and at not in taken:
            found.append(Mention("pointer", at, behind, pointing(words, at + 3, behind)))
            at = behind
        elif words[at] in REST and at not in taken and at and words[at - 1] == "the":
            found.append(Mention("pointer", at, at + 1, Pointer(None, ())))
            at += 1
        elif words[at] == "number" and at + 1 < end and words[at + 1] in NUMBERED:
            found.append(Mention("pointer", at, at + 2, Pointer(None, ())))
            at += 2
        elif (
            words[at] in BOTH
            and at not in taken
            and words[at + 1 : at + 2] not in (["sides"], ["of"], ["ends"])
        ):
            found.append(Mention("pointer", at, at + 1, Pointer("both", ())))
            at += 1
        else:
            at = max(run, at + 1)
    return found


def one_on_side(words: list[str], at: int, end: int) -> int | None:
    """Where "one on the left", "one on the other side" ends; None where no side is told so."""
    if words[at - 1 : at] != ["the"] or words[at + 1 : at + 3] != ["on", "the"] or at + 3 >= end:
        return None
    if words[at + 3] != "other" and not is_side_word(words, at + 3):
        return None
    return at + 5 if words[at + 4 : at + 5] == ["side"] else at + 4


def is_end_alone(words: list[str], at: int, start: int, end: int) -> bool:
    """Whether an end of the machine or a part stands by itself and something is said of it: "Front, half" where a
    sentence begins, "(top's greased,) bottom's dry" within one.
    """
    if at + 1 >= end or not (words[at] in ENDS or words[at] in PLACED):
        return False
    return words[at + 1] in SAYS if at == start else is_one_of_them(words, at, start)


def is_one_of_them(words: list[str], at: int, start: int) -> bool:
    """Whether something is said of the end at ``at`` within a sentence: "upper has new grease, lower I can't see"."""
    first = at - (words[at - 1] == "the" and at - 1 >= start)
    before = words[first - 1] if first > start else "."
    after = words[at + 1] if at + 1 < len(words) else "."
    if after in WALKER:
        return words[at] in PLACED and before in OPENING
    return before not in LEADS_TO_PLACE | DETERMINERS and after in TELLS_OF


def is_handed(words: list[str], at: int, run: int) -> bool:
    """Whether the word is the hand of "the left-hand one"."""
    if words[run] != "hand" or run == at or run + 1 == len(words) or words[run + 1] not in ONE:
        return False
    return is_side_word(words, run - 1) is not None


def is_pointing(words: list[str], at: int, run: int) -> bool:
    """Whether bare place words ("left", "front right") stand for a part here."""
    sides = [i for i in range(at, run) if is_side_word(words, i)]
    if run - at == 1 and at and words[at - 1] == "the" and (sides or words[at] == "other"):
        return is_subject(words, at - 1, run)
    if not sides:
        return False
    if words[at:run] == ["left"] and words[run : run + 1] in (["in"], ["on"]):
        return False  # what remains: "two weeks left in it"
    before = words[at - 1] if at else "."
    if before == "the" and words[max(0, at - 2)] in BESIDE:
        return False  # "the seal behind the left rear"
    return not (before in ("on", "to", "at", "in", "the") and run - at == 1)


def is_subject(words: list[str], start: int, end: int) -> bool:
    """Whether "the left" or "the other" is what something is said of: "and the right's the same", "now the left",
    "can't see the other for mud".
    """
    before = words[start - 1] if start else "."
    after = words[end] if end < len(words) else "."
    if before in LOOKED and after in REASONS:
        return True
    return before not in LEADS_TO_PLACE and (after in TELLS_OF or after in CLAUSE_ENDS)


def pointing(words: list[str], start: int, end: int) -> Pointer:
    """What place words from ``start`` to ``end`` say of the part they point at."""
    sides = {s for i in range(start, end) if (s := is_side_word(words, i))}
    side = "both" if len(sides) == 2 else next(iter(sides), None)
    run = words[start:end]
    ends = tuple(
        ENDS.get(w, w)
        for w in run
        if w in POINTING and w not in ("left", "right", "nearside", "offside", "other")
    )
    return Pointer(side, ends, "other" in run)


def events(reading: Reading, start: int, end: int) -> list[Mention]:
    """All events of the sentence ``start`` to ``end`` in order."""

    def inside(kind: str) -> list[Mention]:
        return reading.inside(kind, start, end)

    words = reading.all_words
    numbered = {i for i in range(start + 1, end) if words[i - 1] in LABELLED}
    solid = [m for kind in ("part", "condition", "quantity", *MARKS) for m in inside(kind)]
    solid = [m for m in solid if not (m.kind == "condition" and is_none(words, m, end))]
    solid = [m for m in solid if not (m.kind == "condition" and only_denies(reading, m, end))]
    solid = [m for m in solid if not (m.kind == "part" and only_mentioned(reading, m))]
    named = min((m.start for m in solid if m.kind == "part"), default=end)
    solid = [m for m in solid if not (m.kind == "part" and named < m.start and is_moved(words, m))]
    kept = overlap_free([m for m in solid if not (m.start in numbered and is_label(m))])
    taken = {i for m in kept for i in range(m.start, m.end)}
    found = pointers(reading, start, end, taken) + on_each_side(
        words, [m for m in kept if m.kind == "quantity"]
    )
    ordered = sorted(kept + found, key=lambda m: m.start)
    return sides_first(ordered, words)


def is_moved(words: list[str], part: Mention) -> bool:
    """Whether a wheel is only moved to try what was named before: "hub, I rocked the wheel, there's play in it"."""
    before = words[max(0, part.start - 2) : part.start]
    return words[part.start : part.end] == ["wheel"] and (
        before[-1:] in (["the"], ["that"]) and before[0] in MOVED
    )


def is_label(mention: Mention) -> bool:
    """Whether a number behind "number" or "axle" is a name: it has no unit."""
    return mention.kind == "quantity" and mention.value.unit is None


def only_mentioned(reading: Reading, part: Mention) -> bool:
    """Whether a part's name stands here for what something was measured with, read from or seen at.

    "Nine mil on the gauge", "the plate says forty", "three mil at the rim": nothing is said of gauge, plate or rim.
    """
    words, at = reading.all_words, part.start
    before, word = words[max(0, at - 2) : at], words[at]
    if part.end - at == 1 and word in IN_HAND:
        return True
    if word in PAPERS and (words[part.end : part.end + 1] or [""])[0] in TELLS:
        return True
    if len(before) < 2 or before[1] not in DETERMINERS:
        return False
    single = part.end - at == 1
    if single and word in TOOLS and before[0] in TOOL_BEFORE:
        return True
    seen = before[0] == "at" or (single and word in PARTS_TOO and before[0] in TOOL_BEFORE)
    return seen and any(m.end == at - 2 and m.value.unit for m in reading.of("quantity"))


def sides_first(events: list[Mention], words: list[str]) -> list[Mention]:
    """ "1.6 bar left, 1.2 right": each side before its number, where two or more numbers have theirs behind."""
    out, at = list(events), 0
    while at < len(out):
        after = at
        while has_side_behind(out, after) and (after == at or is_list(words, out[after - 1], out[after])):
            after += 2
        before = out[at - 1] if at else None
        if after - at >= 4 and not (before and before.kind == "pointer" and before.end == out[at].start):
            for number in range(at, after, 2):
                out[number], out[number + 1] = out[number + 1], out[number]
        at = max(after, at + 1)
    return out


def on_each_side(words: list[str], numbers: list[Mention]) -> list[Mention]:
    """ "Twelve six on the left, twelve one in the right": the sides behind two numbers and more."""
    found = [
        Mention("pointer", m.end, m.end + 3, Pointer(is_side_word(words, m.end + 2), ()))
        for m in numbers
        if words[m.end : m.end + 2] in (["on", "the"], ["in", "the"], ["at", "the"])
        and m.end + 2 < len(words)
        and is_side_word(words, m.end + 2)
    ]
    return found if {m.value.side for m in found} == {"left", "right"} else []


def has_side_behind(events: list[Mention], at: int) -> bool:
    """Whether a number stands at this place and a bare side follows it at once."""
    if at + 1 >= len(events):
        return False
    number, side = events[at], events[at + 1]
    if (number.kind, side.kind) != ("quantity", "pointer") or number.end != side.start:
        return False
    return side.value.side in ("left", "right") and not side.value.ends


def is_list(words: list[str], one: Mention, other: Mention) -> bool:
    """Whether no more than a comma and "and" stand between two mentions."""
    return all(word in (",", "and") for word in words[one.end : other.start])
