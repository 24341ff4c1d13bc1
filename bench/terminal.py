"""A terminal that nobody sits at: tmux holds it, and what stands on it can be looked at.

Not a command. ``with Terminal(folder, command, environment) as terminal:`` starts the command in it;
``terminal.look()`` returns what is shown, and ``terminal.screens`` all that was looked at. The Debian package
is tmux.
"""

import subprocess
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import TracebackType
from typing import Self

WIDTH, HEIGHT = 80, 24


class Terminal:
    """A command in a terminal of 80 by 24; used as a context, which ends both."""

    def __init__(self, folder: Path, command: Sequence[str], environment: Mapping[str, str]) -> None:
        self.screens: list[str] = []
        self._folder = folder
        self._command = command
        self._environment = environment
        self._tmux = ["tmux", "-S", str(folder / "tmux")]

    def __enter__(self) -> Self:
        subprocess.run(
            [*self._tmux, "new-session", "-d", "-x", str(WIDTH), "-y", str(HEIGHT), *self._command],
            env=dict(self._environment), cwd=self._folder, check=True,
        )  # fmt: skip
        subprocess.run([*self._tmux, "set-option", "remain-on-exit", "on"], check=True)
        return self

    def look(self) -> str:
        """What is shown now."""
        shown = subprocess.run([*self._tmux, "capture-pane", "-p"], capture_output=True, text=True).stdout
        self.screens.append(shown)
        return shown

    def until(self, wanted: Callable[[str], bool], patience_s: float) -> bool:
        """Look until something is shown; False where patience ran out before."""
        end = time.monotonic() + patience_s
        while not wanted(self.look()):
            if time.monotonic() > end:
                return False
            time.sleep(0.3)
        return True

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        subprocess.run([*self._tmux, "kill-server"], check=False, capture_output=True)
