"""What is remembered of all units together."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, func, literal, literal_column, select

from saycheck.history.tables import findings, forecasts, troubles, units, walks
from saycheck.models.walk import Side

MOST = 15
"""So many lines of each list are shown unless all are asked for."""


@dataclass(frozen=True)
class Offender:
    """A trouble that came back: how many units of the kind have it, and how often it came back in all."""

    kind: str
    part: str
    check: str
    units: int
    times: int


@dataclass(frozen=True, order=True)
class DueRow:
    """Something that is due: the day, the unit, the part, what was said of it, and why then."""

    day: str
    name: str
    key: str
    kind: str
    part: str
    side: Side
    condition: str
    why: str


@dataclass(frozen=True)
class Fleet:
    """The fleet: how much there is, and the heads of three lists, each looked up when it is asked for.

    A list has at most ``most`` lines, all of them with None. Rows have the names of the tables' columns.
    """

    connection: Connection
    most: int | None
    units: int
    walks: int
    open: int
    unnamed: int
    all_due: int

    @cached_property
    def neediest(self) -> Sequence[Any]:
        """Units with the most to write up first, then the most to watch."""
        return neediest(self.connection, self.most)

    @cached_property
    def due(self) -> Sequence[DueRow]:
        """What has a day on which it is due, the soonest first."""
        return due(self.connection, self.most)

    @cached_property
    def offenders(self) -> Sequence[Offender]:
        """Troubles that came back after they had ended, those of the most units first."""
        return offenders(self.connection, self.most)


def fleet(connection: Connection, most: int | None = MOST) -> Fleet:
    """The fleet with at most so many lines a list; None gives all."""
    counted = connection.execute(
        select(func.count(), func.sum(units.c.walks), func.sum(units.c.writeup + units.c.watch)).select_from(
            units
        )
    ).one()
    unnamed = connection.scalar(
        select(func.count()).select_from(walks).where(walks.c.unit_id.is_(None), walks.c.problem.is_(None))
    )
    return Fleet(
        connection,
        most,
        units=counted[0],
        walks=int(counted[1] or 0),
        open=int(counted[2] or 0),
        unnamed=unnamed or 0,
        all_due=_count(connection, troubles.c.due) + _count(connection, forecasts.c.due),
    )


def neediest(connection: Connection, most: int | None = None) -> Sequence[Any]:
    """Units with the most to write up first, then the most to watch."""
    order = (units.c.writeup.desc(), units.c.watch.desc(), units.c.key, units.c.kind)
    return connection.execute(select(units).order_by(*order).limit(most)).all()


def due(connection: Connection, most: int | None = None) -> list[DueRow]:
    """Troubles and worn parts with a day on which they are due, the soonest first."""
    at, worn, of = troubles.c, forecasts.c, units.c
    of_troubles = select(
        at.due, of.name, of.key, of.kind, at.part, at.side, at.condition, at.why_due
    ).join_from(troubles, units, of.id == at.unit)  # fmt: skip
    of_wear = select(
        worn.due, of.name, of.key, of.kind, worn.line, worn.side, literal("at its limit"), literal("wear")
    ).join_from(forecasts, units, of.id == worn.unit)  # fmt: skip
    rows = [*_first(of_troubles, at.due, connection, most), *_first(of_wear, worn.due, connection, most)]
    return sorted(DueRow(*row) for row in rows)[:most]


def _count(connection: Connection, day: ColumnElement[Any]) -> int:
    return connection.scalar(select(func.count(day))) or 0


def _first(
    asked: Select[Any], day: ColumnElement[Any], connection: Connection, most: int | None
) -> Sequence[Any]:
    """The rows of the earliest days, at least so many as asked for where there are so many.

    All rows of the last of these days are among them, since they are only put in order afterwards.
    """
    asked = asked.where(day.is_not(None))
    if most is not None:
        last = connection.scalar(select(day).where(day.is_not(None)).order_by(day).offset(most - 1).limit(1))
        if last is not None:
            asked = asked.where(day <= last)
    return connection.execute(asked).all()


def offenders(connection: Connection, most: int | None = None) -> list[Offender]:
    """Troubles that came back after they had ended, those of the most units first."""
    at = troubles.c
    many = func.count(at.unit.distinct())
    times = func.count()
    asked = (
        select(at.kind, at.part, at.check, many, times)
        .where(at.spell > literal_column("1"))  # a bound 1 would leave the index unused
        .group_by(at.kind, at.part, at.check)
        .order_by(many.desc(), times.desc(), at.kind, at.part, at.check)
        .limit(most)
    )
    return [Offender(*row) for row in connection.execute(asked)]


def unnamed_walks(connection: Connection, most: int | None = None) -> Sequence[str]:
    """The folders of walks that name no unit."""
    asked = select(walks.c.folder).where(walks.c.unit_id.is_(None), walks.c.problem.is_(None))
    return connection.scalars(asked.order_by(walks.c.folder).limit(most)).all()


def findings_held(connection: Connection) -> int:
    """How many findings the index holds."""
    return connection.scalar(select(func.count()).select_from(findings)) or 0
