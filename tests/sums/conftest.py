"""Where the facts from outside lie; they are read there and never copied into the project."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

FOLDER = Path(__file__).resolve().parents[3] / "shared" / "outside"

Rows = Callable[[str], list[dict[str, Any]]]


def _rows(file: str, source: str) -> list[dict[str, Any]]:
    path = FOLDER / file
    if not path.is_file():
        pytest.skip(f"../shared/outside/{file} is not here")
    sources = json.loads(path.read_text(encoding="utf-8"))["sources"]
    found: list[dict[str, Any]] = next(one["items"] for one in sources if one["id"] == source)
    assert found, f"the source {source} has no rows"
    return found


@pytest.fixture
def table_rows() -> Rows:
    """The rows of a source in ../shared/outside/tables.json; the test is skipped where that is not there."""
    return lambda source: _rows("tables.json", source)


@pytest.fixture
def list_rows() -> Rows:
    """The same for ../shared/outside/public-lists.json."""
    return lambda source: _rows("public-lists.json", source)
