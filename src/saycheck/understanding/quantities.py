"""Numbers with their units, as said: ranges, hedges and ambiguous units included.

A hedge ("about", "a hair over") widens ``plus_minus``; a range gives its middle and half its width. A
unit that can mean two things ("mil": a millimetre or a thousandth of an inch) keeps both.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from saycheck.understanding.number_words import ONES, TENS
from saycheck.understanding.numbers import Number, fraction, is_written, parse
from saycheck.understanding.phrases import PhraseTable
from saycheck.understanding.text import Mention, Reading
from saycheck.vocabulary.schema import Unit

# Share of the value that a hedge leaves open; common practice, no source.
HEDGE_SHARE = 0.1
HEDGES = (
    "about", "around", "roughly", "maybe", "perhaps", "nearly", "almost", "approximately", "approx", "some", "say",
    "call it", "probably", "near enough", "or so", "ish", "give or take", "somewhere around", "something like",
    "in the region of", "just over", "just under", "a hair over", "a hair under", "a bit over", "a bit under", "over",
    "under", "more than", "less than", "at least", "at most", "close to", "a good", "near", "around about", "i'd say",
    "i would say", "a shade over", "a shade under", "upwards of", "north of", "south of", "i guess", "guessing",
)  # fmt: skip
BETWEEN_NUMBERS = frozenset(["to", "or", "-", "–", "and"])
# Words that are units only right behind a figure, since they are ordinary words as well.
ONLY_WRITTEN = frozenset(["m", "a", "v", "c", "l", "h", "g", '"', "'", "s", "ft"])
ARTICLE_UNITS = frozenset(
    ["in", "L", "mL", "quart", "gal", "pint", "turn", "mm", "cm", "ft", "thread", "finger"]
)
STRESSED = frozenset("good full bare scant fair big short whole solid wee clear".split())
LOOSE_BEFORE_UNIT = (("odd",), ("ish",), ("and", "a", "bit"), ("or", "so"))
CLAUSE_BEGINS = frozenset([",", ".", ";", ":", "-", "–", "—", "and", "but"])
FROM_MARK = frozenset("under below over above down short off from deep long thick".split())
"""Behind a unit without its number these tell that it is one: "inch under the neck"."""
MARKED_UNITS = frozenset(["inch", "mil"])
BARE_UNITS = MARKED_UNITS | frozenset(["minute", "hour", "turn", "thread"])
"""Units that are said without their number: "a minute and a half"; the first ones also as in "inch under the neck"."""
PAIRED = frozenset("time length pressure temperature speed torque power volume mass".split())
"""What is said in pairs: "one twenty psi", "eight fifty revs"; volts are not, "twelve six" is 12.6."""
NAMED_BY_NUMBER = frozenset("axle number tyre tire wheel tank position station".split())
"""Behind these the first of two numbers may be a name: "tyre one, forty psi"."""
NOT_AFTER_IN = frozenset(["thick", "wide", "long", "deep", "left", "high", "of", ".", ",", ";"])


def is_name(words: Sequence[str], at: int) -> bool:
    """Whether the number at ``at`` may tell which one is meant."""
    return at > 0 and words[at - 1] in NAMED_BY_NUMBER


def scaled(low: Number, high: Number) -> Number:
    """The low end of a range in the scale of the high one: "ten to twelve thousand", "two to three eighths"."""
    if high.form == "fraction" and low.value == int(low.value) and low.value * high.step < high.value:
        return replace(low, value=low.value * high.step, step=high.step)
    if high.value >= 1000 and low.value < 1000 and high.value % 1000 == 0 and low.form == "words":
        return replace(low, value=low.value * 1000)
    return low


@dataclass(frozen=True)
class Quantity:
    """A quantity as said; ``unit`` is None where none was said. ``also`` are other units it may be."""

    value: float
    unit: str | None
    plus_minus: float
    quantity: str | None = None
    also: tuple[str, ...] = ()
    form: str = "words"
    hedged: bool = False


class Quantities:
    """Finds quantities in a row of tokens by the unit table."""

    def __init__(self, units: Sequence[Unit]) -> None:
        self.units: PhraseTable[Unit] = PhraseTable()
        for unit in units:
            self.units.add_all(unit.sayings, unit)
        self.hedges: PhraseTable[bool] = PhraseTable()
        self.hedges.add_all(HEDGES, True)

    def unit_at(self, words: Sequence[str], at: int, number: Number) -> tuple[int, Unit] | None:
        """The unit said from word ``at`` on; "of an inch" is read behind a fraction, written in whatever way."""
        start = at
        part_of_one = number.form == "fraction" or number.value != int(number.value)
        if part_of_one and words[at : at + 1] == ["of"]:
            start = at + 2 if words[at + 1 : at + 2] in (["a"], ["an"]) else at + 1
        elif number.form == "fraction" and words[at : at + 1] in (["a"], ["an"]):
            start = at + 1
        for loose in LOOSE_BEFORE_UNIT:
            if tuple(words[start : start + len(loose)]) == loose:
                start += len(loose)
        hit = self.units.longest(words, start)
        if hit and hit[1][0].quantity == "marks" and not counts_marks(words[start], number):
            hit = self.units.longest(words[: start + 1], start)
        if hit is None:
            return None
        end, (unit, *_) = hit
        said = words[start:end]
        figures = is_written(words[number.end - 1])
        if len(said) == 1 and said[0] in ONLY_WRITTEN and not figures:
            return None
        if said == ["in"] and not (figures and (end >= len(words) or words[end] in NOT_AFTER_IN)):
            return None
        if number.form == "article" and number.value == 1 and unit.name not in ARTICLE_UNITS:
            return None
        return end, unit

    def range_at(self, words: Sequence[str], first: Number) -> Number | None:
        """The second number of a range ("three to four", "ten twelve"), or None."""
        at = first.end
        if at < len(words) and words[at] in BETWEEN_NUMBERS:
            second = parse(words, at + 1)
            return second if second and second.form != "article" and second.value > first.value else None
        return None

    def at(self, words: Sequence[str], at: int) -> tuple[int, Quantity] | None:
        """The quantity that begins at word ``at``: (end, quantity), or None."""
        if words[at] in BARE_UNITS:
            return self.unit_and(words, at)
        if words[at] in ("a", "an") and words[at + 1 : at + 2] and words[at + 1] in STRESSED:
            behind = self.at([*words[:at], words[at], *words[at + 2 :]], at)
            return (behind[0] + 1, behind[1]) if behind and behind[1].unit else None
        between = words[at] == "between"
        number = parse(words, at + 1 if between else at)
        if number is None:
            return None
        second = self.range_at(words, number)
        unit = self.unit_at(words, number.end, number)
        if unit and words[unit[0] : unit[0] + 1] == ["to"]:
            second = parse(words, unit[0] + 1)
            second = second if second and second.value > number.value else None
        if second:
            number = scaled(number, second)
        if unit and words[unit[0] : unit[0] + 1] == ["and"]:
            more = fraction(words, unit[0] + 1)
            taken = more and more.value < 1 and (unit[1].quantity == "length" or more.value == 1 / 2)
            if more and taken and number.value == int(number.value):
                whole = self.quantity(number.value + more.value, unit, more.step / 2, "fraction")
                return more.end, whole
        tenths = self.tenths(words, number)
        if tenths:
            return tenths
        if second and (words[number.end] != "and" or between):
            last = self.unit_at(words, second.end, second)
            if last or between or words[number.end] in ("to", "-", "–"):
                return self.ranged(number, second, last or unit)
        if unit is None and (number.form == "article" or (number.value == 1 and not is_written(words[at]))):
            return None
        if number.form == "pairs" and unit and is_tens_and_tenths(words, at, number, unit[1]):
            return unit[0], self.quantity(number.value / 10, unit, 0.05, "words")
        if number.form == "pairs" and unit and (unit[1].quantity not in PAIRED or is_name(words, at)):
            return None
        if between:
            return None
        end = unit[0] if unit else number.end
        return end, self.quantity(number.value, unit, number.step / 2, number.form)

    def tenths(self, words: Sequence[str], number: Number) -> tuple[int, Quantity] | None:
        """ "Twelve six volts": a voltage whose point was left out."""
        behind = parse(words, number.end)
        if (
            number.form != "words"
            or behind is None
            or not (0 <= behind.value < 10 and behind.form == "words")
        ):
            return None
        unit = self.unit_at(words, behind.end, behind)
        if unit is None or unit[1].quantity != "voltage" or behind.value != int(behind.value):
            return None
        return unit[0], self.quantity(number.value + behind.value / 10, unit, 0.05, "words")

    def unit_and(self, words: Sequence[str], at: int) -> tuple[int, Quantity] | None:
        """ "Inch and a half", "mil and a half", "low, inch under the neck": one without its number."""
        part = fraction(words, at + 2) if words[at + 1 : at + 2] == ["and"] else None
        hit = self.units.longest(words, at)
        if (
            hit
            and words[at] in MARKED_UNITS
            and (at == 0 or words[at - 1] in CLAUSE_BEGINS)
            and words[hit[0] : hit[0] + 1]
            and words[hit[0]] in FROM_MARK
        ):
            return hit[0], self.quantity(1.0, (hit[0], hit[1][0]), 0.5, "words")
        if part is None or part.value >= 1 or hit is None:
            return None
        # "The turn signal and half the lights" is no turn and a half.
        if words[at] not in MARKED_UNITS and words[at + 2] not in ("a", "an"):
            return None
        return part.end, self.quantity(1 + part.value, (hit[0], hit[1][0]), part.step / 2, "fraction")

    def ranged(self, low: Number, high: Number, unit: tuple[int, Unit] | None) -> tuple[int, Quantity]:
        """A range as its middle, half its width left open; with the index after it."""
        middle, half = (low.value + high.value) / 2, (high.value - low.value) / 2
        end = max(unit[0] if unit else 0, high.end)
        return end, self.quantity(middle, unit, half, low.form)

    def quantity(self, value: float, unit: tuple[int, Unit] | None, plus_minus: float, form: str) -> Quantity:
        """The value in the unit, or a bare number where there is none."""
        if unit is None:
            return Quantity(value, None, plus_minus, form=form)
        return Quantity(value, unit[1].name, plus_minus, unit[1].quantity, tuple(unit[1].also), form)

    def hedge_before(self, words: Sequence[str], at: int) -> int | None:
        """Where the hedge that ends at ``at`` begins, or None."""
        for length in (4, 3, 2, 1):
            if at >= length and self.hedges.longest(words, at - length) == (at, [True]):
                return at - length
        return None

    def find(self, words: Sequence[str]) -> list[tuple[int, int, Quantity]]:
        """All quantities as (start, end, quantity); a hedge before belongs to the stretch."""
        found, at = [], 0
        while at < len(words):
            hit = self.at(words, at)
            if hit is None:
                at += 1
                continue
            end, quantity = hit
            start = self.hedge_before(words, at)
            behind = words[end : end + 2] == ["or", "so"] or words[end : end + 1] in (["ish"], ["maybe"])
            if start is not None or behind:
                wide = max(quantity.plus_minus, abs(quantity.value) * HEDGE_SHARE)
                quantity = replace(quantity, plus_minus=wide, hedged=True)
            if words[end : end + 1] == ["below"] and quantity.unit in (None, "degC", "degF"):
                unit = quantity.unit or "degC"
                quantity, end = (
                    replace(quantity, value=-abs(quantity.value), unit=unit, quantity="temperature"),
                    end + 1,
                )
            if words[end : end + 2] in (["below", "zero"], ["below", "freezing"]):
                end += 2
            found.append((start if start is not None else at, end, quantity))
            at = end
        return found

    def __call__(self, reading: Reading) -> None:
        """Put a ``quantity`` mention on the reading for each quantity."""
        words = reading.all_words
        reading.mentions["quantity"] = [Mention("quantity", a, b, q) for a, b, q in self.find(words)]


def counts_marks(said: str, number: Number) -> bool:
    """Whether "bars on the gauge" are marks of its scale; "two point one bar on the gauge" is a pressure."""
    return number.value == int(number.value) and (said.endswith("s") or number.value == 1)


def is_tens_and_tenths(words: Sequence[str], at: int, number: Number, unit: Unit) -> bool:
    """Whether "twenty-four nine volts" leaves out its point."""
    return (
        unit.quantity == "voltage"
        and words[at] in TENS
        and words[number.end - 1] in ONES
        and number.value < 1000
    )
