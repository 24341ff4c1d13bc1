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
# h; below it no hour meter is read aloud. Common practice, no source.
LEAST_READING = 100


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
        if hours or (quantity.unit is None and named(before, behind)):
            found.append((mention, quantity.value))
    return found


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
    on_the = behind[:2] == ["on", "the"] and behind[2:3] in (["clock"], ["hours"], ["meter"], ["hour"])
    return on_the or behind[:2] == ["on", "clock"]
