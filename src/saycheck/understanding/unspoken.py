"""Units that were left unsaid: "left front forty-eight", "batteries twelve point six, twelve point five".

The rules give a number without a unit one only where the part leaves no doubt: the unit of a number like it that was
said of the same kind of part on this walk, or the one in which such a part is always given. What was learned of such
numbers (``untold_unit``) has the last word. What is still a bare number is not entered. Ranges of plausible values:
common practice, no source.
"""

from dataclasses import replace

from saycheck.understanding.quantities import Quantity
from saycheck.understanding.statements import Statement, Subject
from saycheck.understanding.text import Mention, Reading
from saycheck.understanding.untold_unit import COUNT, Heard, in_unit, name_of, nearest, unit_of

PSI_LEAST, PSI_MOST = 12, 150
BAR_MOST = 11
VOLTS = (1.5, 60)
FILLED = frozenset("fuel def adblue diesel tank glass gauge oil fluid coolant washer".split())
"""Of these a fraction is how full they are: "AdBlue, three quarters"."""
WORN = frozenset(
    "teeth tooth tip tips edge edges bit bits shoe shoes pad pads brush brushes belt filter radiator grille screen"
    " segment segments tyre tyres track tracks".split()
)
"""Of these a fraction is what is left to wear, or how much of it is choked: "teeth, about half"."""
LEFT_OVER = frozenset([1 / 4, 1 / 3, 1 / 2, 2 / 3, 3 / 4])
"""Of a tyre these are the share of the tread that is left, no inches."""
TREAD = frozenset("tread lug lugs profile".split())
DEEP = frozenset(["sag", "thickness", "depth", "height"])
SLACK = frozenset(["sag", "tension", "slack"])
"""Whoever says these of a track measures how deep it hangs."""
LEAST_MM, MOST_MM = 5, 400
DEEPEST_IN = 4
"""No tread is deeper, in inches."""
HALF_STEPS = frozenset([1 / 16, 1 / 32, 1 / 64])
"""How far eighths, sixteenths and thirty-seconds leave a number open: only inches are told in them."""
SURELY_MM = 15
"""Nothing that is deep is that deep in inches."""
ALIKE, TYRES_ALIKE = 3.3, 2.0
"""A bare number is of the unit of another one of its kind that is at most so many times as much, or as little; of
tyres, whose pressure and tread are both told, nearer."""
TYRE = "tyre"
"""The kind under which the numbers of tyres and treads are remembered."""
FEW = 5
"""Whole numbers below may count things."""


def as_number(count: int, mention: Mention) -> Quantity:
    """How many there are, by the rules, as a bare number."""
    said = mention.value if isinstance(mention.value, Quantity) else Quantity(float(count), None, 0.5)
    return replace(said, value=float(count), unit=None, quantity=None)


