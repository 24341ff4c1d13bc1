"""Units that were left unsaid: "left front forty-eight", "batteries twelve point six, twelve point five".

A number without a unit gets one only where the part leaves no doubt: the unit last said for the same
kind of part on this walk, or the one in which such a part is always given. Everything else stays a bare
number and is not entered. Ranges of plausible values: common practice, no source.
"""

from dataclasses import replace

from saycheck.understanding.quantities import Quantity
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Mention
from saycheck.vocabulary.compiled import Part

PSI_LEAST, PSI_MOST = 12, 150
BAR_MOST = 11
VOLTS = (1.5, 60)
FILLED = frozenset("fuel def adblue diesel tank glass gauge oil fluid coolant washer".split())
"""Of these a fraction is how full they are: "AdBlue, three quarters"."""
LEFT_OVER = frozenset([1 / 4, 1 / 3, 1 / 2, 2 / 3, 3 / 4])
"""Of a tyre these are the share of the tread that is left, no inches."""
TREAD = frozenset("tread lug lugs profile".split())
DEEP = frozenset(["sag", "thickness", "depth", "height"])
LEAST_MM, MOST_MM = 5, 400
DEEPEST_IN = 4
"""No tread is deeper, in inches."""


def tenths_behind(said: list[tuple[Quantity, Mention]]) -> list[tuple[Quantity, Mention]]:
    """ "Twelve six": bare volts and their tenths side by side are one number."""
    out: list[tuple[Quantity, Mention]] = []
    for quantity, mention in said:
        whole = out[-1] if out else None
        bare = quantity.unit is None and quantity.value in range(10)
        if whole and bare and whole[0].unit is None and whole[1].end == mention.start and whole[0].value > 9:
            value = whole[0].value + quantity.value / 10
            joined = Mention("quantity", whole[1].start, mention.end)
            out[-1] = replace(whole[0], value=value, plus_minus=0.05), joined
        else:
            out.append((quantity, mention))
    return out


class Unspoken:
    """Remembers the units used on one walk."""

    def __init__(self) -> None:
        self.last: dict[str, Quantity] = {}
        self.length: str | None = None

    def __call__(self, statement: Statement) -> None:
        """Give every bare number of the statement its unit, or drop it."""
        part = statement.subject.part
        like = (part.part.like or part.part.name) if part.part else part.name
        kept = []
        if "batter" in part.name or "batter" in like:
            statement.quantities = tenths_behind(statement.quantities)
        for quantity, mention in statement.quantities:
            if quantity.unit == "lb" and ("tyre" in part.name or "tyre" in like):
                quantity = replace(quantity, unit="psi", quantity="pressure")
            if quantity.unit is None:
                quantity = self.guess(quantity, like, part.name)
            if quantity.unit is None and part.part and self.is_deep(part.part, quantity):
                quantity = replace(quantity, unit=self.length, quantity="length")
            if quantity.unit is not None:
                self.last[like] = quantity
                self.length = quantity.unit if quantity.quantity == "length" else self.length
                kept.append((quantity, mention))
        statement.quantities = kept

    def is_deep(self, part: Part, quantity: Quantity) -> bool:
        """Whether a bare number is the one length that such a part is measured by, in the unit of this walk."""
        one = part.measures[0].attribute if len(part.measures) == 1 else ""
        return one in DEEP and self.length == "mm" and LEAST_MM <= quantity.value <= MOST_MM

    def guess(self, quantity: Quantity, like: str, name: str) -> Quantity:
        """The quantity with the unit that such a part leaves no doubt about; unchanged where it does."""
        value, form = quantity.value, quantity.form
        last = self.last.get(like)
        said = f"{like} {name}"
        if "tyre" in said and form == "fraction" and value in LEFT_OVER:
            return replace(quantity, value=100 * value, plus_minus=100 * quantity.plus_minus, unit="percent")
        if TREAD & set(said.split()):
            return self.tread(quantity, last)
        if "tyre" in said and form != "fraction":
            if last and last.quantity == "pressure":
                return replace(quantity, unit=last.unit, quantity="pressure")
            if PSI_LEAST <= value <= PSI_MOST:
                return replace(quantity, unit="psi", quantity="pressure")
            if 0 < value <= BAR_MOST and value != int(value):
                return replace(quantity, unit="bar", quantity="pressure")
        if "batter" in said and VOLTS[0] <= value <= VOLTS[1] and value != int(value):
            return replace(quantity, unit="V", quantity="voltage")
        if ("coolant" in said or "antifreeze" in said) and value < 0:
            return replace(quantity, unit="degC", quantity="temperature")
        if form == "fraction" and value < 1 and FILLED & set(said.lower().split()):
            return replace(quantity, value=100 * value, plus_minus=100 * quantity.plus_minus, unit="percent")
        if form == "fraction" and value < DEEPEST_IN:
            return replace(quantity, unit="in", quantity="length")
        if (
            last
            and last.value
            and 0.3 <= abs(value / last.value) <= 3
            and not (value == int(value) and value < 5)
        ):
            return replace(quantity, unit=last.unit, quantity=last.quantity)
        return quantity

    def tread(self, quantity: Quantity, last: Quantity | None) -> Quantity:
        """A bare number of a tread: as the last one on this walk, else millimetres where it can be; a fraction is
        a share of what a new one has ("half") or of an inch ("seven thirty-seconds").
        """
        if quantity.form == "fraction" and quantity.value in LEFT_OVER:
            share = 100 * quantity.value
            return replace(quantity, value=share, plus_minus=100 * quantity.plus_minus, unit="percent")
        if quantity.form == "fraction" and quantity.value < DEEPEST_IN:
            return replace(quantity, unit="in", quantity="length")
        if last and last.quantity == "length":
            return replace(quantity, unit=last.unit, quantity="length")
        if quantity.form != "fraction" and 2 <= quantity.value <= PSI_MOST / 2:
            return replace(quantity, unit="mm", quantity="length")
        return quantity
