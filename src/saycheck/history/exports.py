"""Tables of the history for other programs: what rows there are and what their columns are called.

Identity and hours are named as in ISO 15143-3 where it has them (from memory): ``EquipmentHeader`` with
``EquipmentID``, ``CumulativeOperatingHours`` with ``Hour`` and ``datetime``. JSON holds them nested as that
standard does; in flat tables the names are joined by a dot. The other columns are our own: days are ISO
8601, hours are h of the hour meter.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, select

from saycheck.history.tables import findings, forecasts, readings, troubles, units, walks

ID = "EquipmentHeader.EquipmentID"
HOUR = "CumulativeOperatingHours.Hour"
WHEN = "CumulativeOperatingHours.datetime"


@dataclass(frozen=True)
class Export:
    """One table: what a row is, its columns with their types (``text``, ``number``, ``whole``, ``truth``)."""

    name: str
    row: str
    columns: dict[str, str]
    rows: Select[Any]


TROUBLE: dict[str, ColumnElement[Any]] = {
    ID: units.c.name, "kind": units.c.kind, HOUR: units.c.hours, WHEN: units.c.last_day,
    "zone": troubles.c.zone, "part": troubles.c.part, "side": troubles.c.side, "state": troubles.c.state,
    "condition": troubles.c.condition, "check": troubles.c.check, "opened_on": troubles.c.opened,
    "opened_hours": troubles.c.opened_hours, "last_seen_on": troubles.c.seen, "ended_on": troubles.c.closed,
    "times_seen": troubles.c.times, "spell": troubles.c.spell, "last_walk_said": troubles.c.answer,
    "not_reviewed": troubles.c.flagged, "decision": troubles.c.choice, "due_on": troubles.c.due,
    "due_because": troubles.c.why_due,
}  # fmt: skip
WALK: dict[str, ColumnElement[Any]] = {
    ID: units.c.name, "kind": units.c.kind, HOUR: walks.c.hours, WHEN: walks.c.walked, "walk": walks.c.walk_id,
    "folder": walks.c.folder,
}  # fmt: skip
FINDING: dict[str, ColumnElement[Any]] = {
    "zone": findings.c.zone, "line": findings.c.line, "side": findings.c.side, "part": findings.c.part,
    "condition": findings.c.condition, "denied": findings.c.denied, "state": findings.c.state,
    "not_reviewed": findings.c.flagged, "words": findings.c.words,
}  # fmt: skip
READING: dict[str, ColumnElement[Any]] = {
    "line": readings.c.line, "side": readings.c.side, "part": readings.c.part,
    "attribute": readings.c.attribute, "value": readings.c.value, "unit": readings.c.unit,
    "plus_minus": readings.c.plus_minus, "value_si": readings.c.value_si, "unit_si": readings.c.unit_si,
    "judged": readings.c.judged, "new_series": readings.c.renewed,
}  # fmt: skip
FORECAST: dict[str, ColumnElement[Any]] = {
    ID: units.c.name, "kind": units.c.kind, HOUR: units.c.hours, WHEN: units.c.last_day,
    "zone": forecasts.c.zone, "part": forecasts.c.line, "side": forecasts.c.side,
    "attribute": forecasts.c.attribute, "measured_on": forecasts.c.measured_on, "value": forecasts.c.value,
    "unit": forecasts.c.measured_in, "remaining_hours": forecasts.c.remaining_hours,
    "due_on": forecasts.c.due, "earliest_on": forecasts.c.earliest, "told": forecasts.c.told,
}  # fmt: skip
FIRST_UNITS, MOST_UNITS = 20, 200
"""So many units are asked for at a time."""
_UNIT_ORDER = (units.c.key, units.c.kind)
_TROUBLE_ORDER = (troubles.c.line, troubles.c.side, troubles.c.part, troubles.c.check, troubles.c.opened)
_WALK_ORDER = (*_UNIT_ORDER, walks.c.walked, walks.c.walk_id, walks.c.root, walks.c.folder)


def _of_troubles(*where: ColumnElement[bool]) -> Select[Any]:
    asked = select(*TROUBLE.values()).join_from(troubles, units, units.c.id == troubles.c.unit)
    return asked.where(*where).order_by(*_UNIT_ORDER, *_TROUBLE_ORDER)


def _of_walks(table: Any, columns: dict[str, ColumnElement[Any]]) -> Select[Any]:
    asked = select(*WALK.values(), *columns.values()).join_from(walks, units, units.c.id == walks.c.unit_id)
    if table is not None:
        return asked.join(table, table.c.walk == walks.c.id).order_by(*_WALK_ORDER, table.c.id)
    return asked.order_by(*_WALK_ORDER)


def _of_forecasts() -> Select[Any]:
    asked = select(*FORECAST.values()).join_from(forecasts, units, units.c.id == forecasts.c.unit)
    return asked.order_by(*_UNIT_ORDER, forecasts.c.line, forecasts.c.side, forecasts.c.attribute)


def _types(columns: dict[str, ColumnElement[Any]]) -> dict[str, str]:
    types = {"VARCHAR": "text", "FLOAT": "number", "INTEGER": "whole", "BOOLEAN": "truth"}
    return {name: types[str(column.type)] for name, column in columns.items()}


_COUNTS: dict[str, ColumnElement[Any]] = {
    "questions": walks.c.questions, "answered": walks.c.answered, "edits": walks.c.edits,
    "not_reviewed": walks.c.unreviewed,
}  # fmt: skip
EXPORTS = {
    one.name: one
    for one in (
        Export("open", "a trouble that is still open", _types(TROUBLE), _of_troubles(troubles.c.closed.is_(None))),
        Export("due", "an open trouble with a day on which it is due", _types(TROUBLE),
               _of_troubles(troubles.c.due.is_not(None))),
        Export("back", "a trouble that came back after it had ended", _types(TROUBLE),
               _of_troubles(troubles.c.spell > 1)),
        Export("wear", "a part that wears towards a published limit", _types(FORECAST), _of_forecasts()),
        Export("troubles", "a trouble, open or ended", _types(TROUBLE), _of_troubles()),
        Export("walks", "a walk", _types(WALK | _COUNTS), _of_walks(None, _COUNTS)),
        Export("findings", "a finding on one line of the checklist", _types(WALK | FINDING),
               _of_walks(findings, FINDING)),
        Export("readings", "a number that was said", _types(WALK | READING), _of_walks(readings, READING)),
    )
}  # fmt: skip
"""All tables by name."""


def rows(connection: Connection, name: str, unit: int | None = None) -> Iterator[tuple[Any, ...]]:
    """The rows of a table, of one unit (by its number) or of all, in an order that is the same everywhere.

    They are asked for some units at a time, few at first, so that the first rows are there at once however many
    there are.
    """
    asked = EXPORTS[name].rows
    every = select(units.c.id).order_by(*_UNIT_ORDER)
    if name == "wear":  # few units have any, and to ask for all the others takes longer than the answer
        every = every.where(units.c.id.in_(select(forecasts.c.unit)))
    numbers = [unit] if unit is not None else connection.scalars(every).all()
    start, some = 0, FIRST_UNITS
    while start < len(numbers):
        yield from map(
            tuple, connection.execute(asked.where(units.c.id.in_(numbers[start : start + some]))).all()
        )
        start, some = start + some, MOST_UNITS
