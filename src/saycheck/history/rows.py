"""Walks as rows of the index, and back."""

from collections.abc import Sequence
from typing import TypeVar

from sqlalchemy import Connection, Table, func, select

from saycheck.history.names import unit_key
from saycheck.history.records import Decided, Measured, Said, Walked
from saycheck.history.tables import WalkRow, decisions, findings, readings, units, walks

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
    of_walks: list[tuple[object, ...]] = []
    said: list[tuple[object, ...]] = []
    measured: list[tuple[object, ...]] = []
    decided: list[tuple[object, ...]] = []
    for number, (walked, stamp) in enumerate(taken, next_number(connection)):
        unit = unit_numbers[unit_key(walked.unit), walked.kind] if walked.unit else None
        row = WalkRow(
            root, walked.folder, stamp, None, walked.walk_id, unit, walked.unit, walked.hours, walked.when,
            walked.questions, walked.answered, walked.edits, walked.unreviewed,
        )  # fmt: skip
        of_walks.append((number, *row))
        said += [(number, *one) for one in walked.said]
        measured += [(number, *one) for one in walked.measured]
        decided += [(number, *one) for one in walked.decided]
    insert_rows(connection, walks, ("id", *WalkRow._fields), of_walks)
    insert_rows(connection, findings, ("walk", *Said._fields), said)
    insert_rows(connection, readings, ("walk", *Measured._fields), measured)
    insert_rows(connection, decisions, ("walk", *Decided._fields), decided)


def insert_rows(
    connection: Connection, table: Table, columns: Sequence[str], rows: Sequence[tuple[object, ...]]
) -> None:
    """Put many rows into a table by the driver itself: an insert of SQLAlchemy costs ten times as much a row."""
    if not rows:
        return
    quote = connection.dialect.identifier_preparer.quote
    mark = "?" if connection.dialect.paramstyle == "qmark" else "%s"
    names, marks = ", ".join(map(quote, columns)), ", ".join(mark for _ in columns)
    connection.exec_driver_sql(f"INSERT INTO {quote(table.name)} ({names}) VALUES ({marks})", list(rows))


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
            when=row.walked, questions=row.questions, answered=row.answered, edits=row.edits,
            unreviewed=row.unreviewed,
            said=tuple(said.get(row.id, ())), measured=tuple(measured.get(row.id, ())),
            decided=tuple(decided.get(row.id, ())),
        )  # fmt: skip
        copies = found.setdefault(row.unit_id, {})
        if row.walk_id not in copies or _further(walked, copies[row.walk_id]):
            copies[row.walk_id] = walked
    return {number: list(found.get(number, {}).values()) for number in numbers}


def _further(one: Walked, other: Walked) -> bool:
    """Whether one copy of a walk has been worked on more than another."""
    return (one.edits, len(one.decided)) > (other.edits, len(other.decided))


def _by_walk(
    connection: Connection, table: Table, record: type[Record], of: Sequence[int]
) -> dict[int, list[Record]]:
    columns = [table.c.walk, *(table.c[name] for name in record._fields)]  # type: ignore[attr-defined]
    found: dict[int, list[Record]] = {}
    for start in range(0, len(of), 500):
        asked = select(*columns).where(table.c.walk.in_(of[start : start + 500])).order_by(table.c.id)
        for row in connection.execute(asked).all():
            found.setdefault(row[0], []).append(record._make(row[1:]))
    return found
