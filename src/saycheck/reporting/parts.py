"""The parts of a machine kind in walking order, as ``saycheck vocab show`` prints them."""

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from saycheck.reporting.layout import print_plainly
from saycheck.reporting.wording import listed
from saycheck.vocabulary.compiled import Part, Vocabulary
from saycheck.vocabulary.origin import dropped, home_of
from saycheck.vocabulary.stack import Stack

WIDEST = 120


def show_parts(vocabulary: Vocabulary, stack: Stack, console: Console) -> None:
    """Print every zone with its parts: sides, the shared part, where it stands, what else it is called.

    Below stand the parts that a shop or a unit took off the list.
    """
    unit = f", {vocabulary.unit}" if vocabulary.unit else ""
    print_plainly(Text(f"{vocabulary.name}{unit} ({vocabulary.standard})"), console, WIDEST)
    sides: dict[tuple[str, str], list[str]] = {}
    for line in vocabulary.lines:
        sides.setdefault((line.zone, line.part), []).append(line.side)
    for zone in vocabulary.zones:
        print_plainly(Text(f"\n{zone.name}", style="bold"), console, WIDEST)
        for (place, name), at in sides.items():
            if place == zone.name:
                part = vocabulary.part(name)
                print_plainly(Padding(_line(part, at, stack), (0, 0, 0, 2)), console, WIDEST)
                if len(part.sayings) > 1:
                    print_plainly(Padding(_sayings(part), (0, 0, 0, 6)), console, WIDEST)
    if off := dropped(stack):
        print_plainly(Text("\nnot on the list", style="bold"), console, WIDEST)
        for place, name, where in off:
            left_out = Text.assemble(f"{name}, {place}", (f"  [{where}]", "dim"))
            print_plainly(Padding(left_out, (0, 0, 0, 2)), console, WIDEST)


def _line(part: Part, at: list[str], stack: Stack) -> Text:
    side = "" if at == ["none"] else f", {listed(at)}"
    option = f" (where fitted: {part.option})" if part.option else ""
    origin = f"from the shared part {part.like}" if part.like else "of this machine only"
    homes = ", ".join(str(home) for home in home_of(part.name, stack))
    return Text.assemble((part.name, "bold"), f"{side}{option}, {origin}", (f"  [{homes}]", "dim"))


def _sayings(part: Part) -> Text:
    return Text(f"also {', '.join(saying for saying in part.sayings if saying != part.name)}", style="dim")
