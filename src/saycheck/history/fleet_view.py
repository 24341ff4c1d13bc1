"""The fleet as the terminal shows it: which units need most, what is due, what comes back."""

from collections.abc import Iterator, Sequence
from typing import TypeVar

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from saycheck.history.fleet import DueRow, Fleet, Offender
from saycheck.history.view import WIDEST, heading
from saycheck.history.wording import hours_read, short_day
from saycheck.reporting.layout import margin_grid, print_plainly
from saycheck.reporting.wording import plain, with_side

PIECE = 50
"""So many lines of a list are laid out at a time."""
TITLES = ("write up", "watch", "not seen", "unit", "last walk")
Row = TypeVar("Row")


def show(fleet: Fleet, console: Console) -> None:
    """Print the whole view piece by piece, so that the first lines of a long one are there at once."""
    for piece in pieces(fleet):
        print_plainly(piece, console, WIDEST)


def pieces(fleet: Fleet) -> Iterator[RenderableType]:
    """The whole view, to be printed at any width; a long list is in pieces that look like one."""
    yield _header(fleet)
    yield from _neediest(fleet)
    yield from _due(fleet)
    yield from _offenders(fleet.offenders)


def _some(rows: Sequence[Row]) -> Iterator[Sequence[Row]]:
    return (rows[start : start + PIECE] for start in range(0, len(rows), PIECE))


def counted(count: int, word: str) -> str:
    """A count with its noun: "1 unit", "12 units"."""
    return f"{count:,} {word}{'s' if count != 1 else ''}"


def _header(fleet: Fleet) -> RenderableType:
    words = [counted(fleet.units, "unit"), counted(fleet.walks, "walk"), f"{fleet.open:,} still open"]
    lines = [Text(", ".join(words), style="bold")]
    if fleet.unnamed:
        lines.append(
            Text(f"{counted(fleet.unnamed, 'walk')} of no named unit left out; name the unit in a review")
        )
    return Group(*lines)


def _neediest(fleet: Fleet) -> Iterator[RenderableType]:
    if not fleet.neediest:
        return
    yield from heading("units, those that need most first")
    for place, some in enumerate(_some(fleet.neediest)):
        grid = Table.grid(padding=(0, 2, 0, 0), expand=True)
        for title in TITLES[:3]:
            grid.add_column(justify="right", no_wrap=True, min_width=len(title))
        grid.add_column(ratio=1, overflow="fold")
        grid.add_column(justify="right", no_wrap=True, min_width=len(TITLES[-1]))
        if place == 0:
            grid.add_row(*(Text(word, style="dim") for word in TITLES))
        for row in some:
            unit = Text.assemble(
                (plain(row.name), "bold"), f", {row.kind.replace('-', ' ')}, {hours_read(row.hours)}"
            )
            numbers = (f"{count:,}" if count else "" for count in (row.writeup, row.watch, row.not_looked_at))
            grid.add_row(*numbers, unit, Text(short_day(row.last_day), style="dim"))
        yield grid
    more = fleet.units - len(fleet.neediest)
    if more:
        yield Text(f"and {counted(more, 'unit')} more; --all shows them")


def _due(fleet: Fleet) -> Iterator[RenderableType]:
    if not fleet.due:
        return
    yield from heading("due, the soonest first")
    for some in _some(fleet.due):
        grid = margin_grid(places=True)
        for row in some:
            grid.add_row(short_day(row.day), _trouble(row), Text(row.why, style="dim"))
        yield grid
    more = fleet.all_due - len(fleet.due)
    if more:
        yield Text(f"and {more:,} more; --all shows them")


def _trouble(row: DueRow) -> Text:
    part = with_side(plain(row.part), row.side)
    return Text.assemble((plain(row.name), "bold"), f": {part}, {plain(row.condition)}")


def _offenders(offenders: Sequence[Offender]) -> Iterator[RenderableType]:
    if not offenders:
        return
    yield from heading("came back after it was good")
    for some in _some(offenders):
        grid = margin_grid()
        for one in some:
            words = f" of {one.kind.replace('-', ' ')}, {plain(one.check)}: {counted(one.times, 'time')}"
            grid.add_row(counted(one.units, "unit"), Text.assemble((plain(one.part), "bold"), words))
        yield grid
