"""Numbers that go on from one with a unit: "three mil, no, I had the wrong end of the tape, it's five".

Whoever puts a number right, says it a second time or goes on to the next one alike ("left one's three mil, right one
five") leaves its unit out.
"""

from collections.abc import Sequence
from dataclasses import replace

from saycheck.understanding.quantities import Quantity
from saycheck.understanding.text import Mention, Reading

REACH = 25
"""Tokens between the two numbers, at most, where the first is put right."""
SOON = 6
"""Tokens between them, at most, where the same number is said again."""
MOST_TIMES = 4.5
"""A number put right is at most so many times the wrong one, or the wrong one so many times it."""
WRONG = frozenset(["wrong", "slipped", "misread", "lie"])
"""Words that tell of a reading gone wrong, beside the cues for putting something right."""
TOOLS = frozenset(["tape", "gauge", "rule", "ruler", "tape's", "rule's"])
"""Where one of these went wrong, the part named with it is where it was: "the tape was on the wrong shoe"."""
BEHIND_NO = frozenset(
    "it it's its that that's this they they're he she i i'm i've i'd wait hang hold sorry not don't the make call let"
    " hm".split()
)
"""Behind a bare "no": then it does not deny what follows ("no leaks")."""
LINKS = frozenset(", : is 's are was at on reads says shows".split())
"""What may stand between a part and its number."""
LISTED = ([","], ["and"], [",", "and"], ["by"], [",", "maybe"])
"""What stands between the numbers of a list."""
WHICH = frozenset(
    "left right nearside offside other second third top bottom upper lower middle centre center inner outer".split()
)
"""Which of several alike a number is said of."""
LINKS_ALIKE = frozenset(", : 's is at i make i've got has it it's well about maybe measures reads".split())
"""What may stand between it and its number."""
NO_THINGS = frozenset("is was as this less plus it's that's always across has its his yours ours so".split())
"""Words in -s that no number counts."""


def said_anew(reading: Reading) -> None:
    """Give each bare number that is said anew the unit of the one before it.

    Leaves ``reading.data["put right"]``: pairs of numbers, the wrong one and the one that puts it right.
    """
    given: list[Mention] = []
    pairs: list[tuple[Mention, Mention]] = []
    before: Mention | None = None
    for number in reading.of("quantity"):
        again = False
        said = number
        if before and before.value.unit and number.value.unit in (None, before.value.unit):
            again = is_again(reading, before, number)
            right = not again and is_right_one(reading, before, number)
            if again or right or is_next(reading, before, number):
                said = in_unit_of(before, number)
            if right:
                pairs.append((before, said))
        given.append(said)
        before = before if again else said
    reading.mentions["quantity"] = given
    reading.data["put right"] = pairs


def in_unit_of(before: Mention, number: Mention) -> Mention:
    """The number in the unit of the one before it."""
    unit: Quantity = before.value
    value = replace(number.value, unit=unit.unit, quantity=unit.quantity, also=unit.also)
    return Mention("quantity", number.start, number.end, value)


def is_again(reading: Reading, before: Mention, number: Mention) -> bool:
    """Whether a number is the one before it said once more."""
    near = number.start - before.end <= SOON
    return near and before.value.value == number.value.value and not counts(reading.all_words, number)


def is_right_one(reading: Reading, before: Mention, number: Mention) -> bool:
    """Whether a number puts right the one before it."""
    old, new = before.value.value, number.value.value
    if number.start - before.end > REACH or old * new <= 0 or max(old / new, new / old) > MOST_TIMES:
        return False
    if counts(reading.all_words, number) or (number.value.unit is None and names_part(reading, number)):
        return False
    return is_put_right(reading, before, number)


def is_next(reading: Reading, before: Mention, number: Mention) -> bool:
    """Whether a number goes on in the unit of the one before it: in a list, or said of the next one alike."""
    words, old, new = reading.all_words, before.value.value, number.value.value
    if number.value.unit or number.start - before.end > REACH or old * new <= 0:
        return False
    if max(old / new, new / old) > MOST_TIMES or counts(words, number) or names_part(reading, number):
        return False
    listed = words[before.end : number.start] in LISTED
    return listed or is_alike(reading, before, number)


def is_alike(reading: Reading, before: Mention, number: Mention) -> bool:
    """Whether nothing but which one is meant stands before the number, or right behind it: "right one five"."""
    words = reading.all_words
    at = number.start
    while at > before.end and words[at - 1] in LINKS_ALIKE:
        at -= 1
    at -= at > before.end and words[at - 1] in ("one", "ones", "end", "side", "section")
    which = at > before.end and words[at - 1] in WHICH
    return which or (words[number.end : number.end + 2] == ["on", "the"] and words[number.end + 2] in WHICH)


def names_part(reading: Reading, number: Mention) -> bool:
    """Whether a part is named right behind the number, which may count it."""
    return any(m.start == number.end for m in reading.of("part"))


def counts(words: Sequence[str], number: Mention) -> bool:
    """Whether a thing stands behind the number that it may count."""
    behind = words[number.end : number.end + 1]
    return bool(behind) and behind[0].isalpha() and behind[0].endswith("s") and behind[0] not in NO_THINGS


def is_put_right(reading: Reading, before: Mention, number: Mention) -> bool:
    """Whether words between two numbers tell that the first was wrong, and the second is said of no other part."""
    words = reading.all_words
    between = set(words[before.end : number.start])
    if is_of_a_part(reading, number) and not between & (WRONG | TOOLS):
        return False
    cues = (*reading.of("correct"), *reading.of("take-back"))
    if any(before.end <= c.start and c.end <= number.start and not denies(words, c) for c in cues):
        return True
    return bool(between & WRONG)


def denies(words: Sequence[str], cue: Mention) -> bool:
    """Whether a bare "no" only denies what stands behind it."""
    after = words[cue.end] if cue.end < len(words) else "."
    return words[cue.start : cue.end] == ["no"] and after[0].isalpha() and after not in BEHIND_NO


def is_of_a_part(reading: Reading, number: Mention) -> bool:
    """Whether the part that the number is said of stands right before it: "nuts, eight", "gap on the door is two"."""
    words, at = reading.all_words, number.start
    while at and words[at - 1] in LINKS:
        at -= 1
    return any(m.end == at for m in reading.of("part"))
