"""Lengths without a unit that their own words tell: "twenty-five of slack", "nought point four of lift".

How far something moves, or is worn, is a length, in the unit that was last used for one; millimetres on a walk
that has used none (common practice, no source). Who measures in inches says fractions, which have their unit already.
"""

from dataclasses import replace

from saycheck.understanding.quantities import Quantity
from saycheck.understanding.text import Mention, Reading

MOVES = frozenset(
    "play slack give movement lift lash backlash slop float endfloat droop sag travel wear clearance".split()
)
LENGTHS = frozenset(["mm", "cm"])
MOST = 400


def measure_play(reading: Reading) -> None:
    """Give bare numbers that tell how far something moves the unit of lengths on this walk."""
    unit = "mm"
    measured = list[Mention]()
    for number in reading.of("quantity"):
        quantity: Quantity = number.value
        if quantity.quantity == "length" and quantity.unit:
            unit = quantity.unit
        elif unit in LENGTHS and is_bare_length(reading, number):
            number = replace(number, value=replace(quantity, unit=unit, quantity="length"))
        measured.append(number)
    reading.mentions["quantity"] = measured


def is_bare_length(reading: Reading, number: Mention) -> bool:
    """Whether a number without a unit is how much there is "of slack" or the like."""
    quantity: Quantity = number.value
    behind = reading.all_words[number.end : number.end + 2]
    tells = len(behind) == 2 and behind[0] == "of" and behind[1] in MOVES
    return tells and quantity.unit is None and quantity.form != "fraction" and 0 < quantity.value <= MOST
