"""Spoken quantities against two public lists, beside quantulum3 on the same sentences in the same run.

    python bench/quantities.py [--wrong] [--json]

Sources, in ``../shared/outside``: ``nemo-itn-measure.txt`` (NVIDIA NeMo-text-processing, inverse text
normalisation: spoken form and written form) and ``quantulum3-quantities.json`` (quantulum3's own test
sentences with value and unit). Counted are the quantities whose unit ``vocab/shared/units.toml`` knows,
since only those can come up on a walk; how many others were left out is printed. A quantity is right when
value (to one part in a million) and unit agree; ``extra`` counts quantities with a unit that nobody named.
"""

import argparse
import json
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from saycheck.scoring.figures import share

OUTSIDE = Path(__file__).resolve().parents[2] / "shared" / "outside"

UNITS = {
    "metre": "m", "centimetre": "cm", "millimetre": "mm", "kilometre": "km", "inch": "in", "foot": "ft",
    "mile": "mile", "second": "s", "minute": "min", "hour": "h", "day": "day", "week": "week",
    "month": "month", "year": "year", "litre": "L", "millilitre": "mL", "gallon": "gal", "quart": "quart",
    "pint": "pint", "gram": "g", "kilogram": "kg", "pound-mass": "lb", "ounce": "oz", "ton": "ton",
    "tonne": "tonne", "volt": "V", "ampere": "A", "watt": "W", "kilowatt": "kW", "horsepower": "hp",
    "percentage": "percent", "hertz": "Hz", "kilohertz": "kHz", "kilometre per hour": "km/h",
    "mile per hour": "mph", "pascal": "Pa", "kilopascal": "kPa", "bar": "bar",
    "pound-force per square inch": "psi", "degree celsius": "degC", "degree fahrenheit": "degF",
}  # fmt: skip
"""quantulum3's unit names and ours."""

NEMO = {
    "m": "m", "cm": "cm", "mm": "mm", "km": "km", "ft": "ft", "mi": "mile", "h": "h", "l": "L",
    "ml": "mL", "g": "g", "kg": "kg", "oz": "oz", "v": "V", "kW": "kW", "hp": "hp", "%": "percent",
    "khz": "kHz", "km/h": "km/h", "mph": "mph",
}  # fmt: skip
"""NeMo's unit signs and ours."""

Read = Callable[[str], list[tuple[float, str | None]]]
"""Text in, quantities out as value and our name of the unit (None for a unit that is none of ours)."""


@dataclass(frozen=True)
class Given:
    """A sentence and the quantities it holds, as value and our name of the unit."""

    text: str
    amounts: list[tuple[float, str]]


@cache
def walk_units() -> frozenset[str]:
    """Names of the units that can come up on a walk."""
    from saycheck.vocabulary.load import shared_tables
    from saycheck.vocabulary.schema import Units

    return frozenset(unit.name for table in shared_tables("units.toml", Units) for unit in table.unit)


def nemo() -> Iterator[tuple[str, list[tuple[float, str | None]]]]:
    """NeMo's list, one quantity a row."""
    for line in (OUTSIDE / "nemo-itn-measure.txt").read_text(encoding="utf-8").splitlines():
        spoken, _, written = line.partition("~")
        number, _, sign = written.partition(" ")
        if sign:
            yield spoken, [(float(number), NEMO.get(sign))]


def quantulum() -> Iterator[tuple[str, list[tuple[float, str | None]]]]:
    """quantulum3's sentences with all their quantities; bare numbers are left out."""
    for row in json.loads((OUTSIDE / "quantulum3-quantities.json").read_text(encoding="utf-8")):
        named = [found for found in row["res"] if found["unit"] != "dimensionless"]
        yield row["req"], [(float(found["value"]), UNITS.get(found["unit"])) for found in named]


