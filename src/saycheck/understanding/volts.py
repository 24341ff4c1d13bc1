"""Volts whose point was left out: "batteries twelve eight and twelve seven", "it's charging at fourteen two".

Beside a word that tells of electricity a two-figure number and a single figure right behind it are one number of volts
and tenths. Elsewhere they may be two things ("axle twelve, four nuts").
"""

from dataclasses import replace

from saycheck.understanding.quantities import Quantity
from saycheck.understanding.text import Mention, Reading

ELECTRIC = frozenset(
    "battery batteries batteries' battery's alternator alternator's charge charges charging cranking crank volt volts"
    " voltage voltmeter multimeter".split()
)
BEHIND, AHEAD = 16, 6
"""How many words before the number, and behind it, such a word may stand."""
LEAST, MOST = 10, 29
"""Whole volts of a machine's batteries and alternator, of 12 and 24 V (common practice, no source)."""


def join_tenths(reading: Reading) -> None:
    """Make one number of each two that are volts and their tenths."""
    joined = list[Mention]()
    for number in reading.of("quantity"):
        before = joined[-1] if joined else None
        if before is not None and is_tenth(before, number) and is_electric(reading, number):
            value = before.value.value + number.value.value / 10
            unit = replace(before.value, value=value, plus_minus=0.05, unit="V", quantity="voltage")
            joined[-1] = Mention("quantity", before.start, number.end, unit)
        else:
            joined.append(number)
    reading.mentions["quantity"] = joined


def is_tenth(whole: Mention, number: Mention) -> bool:
    """Whether two numbers said one right behind the other can be whole volts and their tenths."""
    volts: Quantity = whole.value
    tenth: Quantity = number.value
    beside = whole.end == number.start and number.end - number.start == 1
    bare = volts.unit is None and tenth.unit is None and tenth.value in range(10)
    return beside and bare and volts.value == int(volts.value) and LEAST <= volts.value <= MOST


def is_electric(reading: Reading, number: Mention) -> bool:
    """Whether a word near the number tells that it is of a battery or an alternator."""
    words = reading.all_words[max(0, number.start - BEHIND) : number.end + AHEAD]
    return not ELECTRIC.isdisjoint(words)
