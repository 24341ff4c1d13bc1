"""The common look of what the terminal shows: state words in a margin, no line longer than reads well."""

from collections.abc import Iterable, Iterator

from rich.console import Console, RenderableType
from rich.table import Table

from saycheck.models.walk import ChecklistLine
from saycheck.reporting.wording import plain, with_side

MARGIN = 9
"""Columns for the state word; "write up" is the longest."""


def margin_grid(places: bool = False) -> Table:
    """Margin on the left, words beside it, and on the right, where asked for, places and times."""
    grid = Table.grid(padding=(0, 2, 0, 0), pad_edge=False, expand=True)
    grid.add_column(justify="right", width=MARGIN, no_wrap=True)
    grid.add_column(ratio=1, overflow="fold")
    if places:
        grid.add_column(justify="right", no_wrap=True)
    return grid


def print_plainly(page: RenderableType, console: Console, widest: int) -> None:
    """Print at most ``widest`` columns wide and leave no blanks at the ends of lines."""
    with console.capture() as shown:
        console.print(page, width=min(console.width, widest), highlight=False)
    for line in shown.get().splitlines():
        console.file.write(line.rstrip() + "\n")


def merged(lines: Iterable[ChecklistLine]) -> Iterator[str]:
    """Names of checklist lines, the two sides of one part as one."""
    sides: dict[str, list[ChecklistLine]] = {}
    for line in lines:
        sides.setdefault(line.part, []).append(line)
    for part, both in sides.items():
        if {line.side for line in both} == {"left", "right"}:
            yield f"{plain(part)} both sides"
        else:
            yield from (with_side(plain(part), line.side) for line in both)
