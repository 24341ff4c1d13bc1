"""What the index knows of a unit as a whole, worked out anew from its walks whenever one of them changes."""

from collections.abc import Iterable, Sequence
from datetime import date
from statistics import median

from sqlalchemy import Connection, bindparam, delete, update

from saycheck.history.due import due
from saycheck.history.forecast import forecasts_of
from saycheck.history.records import Decided, Walked
from saycheck.history.rows import insert_rows, walks_of
from saycheck.history.sense import Sense, sense_of
from saycheck.history.tables import OF_A_UNIT, ForecastRow, TroubleRow, forecasts, troubles, units
from saycheck.history.troubles import Trouble, follow
from saycheck.leaking import at_once

BATCH = 200
"""So many units are worked out at a time."""


def derive(connection: Connection, changed: Iterable[int]) -> None:
    """Work out troubles and sums of the units given, and forget units without walks."""
    numbers = sorted(changed)
    for start in range(0, len(numbers), BATCH):
        some = numbers[start : start + BATCH]
        for table in OF_A_UNIT:
            connection.execute(delete(table).where(table.c.unit.in_(some)))
        rows: list[TroubleRow] = []
        foreseen: list[ForecastRow] = []
        sums: list[dict[str, object]] = []
        gone: list[int] = []
        for number, walked in walks_of(connection, some).items():
            if not walked:
                gone.append(number)
                continue
            sense = sense_of(walked[0].kind, walked[-1].unit)
            found = follow(walked, sense)
            rows += [_row(number, trouble, walked, sense) for trouble in found]
            foreseen += _foreseen(number, walked, sense)
            sums.append({"number": number, **_sums(walked, found)})
        insert_rows(connection, troubles, TroubleRow._fields, rows)
        insert_rows(connection, forecasts, ForecastRow._fields, foreseen)
        if sums:
            names = [name for name in sums[0] if name != "number"]
            connection.execute(
                update(units)
                .where(units.c.id == bindparam("number"))
                .values({n: bindparam(n) for n in names}),
                sums,
            )
        connection.execute(delete(units).where(units.c.id.in_(gone)))


def _row(unit: int, trouble: Trouble, walked: Sequence[Walked], sense: Sense) -> TroubleRow:
    said, opened = trouble.said, walked[trouble.opened]
    choice = decision(trouble, walked)
    day, why = due_of(trouble, walked, sense)
    closed = None if trouble.closed is None else walked[trouble.closed].day
    return TroubleRow(
        unit, walked[0].kind, said.zone, said.line, said.side, said.part, trouble.check, said.condition,
        trouble.state, opened.day, opened.hours, walked[trouble.seen].day, closed, len(trouble.states),
        trouble.spell, trouble.answer, trouble.flagged, choice.choice if choice else "", day, why,
    )  # fmt: skip


def _foreseen(unit: int, walked: Sequence[Walked], sense: Sense) -> list[ForecastRow]:
    if not any(sense.has_limit(one.line) for walk in walked for one in walk.measured):
        return []
    return [
        ForecastRow(
            unit, sense.zone(one.series.line), one.series.line, one.series.side, one.series.attribute,
            one.series.points[-1].day, one.series.points[-1].value, one.series.unit, one.remaining_hours,
            one.day, one.earliest, one.wear.plainly,
        )
        for one in forecasts_of(walked, sense, hours_per_day(walked))
    ]  # fmt: skip


def due_of(trouble: Trouble, walked: Sequence[Walked], sense: Sense) -> tuple[str | None, str]:
    """The day on which a trouble is due and why; nothing once it has ended."""
    if trouble.closed is not None:
        return None, ""
    choice = decision(trouble, walked)
    said = trouble.said
    urgency = sense.urgency(said.line, said.condition)
    if said.condition == "leak" and at_once(said.part, said.line, said.words):
        urgency = "before work"
    when = due(
        trouble.state,
        urgency,
        walked[trouble.seen].day,
        choice.choice if choice else "",
        choice.due if choice else "",
        choice.day if choice else "",
    )
    return when.day, when.why


def decision(trouble: Trouble, walked: Sequence[Walked]) -> Decided | None:
    """The last decision about a trouble since it opened."""
    said = trouble.said
    for walk in reversed(walked[trouble.opened :]):
        for one in reversed(walk.decided):
            if (one.part, one.condition) == (said.part, said.condition) and one.side in (said.side, "both"):
                return one
    return None


def _sums(walked: Sequence[Walked], found: Sequence[Trouble]) -> dict[str, object]:
    still = [one for one in found if one.closed is None]
    states = [one.state for one in still]
    read = [walk.hours for walk in walked if walk.hours is not None]
    return {
        "name": walked[-1].unit,
        "walks": len(walked),
        "first_day": walked[0].day,
        "last_day": walked[-1].day,
        "hours": read[-1] if read else None,
        "hours_per_day": hours_per_day(walked),
        "writeup": states.count("writeup"),
        "watch": states.count("watch"),
        "not_looked_at": sum(one.answer != "bad" for one in still),
        "came_back": sum(one.spell > 1 for one in found),
        "oldest_day": min((walked[one.opened].day for one in still), default=None),
    }


def hours_per_day(walked: Sequence[Walked]) -> float | None:
    """Hours the unit works a day: the middle one of all slopes between two walks (Theil–Sen).

    None with fewer than two days on which the meter was read, or where it did not go forward.
    """
    read = {walk.day: walk.hours for walk in walked if walk.hours is not None}
    points = [(_ordinal(day), hours) for day, hours in read.items()]
    slopes = [
        (later[1] - earlier[1]) / (later[0] - earlier[0])
        for place, earlier in enumerate(points)
        for later in points[place + 1 :]
        if later[0] > earlier[0]
    ]
    slope = median(slopes) if slopes else 0.0
    return slope if 0 < slope <= 24 else None


def _ordinal(day: str) -> int:
    return date.fromisoformat(day).toordinal()
