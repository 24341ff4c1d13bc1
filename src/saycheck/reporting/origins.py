"""All of one part and where each value stands, as ``saycheck vocab show KIND PART`` prints it."""

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from saycheck.reporting.layout import print_plainly
from saycheck.reporting.wording import listed
from saycheck.vocabulary.compiled import Part, Vocabulary
from saycheck.vocabulary.origin import Value, values_of
from saycheck.vocabulary.stack import Stack

WIDEST = 120


def show_values(part: Part, vocabulary: Vocabulary, stack: Stack, console: Console) -> None:
    """Print the part's name and below it each value with the file and line that it comes from."""
    sides = [line.side for line in vocabulary.lines if line.part == part.name and line.side != "none"]
    print_plainly(Text(f"{part.name}{f', {listed(sides)}' if sides else ''}", style="bold"), console, WIDEST)
    key = ""
    for value in values_of(part, vocabulary, stack):
        if value.key != key and not value.key.startswith("  "):
            print_plainly(Text(f"  {value.key}"), console, WIDEST)
        print_plainly(_value(value), console, WIDEST)
        key = value.key if not value.key.startswith("  ") else key


def _value(value: Value) -> Padding:
    at = ", ".join(str(origin) for origin in value.origins) or "made by saycheck"
    left = 6 if value.key.startswith("  ") else 4
    return Padding(Text.assemble(value.text, (f"  [{at}]", "dim")), (0, 0, 0, left))
