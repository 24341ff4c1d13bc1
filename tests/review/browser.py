"""A served walk and a real browser on it, for the tests of the page."""

import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
needs_browser = pytest.mark.skipif(CHROMIUM is None, reason="no chromium here; Debian: apt install chromium")


@dataclass
class Server:
    """A running ``saycheck review``: its process, and the link that its terminal showed last."""

    process: subprocess.Popen[str]
    link: str

    @property
    def base(self) -> str:
        """Its address, without the token."""
        return self.link.partition("/open/")[0]

    def next_link(self) -> str:
        """The link for another browser, which the terminal shows once one has come in."""
        assert self.process.stdout is not None
        for line in self.process.stdout:
            if line.startswith("for another browser: "):
                return line.split(": ", 1)[1].strip()
        raise AssertionError("the server ended")


@contextmanager
def served(folder: Path, *words: str) -> Iterator[Server]:
    """A context in which the walk of a folder is served."""
    command = [sys.executable, "-m", "saycheck", "review", str(folder), "--name", "Ann", *words]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    try:
        assert process.stdout is not None
        line = process.stdout.readline()
        assert line.startswith("open http://127.0.0.1:"), line
        yield Server(process, line.split()[1])
    finally:
        process.terminate()
        process.wait()
