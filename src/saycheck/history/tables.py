"""The tables of the index. All of them can be made again from walk folders; none is the record of anything.

Each table is described once, by a named tuple: a field is a column, its type says what the column holds and
whether it may be empty. Days and times are ISO 8601 text, which sorts as time does and is the same on every
database. Texts compare byte by byte everywhere, so that SQLite and PostgreSQL put rows in the same order.
"""

import hashlib
from typing import Any, Literal, NamedTuple, get_type_hints

from sqlalchemy import Boolean, Column, Float, ForeignKey, Index, Integer, MetaData, String, Table

from saycheck.history.records import Decided, Measured, Said

Text = String().with_variant(String(collation="C"), "postgresql")
"""Text that is compared byte by byte, as SQLite does anyway."""

PREFIX = "saycheck_"
"""So that nothing else in a shared database can be meant."""

metadata = MetaData()


class UnitRow(NamedTuple):
    """A unit, and what follows from its walks as a whole; the counts are of what is still open."""

    kind: str
    key: str
    name: str
    walks: int = 0
    first_day: str | None = None
    last_day: str | None = None
    hours: float | None = None
    hours_per_day: float | None = None
    writeup: int = 0
    watch: int = 0
    not_looked_at: int = 0
    came_back: int = 0
    oldest_day: str | None = None


class WalkRow(NamedTuple):
    """A walk folder; ``problem`` says why it could not be read, and then nothing else is known."""

    root: str
    folder: str
    stamp: str
    problem: str | None = None
    walk_id: str | None = None
    unit_id: int | None = None
    name: str | None = None
    hours: float | None = None
    walked: str | None = None
    questions: int = 0
    answered: int = 0
    edits: int = 0
    unreviewed: int = 0


class TroubleRow(NamedTuple):
    """A trouble, open or ended; the fields are those of ``troubles.Trouble`` and of what the owner decided."""

    unit: int
    kind: str
    zone: str
    line: str
    side: str
    part: str
    check: str
    condition: str
    state: str
    opened: str
    opened_hours: float | None
    seen: str
    closed: str | None
    times: int
    spell: int
    answer: str
    flagged: bool
    choice: str
    due: str | None
    why_due: str


class ForecastRow(NamedTuple):
    """A part that wears towards its limit: its last reading, and the day on which it is there."""

    unit: int
    zone: str
    line: str
    side: str
    attribute: str
    measured_on: str
    value: float
    measured_in: str
    remaining_hours: float | None
    due: str
    earliest: str | None
    told: str


_TYPES: dict[type, Any] = {str: Text, int: Integer, float: Float, bool: Boolean}


def _columns(record: type) -> list[Column[Any]]:
    """A column for each field; a text, number or truth that may be None may be empty."""
    found = []
    for name, kind in get_type_hints(record).items():
        may_be = getattr(kind, "__args__", (kind,))
        found.append(Column(name, _TYPES[may_be[0]], nullable=type(None) in may_be))
    return found


def _table(name: str, record: type, *more: Any, number: bool | Literal["auto"] = "auto") -> Table:
    """A table of such records, each with a number of its own: one that the database gives, unless told otherwise."""
    own = Column("id", Integer, primary_key=True, autoincrement=number)
    return Table(f"{PREFIX}{name}", metadata, own, *more, *_columns(record))


def _index(name: str, *columns: Any, **more: Any) -> None:
    Index(f"{PREFIX}{name}", *columns, **more)


def _of_walk() -> Column[Any]:
    return Column("walk", Integer, ForeignKey(walks.c.id), nullable=False)


about = Table(
    f"{PREFIX}about",
    metadata,
    Column("name", Text, primary_key=True),
    Column("value", Text, nullable=False),
)
units = _table("unit", UnitRow)
walks = _table("walk", WalkRow, number=False)
findings = _table("finding", Said, _of_walk())
readings = _table("reading", Measured, _of_walk())
decisions = _table("decision", Decided, _of_walk())
troubles = _table("trouble", TroubleRow)
forecasts = _table("forecast", ForecastRow)

_index("unit_name", units.c.key, units.c.kind, unique=True)
_index("unit_open", units.c.writeup.desc(), units.c.watch.desc(), units.c.key, units.c.kind)
_index("walk_folder", walks.c.root, walks.c.folder, unique=True)
_index("walk_unit", walks.c.unit_id, walks.c.walked)
_index("walk_problem", walks.c.problem)
_index("finding_walk", findings.c.walk)
_index("reading_walk", readings.c.walk)
_index("decision_walk", decisions.c.walk)
_index("trouble_unit", troubles.c.unit)
_index("trouble_due", troubles.c.due, troubles.c.id)
_CAME_BACK = troubles.c.spell > 1
_index(
    "trouble_back", troubles.c.kind, troubles.c.part, troubles.c.check, troubles.c.unit,
    sqlite_where=_CAME_BACK, postgresql_where=_CAME_BACK,
)  # fmt: skip
_index("forecast_unit", forecasts.c.unit)
_index("forecast_due", forecasts.c.due)

DERIVED = 2
"""Counted up when what is worked out from the walks follows other rules."""
VERSION = hashlib.sha256(
    repr([DERIVED]).encode()
    + repr([(t.name, [(c.name, str(c.type)) for c in t.columns]) for t in metadata.sorted_tables]).encode()
).hexdigest()[:12]
"""Changes when a table does, or the rules for what stands in it; an index of another version is made again."""

OF_A_WALK = (findings, readings, decisions)
"""What goes with its walk."""
OF_A_UNIT = (troubles, forecasts)
"""What is worked out for each unit."""
