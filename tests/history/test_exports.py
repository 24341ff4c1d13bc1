"""Exports as programs of other people read them: CSV, JSON Lines and Parquet by DuckDB and PostgreSQL."""

import io
import json
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from saycheck.errors import HistoryError
from saycheck.history.exports import EXPORTS, rows
from saycheck.history.formats import WRITERS, write_csv, write_jsonl, write_parquet
from saycheck.history.index import Index
from saycheck.history.sync import sync

from .conftest import Row, made_walk, put

NASTY = [
    'say "seven"',
    "a, b",
    "line\nbreak",
    "carriage\rreturn",
    "; semi",
    "=1+1",
    " led by a space",
    "Ärmel 日本",
]
COLUMNS = {"name": "text", "hours": "number", "count": "whole", "flag": "truth", "note": "text"}
ROWS: list[tuple[Any, ...]] = [
    *[(name, 8412.5, 3, True, None) for name in NASTY],
    ("plain", None, -1, False, ""),
    ("big", 1e15, 2**40, False, "0.1"),
    ("small", 0.1, 0, True, "x" * 3000),
]
"""Nothing and an empty text are one in CSV, as RFC 4180 knows no other; Parquet and JSON tell them apart."""


@pytest.fixture
def one_unit(walks: Path, index: Index) -> Index:
    """An index with two walks of a unit that has a difficult name."""
    leak: Row = ("lift cylinder", "left", "writeup", "leak")
    cut: Row = ("front tyre", "right", "writeup", "cut")
    put(
        made_walk("2025-03-09T07:00", leak, unit='seven, "the old one"', hours=4812, numbers={0: 17}),
        walks / "1",
    )
    put(made_walk("2025-04-09T07:00", cut, unit='seven, "the old one"', hours=5000.5), walks / "2")
    sync(index)
    return index


def written(write: Callable[..., None]) -> bytes:
    """The rows above in one format."""
    out = io.BytesIO()
    write(COLUMNS, iter(ROWS), out)
    return out.getvalue()


def nulls(row: tuple[Any, ...]) -> tuple[Any, ...]:
    """The row as CSV can tell it."""
    return tuple(None if value == "" else value for value in row)


def test_csv_is_rfc_4180_by_its_grammar() -> None:
    """The file as the ABNF in section 2 of RFC 4180 has it: CR LF, doubled quotes, as many fields in each line."""
    text = written(write_csv).decode("utf-8")
    plain, escaped = r'[^\r\n",]*', r'"(?:[^"]|"")*"'
    record = rf"(?:{escaped}|{plain})(?:,(?:{escaped}|{plain})){{{len(COLUMNS) - 1}}}\r\n"
    assert re.fullmatch(rf"(?:{record})+", text)
    assert len(ROWS) + 1 == len(re.findall(record, text))
    assert text.startswith("name,hours,count,flag,note\r\n")


def test_csv_read_by_duckdb(tmp_path: Path) -> None:
    """DuckDB reads back every value of the CSV."""
    duckdb = pytest.importorskip("duckdb")
    file = tmp_path / "rows.csv"
    file.write_bytes(written(write_csv))
    types = {"name": "VARCHAR", "hours": "DOUBLE", "count": "BIGINT", "flag": "BOOLEAN", "note": "VARCHAR"}
    found = duckdb.read_csv(
        str(file), header=True, columns=types, delimiter=",", quotechar='"', escapechar='"', auto_detect=False,
        strict_mode=False,
    )  # fmt: skip
    assert [nulls(row) for row in ROWS] == found.fetchall()


def test_csv_read_by_postgresql(postgresql: str) -> None:
    """PostgreSQL takes the CSV in with COPY and gives every value back."""
    psycopg = pytest.importorskip("psycopg")
    with psycopg.connect(postgresql) as connection:
        connection.execute(
            "CREATE TEMP TABLE t (name text, hours float8, count bigint, flag boolean, note text, n serial)"
        )
        with connection.cursor().copy(
            "COPY t (name, hours, count, flag, note) FROM STDIN (FORMAT csv, HEADER)"
        ) as copy:
            copy.write(written(write_csv))
        found = connection.execute("SELECT name, hours, count, flag, note FROM t ORDER BY n").fetchall()
    assert [nulls(row) for row in ROWS] == found


