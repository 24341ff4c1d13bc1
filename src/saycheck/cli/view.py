"""What the commands show: a walk on standard output, progress and notes on standard error."""

import sys
from types import TracebackType
from typing import Self

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeRemainingColumn

from saycheck.cli import stopping
from saycheck.models.walk import Walk
from saycheck.reporting import terminal
from saycheck.reporting.wording import clock, plain
from saycheck.walkfolder import as_json


def show(walk: Walk) -> None:
    """Show a walk for a person to read."""
    terminal.show(walk, Console())


def show_json(walk: Walk) -> None:
    """Print ``walk.json``."""
    sys.stdout.write(as_json(walk))


def summary(walk: Walk) -> str:
    """What stands at the top of the view, for when that has run out of sight."""
    states = [finding.state for finding in walk.findings]
    said = sum(line.state != "unsaid" for line in walk.checklist)
    return (
        f"{states.count('writeup')} to write up, {states.count('watch')} to watch, "
        f"{len(walk.questions)} questions, {said} of {len(walk.checklist)} lines spoken of"
    )


class Follower:
    """Tells on standard error how far hearing is, with a bar where that is a terminal; a context."""

    def __init__(self) -> None:
        self._console = Console(stderr=True)
        columns = (TextColumn("{task.description}"), BarColumn(), TextColumn("{task.fields[heard]}"))
        self._bar = Progress(
            *columns, TimeRemainingColumn(), console=self._console, transient=True,
            disable=not self._console.is_terminal,
        )  # fmt: skip
        self._task: TaskID | None = None

    def __enter__(self) -> Self:
        self._bar.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._bar.stop()

    def note(self, sentence: str) -> None:
        """Say something worth knowing."""
        self._console.print(plain(sentence), markup=False, highlight=False, soft_wrap=True)

    def progress(self, heard_s: float, whole_s: float | None) -> None:
        """Move on: seconds heard of all, None where the recording does not tell."""
        stopping.look()
        if self._task is None:
            self._task = self._bar.add_task("hearing", total=whole_s, heard="")
        of = f" of {clock(whole_s)}" if whole_s else ""
        self._bar.update(self._task, completed=heard_s, total=whole_s, heard=f"{clock(heard_s)}{of}")
