"""What to walk back for, stop by stop, as ``saycheck missed`` prints it: narrow enough for a phone."""

from collections.abc import Iterator, Sequence
from typing import Protocol

from rich.console import Console, RenderableType
from rich.text import Text

from saycheck.models.walk import ChecklistLine, Question
from saycheck.reporting.layout import margin_grid, merged, print_plainly
from saycheck.reporting.wording import STATE_WORDS, plain

WIDEST = 60


class Stop(Protocol):
    """A place to go back to, with the lines to look at and the questions to answer there."""

    @property
    def zone(self) -> str: ...
    @property
    def lines(self) -> Sequence[ChecklistLine]: ...
    @property
    def questions(self) -> Sequence[Question]: ...


def show_stops(stops: Sequence[Stop], console: Console) -> None:
    """Print the stops in their order; says so where there is nothing to walk back for."""
    for line in _page(stops):
        print_plainly(line, console, WIDEST)


def _page(stops: Sequence[Stop]) -> Iterator[RenderableType]:
    if not stops:
        yield Text("Nothing to walk back for: every line was spoken of.")
        return
    for number, stop in enumerate(stops, 1):
        yield Text(f"{number}. {plain(stop.zone)}", style="bold")
        grid = margin_grid()
        for state, word in STATE_WORDS.items():
            names = list(merged(line for line in stop.lines if line.state == state))
            if names:
                grid.add_row(word, Text(", ".join(names)))
        for question in stop.questions:
            if question.kind not in ("hidden", "later"):  # their lines stand above
                grid.add_row("ask", Text(plain(question.text)))
        yield grid
