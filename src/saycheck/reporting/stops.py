"""What to walk back for, stop by stop, as ``saycheck missed`` prints it: it fits on a phone, held upright.

Where the whole list is higher than the screen, each stop is told in a line or two, what can hurt named
first, and the list of one stop is a command away.
"""

from collections.abc import Callable, Iterator, Sequence
from io import StringIO
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


PROMPT = 2
"""Lines of the screen that the shell takes for itself."""


def show_stops(
    stops: Sequence[Stop],
    console: Console,
    danger: Callable[[str], tuple[int, int]] | None = None,
    only: int = 0,
) -> None:
    """Print the stops in their order, as high as the screen where it is one; says so where there are none.

    ``danger`` sorts parts by name, what can hurt first; without it, and where nobody looks on, all is told.
    ``only`` is the number of the one stop to be told.
    """
    width = min(console.width, WIDEST)
    room = console.height - PROMPT
    if danger is not None and not only and console.is_terminal and _height(stops, console.width) > room:
        console.file.write("\n".join(short(stops, danger, width, room)) + "\n")
        return
    for line in _page(stops, only):
        print_plainly(line, console, WIDEST)


def _height(stops: Sequence[Stop], width: int) -> int:
    """How many lines all of it takes."""
    paper = Console(file=StringIO(), width=width)
    for line in _page(stops):
        print_plainly(line, paper, WIDEST)
    written = paper.file
    assert isinstance(written, StringIO)
    return written.getvalue().count("\n")


def short(
    stops: Sequence[Stop], danger: Callable[[str], tuple[int, int]], width: int, height: int
) -> list[str]:
    """The stops in at most ``height`` lines of ``width`` columns, as far as one line each allows that.

    The stops that come first have a second line with their parts, as far as there is room.
    """
    with_names = max(height - len(stops) - 1, 0)
    lines = []
    for number, stop in enumerate(stops, 1):
        head = f"{number:>2} {plain(stop.zone)}: "
        lines.append(_cut(head + _counted(stop), width))
        names = list(merged(sorted(stop.lines, key=lambda line: danger(line.part))))
        if number <= with_names:
            lines.append(_cut("   " + (", ".join(names) or plain(stop.questions[0].text)), width))
    return [*lines, _cut("--stop 1 tells all of one, --all of all", width)]


def _counted(stop: Stop) -> str:
    parts, asked = len(list(merged(stop.lines))), len([q for q in stop.questions if _is_asked(q)])
    told = [f"{parts} part{'s' if parts != 1 else ''}"] if parts else []
    return ", ".join([*told, *([f"{asked} to ask"] if asked else [])])


def _is_asked(question: Question) -> bool:
    """Whether a question is told as such; the lines of hidden and later ones stand among the parts."""
    return question.kind not in ("hidden", "later")


def _cut(text: str, width: int) -> str:
    return text if len(text) <= width else text[: width - 2].rstrip(" ,") + " …"


def _page(stops: Sequence[Stop], only: int = 0) -> Iterator[RenderableType]:
    if not stops:
        yield Text("Nothing to walk back for: every line was spoken of.")
        return
    for number, stop in enumerate(stops, 1):
        if only not in (0, number):
            continue
        yield Text(f"{number}. {plain(stop.zone)}", style="bold")
        grid = margin_grid()
        for state, word in STATE_WORDS.items():
            names = list(merged(line for line in stop.lines if line.state == state))
            if names:
                grid.add_row(word, Text(", ".join(names)))
        for question in stop.questions:
            if _is_asked(question):
                grid.add_row("ask", Text(plain(question.text)))
        yield grid
