"""All that is remembered of one unit."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from sqlalchemy import Connection, func, select

from saycheck.errors import HistoryError
from saycheck.history.compare import Changed, compared
from saycheck.history.derive import due_of, hours_per_day
from saycheck.history.forecast import Forecast, forecasts_of
from saycheck.history.names import unit_key
from saycheck.history.records import Walked
from saycheck.history.rows import walks_of
from saycheck.history.sense import Sense, sense_of
from saycheck.history.tables import units
from saycheck.history.trends import Series, series_of
from saycheck.history.troubles import Trouble, follow

NAMED = 5
"""So many units are named where the one asked for is not there."""


@dataclass(frozen=True)
class DueItem:
    """A trouble, the day on which it is due (None where no day can be named), and why."""

    trouble: Trouble
    day: str | None
    why: str


@dataclass(frozen=True)
class UnitHistory:
    """One unit: its walks in order of time, and what follows from them."""

    kind: str
    name: str
    walks: tuple[Walked, ...]

    @cached_property
    def sense(self) -> Sense:
        """What goes with what on this unit."""
        return sense_of(self.kind, self.name)

    @cached_property
    def troubles(self) -> list[Trouble]:
        """All troubles, open and ended, in the order in which they opened."""
        return follow(self.walks, self.sense)

    @property
    def still_open(self) -> list[Trouble]:
        """What is still open: to be written up first, the oldest first."""
        still = [one for one in self.troubles if one.closed is None]
        return sorted(still, key=lambda one: (one.state != "writeup", one.opened))

    @property
    def changes(self) -> list[Changed]:
        """The last walk against the one before; everything is new on the first."""
        return compared(self.troubles, len(self.walks) - 1)

    @property
    def came_back(self) -> list[Trouble]:
        """The last spell of each trouble that came back after its end, the most often returned first."""
        last: dict[tuple[str, ...], Trouble] = {}
        for one in self.troubles:
            if one.spell > 1:
                last[one.said.line, one.said.part, one.check, one.said.side] = one
        return sorted(last.values(), key=lambda one: -one.spell)

    @cached_property
    def trends(self) -> list[Series]:
        """Readings of parts that were measured on two walks or more."""
        return series_of(self.walks, self.sense)

    @property
    def hours_per_day(self) -> float | None:
        """Hours worked a day, by the meter."""
        return hours_per_day(self.walks)

    @property
    def due(self) -> list[DueItem]:
        """What is due, the soonest first; what has no day stands last."""
        found = [DueItem(one, *due_of(one, self.walks, self.sense)) for one in self.still_open]
        return sorted(found, key=lambda item: (item.day is None, item.day or ""))

    @cached_property
    def forecasts(self) -> list[Forecast]:
        """What wears towards a published limit, the soonest first."""
        return forecasts_of(self.walks, self.sense, self.hours_per_day)

    def hours_open(self, trouble: Trouble) -> float | None:
        """Hours of the meter between the walk in which a trouble opened and the last one."""
        first, last = self.walks[trouble.opened].hours, self.walks[-1].hours
        return last - first if first is not None and last is not None and last >= first else None


def unit_history(connection: Connection, name: str, kind: str | None = None) -> UnitHistory:
    """The history of a unit by the name its owner gives it, however it is written.

    Raises:
        HistoryError: there is no such unit, or there are several kinds of machine of that name.
    """
    row = _unit(connection, name, kind)
    return UnitHistory(row.kind, row.name, tuple(walks_of(connection, [row.id])[row.id]))


def unit_number(connection: Connection, name: str, kind: str | None = None) -> int:
    """The number of a unit in the index; the same errors."""
    return int(_unit(connection, name, kind).id)


def _unit(connection: Connection, name: str, kind: str | None) -> Any:
    asked = select(units.c.id, units.c.kind, units.c.name).where(units.c.key == unit_key(name))
    if kind:
        asked = asked.where(units.c.kind == kind)
    found = connection.execute(asked.order_by(units.c.kind)).all()
    if not found:
        raise HistoryError(_unknown(connection, name, kind))
    if len(found) > 1:
        kinds = " and ".join(row.kind for row in found)
        raise HistoryError(f"'{name}' is the name of a {kinds}; say which with --machine")
    return found[0]


def _unknown(connection: Connection, name: str, kind: str | None) -> str:
    of = f" of kind '{kind}'" if kind else ""
    names: Sequence[str] = connection.scalars(select(units.c.name).order_by(units.c.key)).all()
    if not names:
        return f"there is no unit '{name}'{of}: no walk names its unit; hear one with --unit"
    from rapidfuzz import process

    near = [found for found, score, _ in process.extract(name, names, limit=NAMED) if score >= 60]
    many = connection.scalar(select(func.count()).select_from(units))
    if near:
        return (
            f"there is no unit '{name}'{of}; did you mean {_or(near)}? `saycheck history --fleet` lists all"
        )
    return f"there is no unit '{name}'{of} among {many}; `saycheck history --fleet` lists them"


def _or(names: Sequence[str]) -> str:
    quoted = list(dict.fromkeys(f"'{name}'" for name in names))
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}"
