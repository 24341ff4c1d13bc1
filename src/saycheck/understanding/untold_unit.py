"""What a number means whose unit was left out: a small trained part beside the rules of ``unspoken``.

"Rear tyre, twenty-six on the depth gauge" is no pressure, "shank's forty, heel's thirty-seven" counts nothing, and of
"teeth, eight, all there" there is nothing to measure. Which it is hangs on the part, the number, the words around it,
and on what was told of parts alike before. Trained by ``bench/train_units.py``; without weights the rules decide.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import inf, isclose, log, log2

from saycheck.understanding import encoder
from saycheck.understanding.arrays import agreed, shared
from saycheck.understanding.encoder import Read
from saycheck.understanding.linear import trained
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.statements import Statement, says_fault
from saycheck.understanding.text import Mention, Reading

QUANTITIES = {
    "mm": "length", "in": "length", "psi": "pressure", "bar": "pressure", "kPa": "pressure", "V": "voltage",
    "percent": "share", "degC": "temperature", "degF": "temperature", "h": "time",
}  # fmt: skip
"""What is measured in the units that are left out."""
NONE, COUNT = "none", "count"
PARTS_OF = {
    "tenths of a bar": ("bar", 1 / 10),
    "thirty-seconds": ("in", 1 / 32),
    "of a whole": ("percent", 100.0),
}
"""Parts of a unit that are counted without naming it, and how much of it each is: "two six" for 2.6 bar, "front eleven,
rear nine" of thirty-seconds of an inch, "half".
"""
UNITS = (NONE, COUNT, *QUANTITIES, *PARTS_OF)
"""What a number may be: nothing to write down, how many there are, or so much in one of the units or parts of one."""
POSSIBLE = {
    NONE: (-inf, inf), COUNT: (1, 100), "mm": (0.01, 1000), "in": (0.01, 60), "psi": (1, 6000), "bar": (0.1, 420),
    "kPa": (0.1, 1500), "V": (0.1, 500), "percent": (1, 100), "degC": (-60, 200), "degF": (-60, 400), "h": (1, 100_000),
    "tenths of a bar": (10, 99), "thirty-seconds": (1, 64), "of a whole": (0.01, 0.99),
}  # fmt: skip
"""The least and the most of each that is told on a walk; common practice, no source."""
WHOLE = frozenset([COUNT, "tenths of a bar", "thirty-seconds"])
"""What comes in whole numbers only."""
MEANING_COUNTS = 0.5
"""What the encoder counts beside the words that stand around."""
NONE_COUNTS = 0.3
"""What "nothing" keeps of its share: whoever says a number of a part mostly means it to be written down."""
BEFORE, BEHIND, NEXT = 6, 5, 3
"""How many words before a number and behind it are looked at, and of how many of them the place counts."""
FARTHEST = 4
"""Steps of half a doubling by which two numbers differ, at most; farther is all the same."""
FEW = 12


def name_of(ruled: Quantity, bare: Quantity) -> str:
    """Which of ``UNITS`` a number is as the rules read it."""
    for name, (unit, scale) in PARTS_OF.items():
        if ruled.unit == unit and isclose(ruled.value, bare.value * scale):
            return name
    return ruled.unit or NONE


def in_unit(bare: Quantity, unit: str) -> Quantity:
    """A bare number as so much in one of ``UNITS``; as it is where that is ``NONE``."""
    name, scale = PARTS_OF.get(unit, (unit, 1.0))
    value, open_by = bare.value * scale, bare.plus_minus * scale
    told = None if name == NONE else name
    return replace(bare, value=value, plus_minus=open_by, unit=told, quantity=QUANTITIES.get(name))


def can_be(quantity: Quantity, unit: str) -> bool:
    """Whether there is so much of a unit on a machine."""
    least, most = POSSIBLE[unit]
    whole = unit not in WHOLE or quantity.value == int(quantity.value)
    return whole and least <= quantity.value <= most


def step_of(value: float) -> str:
    """How much a number is, in steps of half a doubling."""
    return str(round(2 * log2(value))) if value > 0 else "none" if value == 0 else "below"


def beside(value: float, other: float) -> str:
    """How many such steps a number is above another one."""
    return str(max(-FARTHEST, min(FARTHEST, round(2 * log2(value / other))))) if value * other > 0 else "-"


def nearest(value: float, told: Iterable[Quantity]) -> Quantity | None:
    """Which of the quantities is nearest to a value, by how many times as much it is; the first of those as near."""
    return min(
        (q for q in told if q.value * value > 0), key=lambda q: abs(log(value / q.value)), default=None
    )


@dataclass
class Heard:
    """The quantities of a walk so far, by kinds of parts: all of them, and those whose unit was said."""

    told: dict[str, list[Quantity]] = field(default_factory=dict)
    said: dict[str, list[Quantity]] = field(default_factory=dict)

    def add(self, kind: str, quantity: Quantity, said: bool) -> None:
        """Remember one more of a kind."""
        self.told.setdefault(kind, []).append(quantity)
        if said:
            self.said.setdefault(kind, []).append(quantity)


def features(
    reading: Reading, number: Mention, statement: Statement, ruled: str, heard: Heard, kind: str
) -> list[str]:
    """Names of the binary features of a bare number in a statement.

    ``ruled`` is which of ``UNITS`` it is by the rules, ``kind`` that of the part in ``heard``.
    """
    quantity: Quantity = number.value
    subject, value = statement.subject, quantity.value
    part, trouble = subject.part, says_fault(statement)
    size, whole = step_of(value), "whole" if value == int(value) else "point"
    head, like = part.name.split()[-1], part.family
    few = int(value) if whole == "whole" and 0 <= value <= FEW else "-"
    out = [
        f"b={size}", f"whole={whole}", f"form={quantity.form}", f"b={size}/{whole}", f"few={few}",
        f"step={quantity.plus_minus if quantity.plus_minus < 1 / 10 else '-'}",
        f"rule={ruled}", f"rule={ruled}/{whole}", f"rule={ruled}/{kind}", f"rule={ruled}/{trouble}",
        f"part={part.name}", f"head={head}", f"like={like}", f"head={head}/{size}", f"like={like}/{size}",
        f"plural={subject.plural}/{few}",
    ]  # fmt: skip
    for measure in part.part.measures if part.part else ():
        out += [f"m={measure.attribute}", f"m={measure.attribute}/{size}", f"m={measure.attribute}/{whole}"]
    for word in subject.spoken.lower().split():
        out += [f"said={word}", f"said={word}/{size}"]
    out += words_around(reading, number)
    out += alike("", value, heard.told.get(kind, ())) + alike("said ", value, heard.said.get(kind, ()))
    for unit in sorted({str(q.unit) for some in heard.said.values() for q in some}):
        out += [f"used={unit}", f"used={unit}/{like}", f"used={unit}/{size}"]
    return out


def words_around(reading: Reading, number: Mention) -> list[str]:
    """Features of the words before a number and behind it."""
    words = reading.all_words
    before = words[max(0, number.start - BEFORE) : number.start][::-1]
    behind = words[number.end : number.end + BEHIND]
    out = [f"before={word}" for word in before] + [f"behind={word}" for word in behind]
    out += [f"before{i}={word}" for i, word in enumerate(before[:NEXT])]
    out += [f"behind{i}={word}" for i, word in enumerate(behind[:NEXT])]
    return [*out, f"two={before[:2]}", f"and two={behind[:2]}", f"between={before[:1]}{behind[:1]}"]


def alike(how: str, value: float, told: Sequence[Quantity]) -> list[str]:
    """Features of the quantities that were told before of parts of the same kind; ``how`` they were told."""
    if not told:
        return [f"{how}first"]
    last = told[-1]
    out = [f"{how}had={unit}" for unit in sorted({str(q.unit) for q in told})]
    out += [f"{how}last={last.unit}", f"{how}last={last.unit}/{beside(value, last.value)}"]
    near = nearest(value, told)
    if near:
        out += [f"{how}near={near.unit}", f"{how}near={near.unit}/{beside(value, near.value)}"]
    return out


def shares(made: Read, number: Mention) -> dict[str, float]:
    """The likelihood of each of ``UNITS`` by what the words of a number mean where they stand."""
    meaning = made.means([(made.around(number.start, number.end), number.start, number.end)])
    scores = (meaning @ made.heads["unit"] + made.heads["unit_bias"])[0]
    return dict(zip(UNITS, map(float, shared(scores)), strict=True))


def unit_of(
    reading: Reading, number: Mention, statement: Statement, ruled: str, heard: Heard, kind: str
) -> str:
    """Which of ``UNITS`` a bare number is; what the rules say where nothing was trained, or where that is another unit
    ("right track sag, twelve" behind centimetres). The rest is as in ``features``.

    Leaves on ``reading.data["bare numbers"]`` what there is to learn from.
    """
    if ruled not in UNITS:
        return ruled
    seen = features(reading, number, statement, ruled, heard, kind)
    reading.data.setdefault("bare numbers", []).append((number, seen, ruled))
    model = trained("units")
    if model is None:
        return ruled
    likely = model.shares(seen)
    made = encoder.read(reading)
    if made is not None and "unit" in made.heads:
        likely = agreed((likely, 1 - MEANING_COUNTS), (shares(made, number), MEANING_COUNTS))
    return likeliest(number.value, likely)


def likeliest(quantity: Quantity, likely: Mapping[str, float]) -> str:
    """The likeliest of the units that a number can be."""
    possible = {
        unit: share * (NONE_COUNTS if unit == NONE else 1)
        for unit, share in likely.items()
        if can_be(quantity, unit)
    }
    return max(possible, key=lambda unit: possible[unit])
