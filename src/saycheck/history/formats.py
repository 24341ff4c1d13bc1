"""Writes tables as CSV (RFC 4180), JSON Lines or Parquet.

CSV is UTF-8 with a header line, lines end in CR LF, an empty field is what nobody knows. JSON Lines is UTF-8,
one object a line. Parquet needs pyarrow (extra ``parquet``).
"""

import csv
import io
import json
from collections.abc import Iterable
from itertools import islice
from typing import IO, Any

from saycheck.errors import HistoryError

BATCH = 5000


def write_csv(columns: dict[str, str], rows: Iterable[tuple[Any, ...]], out: IO[bytes]) -> None:
    """Write rows as CSV."""
    text = io.TextIOWrapper(out, encoding="utf-8", newline="", write_through=True)
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(columns)
    truths = [place for place, kind in enumerate(columns.values()) if kind == "truth"]
    for row in rows:
        fields = list(row)
        for place in truths:
            fields[place] = "true" if row[place] else "false"
        writer.writerow(fields)
    text.detach()


def write_jsonl(columns: dict[str, str], rows: Iterable[tuple[Any, ...]], out: IO[bytes]) -> None:
    """Write rows as JSON Lines; names with a dot become objects in objects."""
    for row in rows:
        line: dict[str, Any] = {}
        for name, value in zip(columns, row, strict=True):
            *groups, last = name.split(".")
            inside = line
            for group in groups:
                inside = inside.setdefault(group, {})
            inside[last] = value
        out.write((json.dumps(line, ensure_ascii=False) + "\n").encode())


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
    waiting = iter(rows)
    with parquet.ParquetWriter(out, schema) as writer:
        while batch := list(islice(waiting, BATCH)):
            arrays = [
                pyarrow.array(values, type=field.type)
                for field, values in zip(schema, zip(*batch, strict=True), strict=True)
            ]
            writer.write_batch(pyarrow.record_batch(arrays, schema=schema))


WRITERS = {"csv": write_csv, "jsonl": write_jsonl, "parquet": write_parquet}
