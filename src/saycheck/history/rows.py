"""Walks as rows of the index, and back."""

from collections.abc import Sequence
from dataclasses import fields
from typing import TypeVar

from sqlalchemy import Connection, Table, func, insert, select

from saycheck.history.names import unit_key
from saycheck.history.records import Decided, Measured, Said, Walked
from saycheck.history.tables import decisions, findings, readings, units, walks

Record = TypeVar("Record", Said, Measured, Decided)


def next_number(connection: Connection) -> int:
    """The number of the next walk; nobody else can take it meanwhile, see ``Index.changing``."""
    return (connection.scalar(select(func.max(walks.c.id))) or 0) + 1


def insert_walks(
    connection: Connection,
    root: str,
    taken: Sequence[tuple[Walked, str]],
    unit_numbers: dict[tuple[str, str], int],
) -> None:
    """Put walks with their stamps into the index, many rows at a time."""
    if not taken:
        return
    first = next_number(connection)
    rows: dict[Table, list[dict[str, object]]] = {walks: [], findings: [], readings: [], decisions: []}
    for number, (walked, stamp) in enumerate(taken, first):
        unit = unit_numbers[unit_key(walked.unit), walked.kind] if walked.unit else None
        rows[walks].append(
            {
                "id": number, "root": root, "folder": walked.folder, "stamp": stamp, "walk_id": walked.walk_id,
                "unit_id": unit, "name": walked.unit, "hours": walked.hours, "walked": walked.when,
                "questions": walked.questions, "reviewed": walked.reviewed,
            }
        )  # fmt: skip
        rows[findings] += [{"walk": number, **_values(one)} for one in walked.said]
        rows[readings] += [{"walk": number, **_values(one)} for one in walked.measured]
        rows[decisions] += [{"walk": number, **_values(one)} for one in walked.decided]
    for table, values in rows.items():
        if values:
            connection.execute(insert(table), values)


def _values(one: Said | Measured | Decided) -> dict[str, object]:
    return {name: getattr(one, name) for name in one.__slots__}


def walks_of(connection: Connection, numbers: Sequence[int]) -> dict[int, list[Walked]]:
    """The walks of units in order of time, each once even where several folders hold a copy of it."""
    asked = select(units.c.id, units.c.kind).where(units.c.id.in_(numbers))
    kinds = {row.id: row.kind for row in connection.execute(asked)}
    rows = connection.execute(
        select(walks)
        .where(walks.c.unit_id.in_(numbers))
        .order_by(
            walks.c.walked,
            walks.c.hours.is_(None),
            walks.c.hours,
            walks.c.walk_id,
            walks.c.root,
            walks.c.folder,
        )
    ).all()
    of = [row.id for row in rows]
    said = _by_walk(connection, findings, Said, of)
    measured = _by_walk(connection, readings, Measured, of)
    decided = _by_walk(connection, decisions, Decided, of)
    found: dict[int, dict[str, Walked]] = {}
    for row in rows:
        walked = Walked(
            walk_id=row.walk_id, folder=row.folder, kind=kinds[row.unit_id], unit=row.name, hours=row.hours,
            when=row.walked, questions=row.questions, reviewed=row.reviewed,
            said=tuple(said.get(row.id, ())), measured=tuple(measured.get(row.id, ())),
            decided=tuple(decided.get(row.id, ())),
        )  # fmt: skip
        copies = found.setdefault(row.unit_id, {})
        if row.walk_id not in copies or _further(walked, copies[row.walk_id]):
            copies[row.walk_id] = walked
    return {number: list(found.get(number, {}).values()) for number in numbers}


def _further(one: Walked, other: Walked) -> bool:
    """Whether one copy of a walk has been worked on more than another."""
    return (one.reviewed, len(one.decided)) > (other.reviewed, len(other.decided))


def _by_walk(
    connection: Connection, table: Table, record: type[Record], of: Sequence[int]
) -> dict[int, list[Record]]:
    columns = [table.c.walk, *(table.c[one.name] for one in fields(record))]
    found: dict[int, list[Record]] = {}
    for start in range(0, len(of), 500):
        asked = select(*columns).where(table.c.walk.in_(of[start : start + 500])).order_by(table.c.id)
        for row in connection.execute(asked):
            found.setdefault(row[0], []).append(record(*row[1:]))
    return found
