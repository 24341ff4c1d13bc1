"""Writes tables as CSV (RFC 4180), JSON Lines or Parquet.

CSV is UTF-8 with a header line, lines end in CR LF, an empty field is what nobody knows. JSON Lines is UTF-8,
one object a line. Parquet needs pyarrow (extra ``parquet``).
"""

import csv
import io
import json
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from typing import IO, Any

from saycheck.errors import HistoryError

FIRST, BATCH = 100, 5000
"""So many rows are written at a time, the first ones and all others."""


def batches(rows: Iterable[tuple[Any, ...]]) -> Iterator[list[tuple[Any, ...]]]:
    """Rows in lists, a short one first, so that whoever reads along sees the first of them at once."""
    waiting = iter(rows)
    size = FIRST
    while batch := list(islice(waiting, size)):
        yield batch
        size = BATCH


def write_csv(columns: dict[str, str], rows: Iterable[tuple[Any, ...]], out: IO[bytes]) -> None:
    """Write rows as CSV."""
    truths = [place for place, kind in enumerate(columns.values()) if kind == "truth"]

    def fields(row: tuple[Any, ...]) -> Sequence[Any]:
        found = list(row)
        for place in truths:
            found[place] = "true" if row[place] else "false"
        return found

    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(columns)
    for batch in batches(rows):
        writer.writerows(map(fields, batch) if truths else batch)
        out.write(text.getvalue().encode())
        text.seek(0)
        text.truncate()
    out.write(text.getvalue().encode())


def write_jsonl(columns: dict[str, str], rows: Iterable[tuple[Any, ...]], out: IO[bytes]) -> None:
    """Write rows as JSON Lines; names with a dot become objects in objects."""
    names = [name.split(".") for name in columns]
    for batch in batches(rows):
        out.write(
            "".join(f"{json.dumps(_nested(names, row), ensure_ascii=False)}\n" for row in batch).encode()
        )


def _nested(names: Sequence[list[str]], row: tuple[Any, ...]) -> dict[str, Any]:
    line: dict[str, Any] = {}
    for (*groups, last), value in zip(names, row, strict=True):
        inside = line
        for group in groups:
            inside = inside.setdefault(group, {})
        inside[last] = value
    return line


def write_parquet(columns: dict[str, str], rows: Iterable[tuple[Any, ...]], out: IO[bytes]) -> None:
    """Write rows as Parquet.

    Raises:
        HistoryError: pyarrow is not installed.
    """
    try:
        import pyarrow
        from pyarrow import parquet
    except ModuleNotFoundError as error:
        raise HistoryError(
            'Parquet needs the package pyarrow; pip install "saycheck[parquet]" brings it, or choose csv or jsonl'
        ) from error
    types = {
        "text": pyarrow.string(), "number": pyarrow.float64(), "whole": pyarrow.int64(), "truth": pyarrow.bool_()
    }  # fmt: skip
    schema = pyarrow.schema([(name, types[kind]) for name, kind in columns.items()])
    with parquet.ParquetWriter(out, schema) as writer:
        for batch in batches(rows):
            arrays = [
                pyarrow.array(values, type=field.type)
                for field, values in zip(schema, zip(*batch, strict=True), strict=True)
            ]
            writer.write_batch(pyarrow.record_batch(arrays, schema=schema))


WRITERS = {"csv": write_csv, "jsonl": write_jsonl, "parquet": write_parquet}
