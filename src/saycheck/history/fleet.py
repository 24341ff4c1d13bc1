"""What is remembered of all units together."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, func, select

from saycheck.history.tables import findings, troubles, units, walks

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


@dataclass(frozen=True)
class Fleet:
    """The fleet: how much there is, and the heads of three lists. Rows have the names of the tables' columns."""

    units: int
    walks: int
    open: int
    unnamed: int
    neediest: Sequence[Any]
    due: Sequence[Any]
    offenders: Sequence[Offender]


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
        units=counted[0],
        walks=int(counted[1] or 0),
        open=int(counted[2] or 0),
        unnamed=unnamed or 0,
        neediest=neediest(connection, most),
        due=due(connection, most),
        offenders=offenders(connection, most),
    )


def neediest(connection: Connection, most: int | None = None) -> Sequence[Any]:
    """Units with the most to write up first, then the most to watch."""
    order = (units.c.writeup.desc(), units.c.watch.desc(), units.c.key, units.c.kind)
    return connection.execute(select(units).order_by(*order).limit(most)).all()


def due(connection: Connection, most: int | None = None) -> Sequence[Any]:
    """Troubles with a day on which they are due, the soonest first, each with ``name`` and ``hours`` of its unit."""
    first = select(troubles.c.due).where(troubles.c.due.is_not(None)).order_by(troubles.c.due)
    asked = select(troubles, units.c.name, units.c.hours).join(units, units.c.id == troubles.c.unit)
    asked = asked.where(troubles.c.due.is_not(None))
    if most is not None:
        # Ties on the last day are cut by name below, so all of that day must be fetched.
        last = connection.scalar(first.offset(most - 1).limit(1))
        if last is not None:
            asked = asked.where(troubles.c.due <= last)
    order = (
        troubles.c.due, units.c.key, units.c.kind, troubles.c.line, troubles.c.side, troubles.c.part,
        troubles.c.check,
    )  # fmt: skip
    return connection.execute(asked.order_by(*order).limit(most)).all()


def offenders(connection: Connection, most: int | None = None) -> list[Offender]:
    """Troubles that came back after they had ended, those of the most units first."""
    at = troubles.c
    many = func.count(at.unit.distinct())
    times = func.count()
    asked = (
        select(at.kind, at.part, at.check, many, times)
        .where(at.spell > 1)
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