class Unspoken:
    """Remembers the units used on one walk."""

    def __init__(self) -> None:
        self.heard = Heard()
        self.length: str | None = None

    def __call__(self, reading: Reading, statement: Statement) -> None:
        """Give every bare number of the statement its unit, or drop it; what is measured counts nothing."""
        part = statement.subject.part
        counted, statement.count = statement.count, None
        numbers, statement.quantities = statement.quantities, []
        for quantity, mention in numbers:
            if quantity.unit == "lb" and "tyre" in f"{part.name} {part.family}":
                quantity = replace(quantity, unit="psi", quantity="pressure")
            elif quantity.unit == "lb":
                continue  # what it costs
            if quantity.unit is not None:
                self.keep(statement, quantity, mention, said=True)
                continue
            ruled = self.ruled(statement.subject, quantity)
            if ruled.unit is None and counted and mention.overlaps(counted[1]):
                ruled = replace(quantity, unit=COUNT)
            self.settle(reading, statement, ruled, quantity, mention)
        if counted and not any(m.overlaps(counted[1]) for _, m in numbers):
            quantity = as_number(*counted)
            self.settle(reading, statement, replace(quantity, unit=COUNT), quantity, counted[1])

    def keep(self, statement: Statement, quantity: Quantity, mention: Mention, said: bool) -> None:
        """Enter a quantity whose unit is known now, or was ``said``."""
        part = statement.subject.part
        self.heard.add(kind_of(part.family, part.name), quantity, said)
        self.length = quantity.unit if quantity.quantity == "length" else self.length
        statement.quantities.append((quantity, mention))

    def settle(
        self, reading: Reading, statement: Statement, ruled: Quantity, quantity: Quantity, mention: Mention
    ) -> None:
        """Enter a bare number as so much in its unit or as how many there are, or not at all."""
        part = statement.subject.part
        kind = kind_of(part.family, part.name)
        number = Mention(mention.kind, mention.start, mention.end, quantity)
        known = name_of(ruled, quantity)
        unit = unit_of(reading, number, statement, known, self.heard, kind)
        told = ruled if unit == known else in_unit(quantity, unit)
        if told.unit == COUNT:
            statement.count = statement.count or (round(told.value), mention)
        elif told.unit is not None:
            self.keep(statement, told, mention, said=False)

    def ruled(self, subject: Subject, quantity: Quantity) -> Quantity:
        """A bare number as the rules read it."""
        ruled = self.guess(quantity, subject.part.family, subject.part.name)
        if ruled.unit is None and self.is_deep(subject, quantity):
            return replace(quantity, unit="mm", quantity="length")
        return ruled

    def is_deep(self, subject: Subject, quantity: Quantity) -> bool:
        """Whether a bare number is the one length that such a part is measured by, in millimetres."""
        measures = subject.part.part.measures if subject.part.part else ()
        one = measures[0].attribute if len(measures) == 1 else ""
        deep = one in DEEP or SLACK & set(subject.spoken.lower().split())
        least = LEAST_MM if self.length == "mm" else SURELY_MM
        return bool(deep) and least <= quantity.value <= MOST_MM

    def on_a_scale(self, quantity: Quantity) -> Quantity | None:
        """The bare number of a tyre where the last one was told in thirty-seconds of an inch, or all in percent."""
        told, value = self.heard.told.get(TYRE, []), quantity.value
        if not told or value != int(value) or value <= 0:
            return None
        size = value / 32
        if told[-1].plus_minus == 1 / 64 and max(size / told[-1].value, told[-1].value / size) <= ALIKE:
            return replace(quantity, value=size, plus_minus=1 / 64, unit="in", quantity="length")
        in_share = any(q.unit == "percent" for q in told) and not any(q.quantity == "pressure" for q in told)
        if in_share and value % 5 == 0 and 5 <= value <= 100:
            return replace(quantity, unit="percent", quantity="share")
        return None

    def guess(self, quantity: Quantity, like: str, name: str) -> Quantity:
        """The quantity with the unit that such a part leaves no doubt about; unchanged where it does."""
        value, form = quantity.value, quantity.form
        said = f"{like} {name}"
        kind = kind_of(like, name)
        last = nearest(value, reversed(self.heard.told.get(kind, ())))
        times = max(value / last.value, last.value / value) if last else ALIKE
        if "tyre" in said and form == "fraction" and value in LEFT_OVER:
            return in_percent(quantity)
        if kind == TYRE and (scaled := self.on_a_scale(quantity)):
            return scaled
        if last and times <= TYRES_ALIKE and kind == TYRE:
            return replace(quantity, unit=last.unit, quantity=last.quantity)
        if TREAD & set(said.split()):
            return tread(quantity)
        if "tyre" in said and form != "fraction":
            if PSI_LEAST <= value <= PSI_MOST:
                return replace(quantity, unit="psi", quantity="pressure")
            if 0 < value <= BAR_MOST and value != int(value):
                return replace(quantity, unit="bar", quantity="pressure")
        if is_electric(said) and VOLTS[0] <= value <= VOLTS[1] and value != int(value):
            return replace(quantity, unit="V", quantity="voltage")
        if ("coolant" in said or "antifreeze" in said) and value < 0:
            return replace(quantity, unit="degC", quantity="temperature")
        if form == "fraction" and value < 1 and FILLED & set(said.lower().split()):
            return in_percent(quantity)
        if form == "fraction" and value in LEFT_OVER and WORN & set(said.split()):
            return in_percent(quantity)
        if (form == "fraction" or quantity.plus_minus in HALF_STEPS) and value < DEEPEST_IN:
            return replace(quantity, unit="in", quantity="length")
        if last and times <= ALIKE and not may_count(quantity):
            return replace(quantity, unit=last.unit, quantity=last.quantity)
        return quantity


def kind_of(like: str, name: str) -> str:
    """Under what name the numbers of a part are remembered: all tyres and their treads are one kind."""
    said = f"{like} {name}"
    return TYRE if "tyre" in said or TREAD & set(said.split()) else like


def is_electric(said: str) -> bool:
    """Whether a part of this name is measured in volts."""
    return any(word in said for word in ("batter", "alternator", "charging"))


def in_percent(share: Quantity) -> Quantity:
    """A share of a whole, "three quarters", in percent."""
    return replace(share, value=100 * share.value, plus_minus=100 * share.plus_minus, unit="percent")


def may_count(quantity: Quantity) -> bool:
    """Whether a number may be how many there are: it is small and whole, and said without a point."""
    return quantity.value < FEW and quantity.value == int(quantity.value) and quantity.plus_minus >= 1 / 2


def tread(quantity: Quantity) -> Quantity:
    """A bare number of a tread, unlike any before: millimetres where it can be; a fraction is a share of what a new
    one has ("half") or of an inch ("seven thirty-seconds").
    """
    if quantity.form == "fraction" and quantity.value in LEFT_OVER:
        return in_percent(quantity)
    if quantity.form == "fraction" and quantity.value < DEEPEST_IN:
        return replace(quantity, unit="in", quantity="length")
    if quantity.form != "fraction" and 2 <= quantity.value <= PSI_MOST / 2:
        return replace(quantity, unit="mm", quantity="length")
    return quantity
