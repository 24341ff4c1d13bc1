"""The tables of the index. All of them can be made again from walk folders; none is the record of anything.

Days and times are ISO 8601 text, which sorts as time does and is the same on every database. Texts compare
byte by byte everywhere, so that SQLite and PostgreSQL put rows in the same order.
"""

import hashlib

from sqlalchemy import Boolean, Column, Float, ForeignKey, Index, Integer, MetaData, String, Table

Text = String().with_variant(String(collation="C"), "postgresql")
"""Text that is compared byte by byte, as SQLite does anyway."""

PREFIX = "saycheck_"
"""So that nothing else in a shared database can be meant."""

metadata = MetaData()

about = Table(
    f"{PREFIX}about",
    metadata,
    Column("name", Text, primary_key=True),
    Column("value", Text, nullable=False),
)

units = Table(
    f"{PREFIX}unit",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("kind", Text, nullable=False),
    Column("key", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("walks", Integer, nullable=False, default=0),
    Column("first_day", Text),
    Column("last_day", Text),
    Column("hours", Float),
    Column("hours_per_day", Float),
    Column("writeup", Integer, nullable=False, default=0),
    Column("watch", Integer, nullable=False, default=0),
    Column("not_looked_at", Integer, nullable=False, default=0),
    Column("came_back", Integer, nullable=False, default=0),
    Column("oldest_day", Text),
    Index(f"{PREFIX}unit_name", "key", "kind", unique=True),
)
Index(f"{PREFIX}unit_open", units.c.writeup.desc(), units.c.watch.desc(), units.c.key, units.c.kind)

walks = Table(
    f"{PREFIX}walk",
    metadata,
    Column("id", Integer, primary_key=True, autoincrement=False),
    Column("root", Text, nullable=False),
    Column("folder", Text, nullable=False),
    Column("stamp", Text, nullable=False),
    Column("problem", Text),
    Column("walk_id", Text),
    Column("unit_id", Integer, ForeignKey(units.c.id)),
    Column("name", Text),
    Column("hours", Float),
    Column("walked", Text),
    Column("questions", Integer, nullable=False, default=0),
    Column("answered", Integer, nullable=False, default=0),
    Column("edits", Integer, nullable=False, default=0),
    Column("unreviewed", Integer, nullable=False, default=0),
    Index(f"{PREFIX}walk_folder", "root", "folder", unique=True),
    Index(f"{PREFIX}walk_unit", "unit_id", "walked"),
    Index(f"{PREFIX}walk_problem", "problem"),
)

findings = Table(
    f"{PREFIX}finding",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("walk", Integer, ForeignKey(walks.c.id), nullable=False),
    Column("zone", Text, nullable=False),
    Column("line", Text, nullable=False),
    Column("side", Text, nullable=False),
    Column("part", Text, nullable=False),
    Column("condition", Text, nullable=False),
    Column("state", Text, nullable=False),
    Column("denied", Boolean, nullable=False),
    Column("flagged", Boolean, nullable=False),
    Column("words", Text, nullable=False),
    Index(f"{PREFIX}finding_walk", "walk"),
)

readings = Table(
    f"{PREFIX}reading",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("walk", Integer, ForeignKey(walks.c.id), nullable=False),
    Column("line", Text, nullable=False),
    Column("side", Text, nullable=False),
    Column("part", Text, nullable=False),
    Column("attribute", Text, nullable=False),
    Column("value", Float, nullable=False),
    Column("unit", Text, nullable=False),
    Column("plus_minus", Float, nullable=False),
    Column("value_si", Float, nullable=False),
    Column("unit_si", Text, nullable=False),
    Column("judged", Text, nullable=False),
    Column("renewed", Text, nullable=False),
    Index(f"{PREFIX}reading_walk", "walk"),
)

decisions = Table(
    f"{PREFIX}decision",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("walk", Integer, ForeignKey(walks.c.id), nullable=False),
    Column("part", Text, nullable=False),
    Column("side", Text, nullable=False),
    Column("condition", Text, nullable=False),
    Column("choice", Text, nullable=False),
    Column("who", Text, nullable=False),
    Column("day", Text, nullable=False),
    Column("due", Text, nullable=False),
    Column("note", Text, nullable=False),
    Index(f"{PREFIX}decision_walk", "walk"),
)

troubles = Table(
    f"{PREFIX}trouble",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("unit", Integer, ForeignKey(units.c.id), nullable=False),
    Column("kind", Text, nullable=False),
    Column("zone", Text, nullable=False),
    Column("line", Text, nullable=False),
    Column("side", Text, nullable=False),
    Column("part", Text, nullable=False),
    Column("check", Text, nullable=False),
    Column("condition", Text, nullable=False),
    Column("state", Text, nullable=False),
    Column("opened", Text, nullable=False),
    Column("opened_hours", Float),
    Column("seen", Text, nullable=False),
    Column("closed", Text),
    Column("times", Integer, nullable=False),
    Column("spell", Integer, nullable=False),
    Column("answer", Text, nullable=False),
    Column("flagged", Boolean, nullable=False),
    Column("choice", Text, nullable=False),
    Column("due", Text),
    Column("why_due", Text, nullable=False),
    Index(f"{PREFIX}trouble_unit", "unit"),
)
Index(f"{PREFIX}trouble_due", troubles.c.due, troubles.c.id)
Index(
    f"{PREFIX}trouble_back",
    troubles.c.kind,
    troubles.c.part,
    troubles.c.check,
    troubles.c.unit,
    sqlite_where=troubles.c.spell > 1,
    postgresql_where=troubles.c.spell > 1,
)

forecasts = Table(
    f"{PREFIX}forecast",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("unit", Integer, ForeignKey(units.c.id), nullable=False),
    Column("zone", Text, nullable=False),
    Column("line", Text, nullable=False),
    Column("side", Text, nullable=False),
    Column("attribute", Text, nullable=False),
    Column("measured_on", Text, nullable=False),
    Column("value", Float, nullable=False),
    Column("measured_in", Text, nullable=False),
    Column("remaining_hours", Float),
    Column("due", Text, nullable=False),
    Column("earliest", Text),
    Column("told", Text, nullable=False),
    Index(f"{PREFIX}forecast_unit", "unit"),
    Index(f"{PREFIX}forecast_due", "due"),
)

VERSION = hashlib.sha256(
    repr([(t.name, [(c.name, str(c.type)) for c in t.columns]) for t in metadata.sorted_tables]).encode()
).hexdigest()[:12]
"""Changes when a table does; an index of another version is made again."""

OF_A_WALK = (findings, readings, decisions)
"""What goes with its walk."""
OF_A_UNIT = (troubles, forecasts)
"""What is worked out for each unit."""
