"""The hour meter, read aloud: "meter says 11,482 hours", "hours, nine one four six"."""

from saycheck.understanding.quantities import Quantity
from saycheck.understanding.text import Mention, Reading

METER_WORDS = frozenset(["hours", "clock", "meter", "hourmeter", "hobbs", "hour"])
# What else the meter is once it is told that it is one of hours: "the hour window", "hour counter".
METER = frozenset("window counter gauge clock meter display dial".split())
# What else a meter or a clock can be of: "oil pressure meter reads two hundred".
OTHER_METERS = frozenset(
    "pressure oil temperature temp fuel air water coolant volt volts amp rev boost".split()
)
NOT_A_READING = frozenset(
    "every another next within after for per lasted life more last since old further about before until interval ago"
    " in under over costs cost labour work running warranty changed done due".split()
)
# What the machine itself has done is on its meter.
HAS_DONE = frozenset((who, has, "done") for who in ("she", "it", "he", "machine") for has in ("'s", "has"))
# Right before the number or before its "at" these tell of a time to come: "measure it again at five hundred hours".
TO_COME = frozenset(["again", "a", "an"])
# Right behind the hours these tell what they are hours of: "nine thousand hours of crud", "five hundred overdue".
HOURS_OF = frozenset(
    "of overdue due over ago past since late early old machine service interval left more apart later".split()
)
# Words between the meter and what it shows.
BETWEEN = frozenset(
    ", : is at says say reads reading showing shows show has 's on it are the currently stands stood -".split()
)
# Whose clock a number is on: "nineteen thousand and forty on his clock".
WHOSE = frozenset("the his her its that this".split())
# h; below it no hour meter is read aloud. Common practice, no source.
LEAST_READING = 100
# h; from here on, or where it is said digit by digit, a bare number soon behind a word for the meter is its reading.
SURELY_READING = 1000
# How many words before a number the meter may be asked for: "Hours? Where's it, there: two two seven nine."
ASKED_WITHIN = 12
# Between the two these tell of another number: "hour meter works, serial number is four one six two".
OTHER_NUMBERS = frozenset(
    "number serial fleet unit model year idles idle idling relief pressure service sold due".split()
)
# How many words behind a reading the word may stand that takes it back, how many behind that the right one, and how
# many times as much or as little that is at most.
TAKEN_BACK_WITHIN, PUT_RIGHT_WITHIN, MOST_TIMES = 8, 6, 3


def readings(reading: Reading) -> list[tuple[Mention, float]]:
    """Quantities that are an hour-meter reading, with their value in h."""
    words = reading.all_words
    found = []
    for mention in reading.of("quantity"):
        quantity: Quantity = mention.value
        before = words[max(0, mention.start - 6) : mention.start]
        behind = words[mention.end : mention.end + 5]
        if quantity.value < LEAST_READING:
            continue
        hours = (
            quantity.unit == "h"
            and (not NOT_A_READING & set(before[-2:]) or tuple(before[-3:]) in HAS_DONE)
            and not is_other_time(before, behind)
        )
        bare = quantity.unit is None
        if hours or (bare and (named(before, behind) or is_asked_for(reading, mention))):
            found.append((mention, quantity.value))
    return put_right(reading, found)


def is_other_time(before: list[str], behind: list[str]) -> bool:
    """Whether hours are a time to come or how much there is of something: "look again at five hundred hours"."""
    led = before[:-1] if before[-1:] == ["at"] else before
    return bool(TO_COME & set(led[-1:]) or HOURS_OF & set(behind[:1]))


def named(before: list[str], behind: list[str]) -> bool:
    """Whether the meter is named around a bare number."""
    close = [i for i, w in enumerate(before) if w not in BETWEEN]
    if close:
        of, meter = before[close[-1] - 1 : close[-1]], before[close[-1]]
        if meter in METER_WORDS and not OTHER_METERS & set(of):
            return True
        if of == ["hour"] and meter in METER:
            return True
    if behind[:1] != ["on"]:
        return False
    on = behind[2:] if behind[1:2] and behind[1] in WHOSE else behind[1:]
    # "On the engine hours", but not "on the fuel meter".
    on = on[1:] if on[:1] in (["engine"], ["dash"], ["hour"]) and on[1:] else on
    return on[:1] in (["clock"], ["hours"], ["meter"], ["hour"])


def is_asked_for(reading: Reading, number: Mention) -> bool:
    """Whether the meter was spoken of a little before a bare number that can be nothing else, and nothing since then:
    "How many hours? Three six one eight."
    """
    quantity: Quantity = number.value
    if quantity.value < SURELY_READING and quantity.form != "digits":
        return False
    words = reading.all_words
    first = max(0, number.start - ASKED_WITHIN)
    near = reading.inside("quantity", first - ASKED_WITHIN, number.start)
    lasted = {i for m in near for i in range(m.start, m.end)}
    spoken_of = (
        i for i in reversed(range(first, number.start)) if words[i] in METER_WORDS and i not in lasted
    )
    at = next(spoken_of, None)
    if at is None or words[max(0, at - 1)] in OTHER_METERS:
        return False
    if OTHER_NUMBERS & {*words[at : number.start], *words[number.end : number.end + 1]}:
        return False
    if NOT_A_READING & {*words[max(0, at - 2) : at], *words[max(0, number.start - 2) : number.start]}:
        return False
    parts = [
        m
        for m in reading.inside("part", at + 1, number.start)
        if words[m.start - 2 : m.start] != ["on", "the"]
    ]
    return not parts and not reading.inside("quantity", at, number.start)


def put_right(reading: Reading, found: list[tuple[Mention, float]]) -> list[tuple[Mention, float]]:
    """Readings without those that another number takes back: "hours, one one five two. No, one one two five"."""
    right = ((mention, right_one(reading, mention) or mention) for mention, _ in found)
    kept = {last.start: (last, value_of(last)) for _, last in right}
    return list(kept.values())


def value_of(number: Mention) -> float:
    """How much a number is."""
    return float(number.value.value)


def right_one(reading: Reading, taken: Mention) -> Mention | None:
    """The number that puts a reading right, or None: it stands soon behind the word that takes the reading back, is
    about as much, and nothing else was spoken of since.
    """
    cues = [c for kind in ("correct", "take-back") for c in reading.of(kind)]
    near = [c.end for c in cues if taken.end <= c.start <= taken.end + TAKEN_BACK_WITHIN]
    if not near:
        return None
    behind = [n for n in reading.of("quantity") if n.start >= min(near)]
    right = next((n for n in behind if n.value.unit in (None, "h")), None)
    if right is None or right.start > max(near) + PUT_RIGHT_WITHIN or right.value.value < LEAST_READING:
        return None
    times = value_of(right) / value_of(taken)
    others = OTHER_NUMBERS & set(reading.words(taken.end, right.start))
    alone = not others and not reading.inside("part", taken.end, right.start)
    return right if alone and 1 / MOST_TIMES <= times <= MOST_TIMES else None
