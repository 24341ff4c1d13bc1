"""The parts of a machine kind in walking order, as ``saycheck vocab show`` prints them."""

from rich.console import Console
from rich.table import Table
from rich.text import Text

from saycheck.reporting.wording import listed
from saycheck.vocabulary.compiled import Part, Vocabulary


def show_parts(vocabulary: Vocabulary, console: Console) -> None:
    """Print every zone with its parts: sides, the shared part each comes from, what else it is called."""
    console.print(Text(f"{vocabulary.name} ({vocabulary.standard})"), highlight=False)
    sides: dict[tuple[str, str], list[str]] = {}
    for line in vocabulary.lines:
        sides.setdefault((line.zone, line.part), []).append(line.side)
    for zone in vocabulary.zones:
        console.print(Text(f"\n{zone.name}", style="bold"))
        grid = Table.grid(padding=(0, 2, 0, 0), pad_edge=False)
        for (place, name), at in sides.items():
            if place == zone.name:
                grid.add_row("", Text("\n").join(_part(vocabulary.part(name), at)))
        console.print(grid)


def _part(part: Part, at: list[str]) -> list[Text]:
    side = "" if at == ["none"] else f", {listed(at)}"
    option = f" (where fitted: {part.option})" if part.option else ""
    origin = f", from the shared part {part.like}" if part.like else ", of this machine only"
    lines = [Text.assemble((part.name, "bold"), f"{side}{option}{origin}")]
    others = [saying for saying in part.sayings if saying != part.name]
    if others:
        lines.append(Text(f"  also {', '.join(others)}", style="dim"))
    return lines