def test_json_lines_read_by_duckdb(tmp_path: Path) -> None:
    """DuckDB reads back every value of the JSON Lines, empty texts apart from nothing."""
    duckdb = pytest.importorskip("duckdb")
    file = tmp_path / "rows.jsonl"
    file.write_bytes(written(write_jsonl))
    types = {"name": "VARCHAR", "hours": "DOUBLE", "count": "BIGINT", "flag": "BOOLEAN", "note": "VARCHAR"}
    found = duckdb.read_json(str(file), columns=types, format="newline_delimited")
    assert ROWS == found.fetchall()


def test_parquet_read_by_duckdb(tmp_path: Path) -> None:
    """DuckDB, whose reader is not the writer's, reads back every value and type of the Parquet file."""
    pytest.importorskip("pyarrow")
    duckdb = pytest.importorskip("duckdb")
    file = tmp_path / "rows.parquet"
    file.write_bytes(written(write_parquet))
    found = duckdb.read_parquet(str(file))
    assert ROWS == found.fetchall()
    assert ["VARCHAR", "DOUBLE", "BIGINT", "BOOLEAN", "VARCHAR"] == [str(kind) for kind in found.types]


def test_parquet_of_nothing(tmp_path: Path) -> None:
    """A table without rows still has its columns."""
    pytest.importorskip("pyarrow")
    duckdb = pytest.importorskip("duckdb")
    file = tmp_path / "rows.parquet"
    with file.open("wb") as out:
        write_parquet(COLUMNS, iter(()), out)
    assert list(COLUMNS) == duckdb.read_parquet(str(file)).columns


def test_without_pyarrow(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where pyarrow is not installed, the sentence says how to have it."""
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    with pytest.raises(HistoryError) as error:
        write_parquet(COLUMNS, iter(ROWS), io.BytesIO())
    assert (
        'Parquet needs the package pyarrow; pip install "saycheck[parquet]" brings it, or choose csv or jsonl'
        == str(error.value)
    )


def test_names_are_those_of_iso_15143_3(one_unit: Index) -> None:
    """Identity and hours are called as in ISO 15143-3 (names from memory), nested in JSON, dotted in tables."""
    out = io.BytesIO()
    with one_unit.reading() as connection:
        write_jsonl(EXPORTS["walks"].columns, rows(connection, "walks"), out)
    first = json.loads(out.getvalue().splitlines()[0])
    assert {"EquipmentID": 'seven, "the old one"'} == first["EquipmentHeader"]
    assert {"Hour": 4812.0, "datetime": "2025-03-09T07:00"} == first["CumulativeOperatingHours"]
    for export in EXPORTS.values():
        assert "EquipmentHeader.EquipmentID" == next(iter(export.columns))
        assert {"CumulativeOperatingHours.Hour", "CumulativeOperatingHours.datetime"} <= set(export.columns)


@pytest.mark.parametrize(("table", "count"), [
    ("open", 2), ("due", 2), ("back", 0), ("wear", 0), ("troubles", 2), ("walks", 2), ("findings", 2), ("readings", 1),
])  # fmt: skip
@pytest.mark.parametrize("form", WRITERS)
def test_each_table_in_each_format(
    table: str, count: int, form: str, one_unit: Index, tmp_path: Path
) -> None:
    """Every table can be written in every format, with as many rows as there are."""
    duckdb = pytest.importorskip("duckdb")
    file = tmp_path / f"{table}.{form}"
    with one_unit.reading() as connection, file.open("wb") as out:
        WRITERS[form](EXPORTS[table].columns, rows(connection, table), out)
    readers = {"csv": duckdb.read_csv, "parquet": duckdb.read_parquet}
    if form == "jsonl":
        assert count == len(file.read_bytes().splitlines())
    else:
        found = readers[form](str(file), **({"header": True} if form == "csv" else {}))
        assert (count, list(EXPORTS[table].columns)) == (len(found.fetchall()), found.columns)
