"""What the tests of the whole program share."""

import hashlib
import os
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from saycheck.models.walk import SCHEMA, Machine, MadeBy, Source, Span, Transcript, Walk, Word

SOURCES = str(Path(__file__).resolve().parents[1] / "src")
"""Programs that tests start find this checkout here, whether or not it is installed."""

os.environ["PYTHONPATH"] = os.pathsep.join(filter(None, [SOURCES, os.environ.get("PYTHONPATH")]))

TEXT = "Left front tyre is good. The bucket is cracked, write that up. Seat belt works."


@pytest.fixture
def narration(tmp_path: Path) -> Path:
    """A short narration as a text file."""
    path = tmp_path / "yard walk.txt"
    path.write_text(TEXT, encoding="utf-8")
    return path


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A file system of 3 MB; skips where this user may not make one."""
    folder = tmp_path / "small"
    folder.mkdir()
    made = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=3m", "tmpfs", str(folder)], capture_output=True, text=True
    )
    if made.returncode:
        pytest.skip(f"no small file system can be made here: {made.stderr.strip()}")
    yield folder
    subprocess.run(["umount", str(folder)], check=True)


@pytest.fixture
def make_walk() -> Callable[..., Walk]:
    """Makes a small walk; keywords replace what it holds."""

    def make(text: str = "Bucket is good.", unit: str | None = "Number Seven", **other: object) -> Walk:
        given: dict[str, object] = {
            "schema": SCHEMA,
            "id": "2025-03-09-abcd1234",
            "machine": Machine(kind="wheel-loader", unit=unit, hours=4812),
            "source": Source(name="yard.m4a", sha256=hashlib.sha256(text.encode()).hexdigest()),
            "transcript": Transcript(
                text=text,
                words=[Word(text="Bucket", char_start=0, char_end=6)],
                spans=[Span(char_start=0, char_end=len(text), disposition="talk")],
            ),
            "made_by": MadeBy(version="0.1.0", vocabulary="0123456789ab"),
        }
        return Walk.model_validate(given | other)

    return make