def choose(rows: Iterable[tuple[str, list[tuple[float, str | None]]]]) -> tuple[list[Given], int]:
    """The sentences with a quantity that a walk could hold, and how many quantities were left out."""
    given, out = [], 0
    for text, amounts in rows:
        kept = [(value, unit) for value, unit in amounts if unit in walk_units() and unit is not None]
        out += len(amounts) - len(kept)
        if kept:
            given.append(Given(text, kept))
    return given, out


def ours() -> Read:
    """Saycheck's own numbers and quantities."""
    from saycheck.understanding.quantities import Quantities
    from saycheck.understanding.text import words_of
    from saycheck.vocabulary.load import shared_tables
    from saycheck.vocabulary.schema import Units

    finder = Quantities([unit for table in shared_tables("units.toml", Units) for unit in table.unit])

    def read(text: str) -> list[tuple[float, str | None]]:
        found = finder.find(list(words_of(text)))
        return [(quantity.value, quantity.unit) for _, _, quantity in found if quantity.unit]

    return read


def peer() -> Read:
    """quantulum3 as its plain installation has it, without the classifier."""
    from quantulum3 import classifier, parser

    classifier.USE_CLF = False

    def read(text: str) -> list[tuple[float, str | None]]:
        found: Any = parser.parse(text)
        named = [quantity for quantity in found if quantity.unit.name != "dimensionless"]
        return [(float(quantity.value), UNITS.get(quantity.unit.name)) for quantity in named]

    return read


def judge(given: Sequence[Given], read: Read) -> tuple[dict[str, Any], list[str]]:
    """Count the right ones and the extra ones, and tell of each that was not read."""
    right = extra = 0
    wrong = []
    for one in given:
        found = read(one.text)
        for value, unit in one.amounts:
            hit = next((other for other in found if same(other, (value, unit))), None)
            if hit is None:
                wrong.append(f"{value:g} {unit} not read in: {one.text} {found}")
                continue
            found.remove(hit)
            right += 1
        extra += len([unit for _, unit in found if unit is not None])
    count = sum(len(one.amounts) for one in given)
    return {"right": right, "of": count, "share": share(right, count), "extra": extra}, wrong


def same(one: tuple[float, str | None], other: tuple[float, str | None]) -> bool:
    """Whether two quantities are the same, to one part in a million."""
    return one[1] == other[1] and abs(one[0] - other[0]) <= 1e-6 * max(1.0, abs(other[0]))


def readers() -> dict[str, Read]:
    """Who reads: saycheck, and quantulum3 where it is installed."""
    found = {"saycheck": ours()}
    try:
        found["quantulum3"] = peer()
    except ImportError as error:
        print(f"quantulum3 is not here ({error}); install bench/requirements-peer.txt", file=sys.stderr)
    return found


def main(argv: Sequence[str]) -> int:
    """Print the shares; exit status 2 where the lists are not there."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--wrong", action="store_true", help="print the quantities that we do not read")
    parser.add_argument("--json", action="store_true", help="print JSON")
    asked = parser.parse_args(argv)
    if not OUTSIDE.is_dir():
        print("../shared/outside is not here", file=sys.stderr)
        return 2
    out: dict[str, Any] = {}
    for name, rows in {"NeMo": nemo(), "quantulum3's sentences": quantulum()}.items():
        given, left_out = choose(rows)
        results = {who: judge(given, read) for who, read in readers().items()}
        out[name] = {"left_out": left_out} | {who: figures for who, (figures, _) in results.items()}
        if asked.wrong:
            print("\n".join(results["saycheck"][1]), file=sys.stderr)
    if asked.json:
        print(json.dumps(out, indent=1))
        return 0
    for name, figures in out.items():
        print(f"{name} ({figures.pop('left_out')} quantities left out, of units no walk holds)")
        for who, counts in figures.items():
            of = f"{counts['right']:>4} of {counts['of']:<4}"
            print(f"  {who:<12}{of} {counts['share']:.3f}   extra {counts['extra']}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
