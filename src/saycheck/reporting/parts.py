"""The parts of a machine kind in walking order, as ``saycheck vocab show`` prints them."""

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from saycheck.reporting.layout import print_plainly
from saycheck.reporting.wording import listed
from saycheck.vocabulary.compiled import Part, Vocabulary

WIDEST = 100


def show_parts(vocabulary: Vocabulary, console: Console) -> None:
    """Print every zone with its parts: sides, the shared part each comes from, what else it is called."""
    print_plainly(Text(f"{vocabulary.name} ({vocabulary.standard})"), console, WIDEST)
    sides: dict[tuple[str, str], list[str]] = {}
    for line in vocabulary.lines:
        sides.setdefault((line.zone, line.part), []).append(line.side)
    for zone in vocabulary.zones:
        print_plainly(Text(f"\n{zone.name}", style="bold"), console, WIDEST)
        for (place, name), at in sides.items():
            if place == zone.name:
                part = vocabulary.part(name)
                print_plainly(Padding(_line(part, at), (0, 0, 0, 2)), console, WIDEST)
                if len(part.sayings) > 1:
                    print_plainly(Padding(_sayings(part), (0, 0, 0, 6)), console, WIDEST)


def _line(part: Part, at: list[str]) -> Text:
    side = "" if at == ["none"] else f", {listed(at)}"
    option = f" (where fitted: {part.option})" if part.option else ""
    origin = f"from the shared part {part.like}" if part.like else "of this machine only"
    return Text.assemble((part.name, "bold"), f"{side}{option}, {origin}")


def _sayings(part: Part) -> Text:
    return Text(f"also {', '.join(saying for saying in part.sayings if saying != part.name)}", style="dim")
