"""Where the material from outside lies; it is read there and never copied into the project."""

from collections.abc import Callable
from pathlib import Path

import pytest

FOLDER = Path(__file__).resolve().parents[3] / "shared" / "outside"


@pytest.fixture
def outside() -> Callable[[str], str]:
    """Reads a file of ``../shared/outside`` by name; the test is skipped where it is not there."""

    def read(name: str) -> str:
        path = FOLDER / name
        if not path.is_file():
            pytest.skip(f"../shared/outside/{name} is not here")
        return path.read_text(encoding="utf-8")

    return read
