"""The write-up as a table, read by Python's csv in its strict mode."""

import csv
import io
from collections.abc import Callable
from dataclasses import replace

import pytest

from saycheck.models.decisions import Decision
from saycheck.models.walk import Walk
from saycheck.reporting.writeup.given import Given
from saycheck.reporting.writeup.rows import COLUMNS, as_csv

from .conftest import Make
from .hostile import HOSTILE, hostile_walk


def rows(given: Given) -> list[dict[str, str]]:
    """The rows, each with all columns and nothing beside them."""
    table = list(csv.reader(io.StringIO(as_csv(given), newline=""), strict=True))
    assert list(COLUMNS) == table[0]
    assert {len(COLUMNS)} == {len(row) for row in table}
    return [dict(zip(COLUMNS, row, strict=True)) for row in table[1:]]


def test_lines_end_as_rfc_4180_says(given: Given) -> None:
    """CRLF at the end of every line, the last as well, and no line end stands alone (RFC 4180, 2.1)."""
    text = as_csv(given)
    assert text.endswith("\r\n")
    assert 0 == text.replace("\r\n", "").count("\n") + text.replace("\r\n", "").count("\r")


def test_a_row_of_a_measurement(given: Given) -> None:
    """Value, unit, half width, limit, verdict and source stand in columns of their own."""
    (row,) = [one for one in rows(given) if one["finding"] == "f3"]
    told = {
        name: row[name]
        for name in ("state", "side", "value", "unit_of_value", "plus_minus", "limit", "verdict")
    }
    assert {
        "state": "write up", "side": "left", "value": "3.2", "unit_of_value": "mm", "plus_minus": "0.05",
        "limit": "at least 4.8 mm", "verdict": "beyond",
    } == told  # fmt: skip
    assert row["limit_source"].startswith("49 CFR 393.47(d)(1)")
    assert "Brake lining measures three point two millimetres, worn" == row["words"]


def test_every_finding_and_every_line_left_out_is_there(given: Given) -> None:
    """The urgent first, and what was never mentioned is not missing."""
    found = rows(given)
    assert ["f2", "f4", "f3", "f1", "f5", "f6", "f7"] == [row["finding"] for row in found if row["finding"]]
    unsaid = sum(line.state == "unsaid" for line in given.standing.walk.checklist)
    assert unsaid == sum(row["state"] == "unsaid" for row in found)


def test_a_decision(given: Given) -> None:
    """What the owner chose, who and when."""
    decision = Decision(
        at="2025-03-10T09:15:00Z",
        who="R. Holm",
        finding="f1",
        choice="never",
        zone="left side",
        part="radiator",
    )
    (row,) = [one for one in rows(replace(given, decisions=[decision])) if one["finding"] == "f1"]
    assert ("not at all", "R. Holm", "2025-03-10T09:15:00Z") == (
        row["decision"],
        row["decided_by"],
        row["decided_at"],
    )


@pytest.mark.parametrize("words", HOSTILE)
def test_hostile_words(make_given: Make, make_walk: Callable[..., Walk], words: str) -> None:
    """They stay one cell, and no cell begins as a formula of a spreadsheet does."""
    found = rows(make_given(hostile_walk(make_walk, words)))
    assert 5 == len(found)
    assert [] == [
        cell for row in found for cell in row.values() if cell.startswith(("=", "+", "-", "@", "\t", "\r"))
    ]
