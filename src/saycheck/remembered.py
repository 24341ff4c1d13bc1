"""What earlier walks of the unit say of the findings of this one: measurements over time, and how long it is open."""

import os
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from saycheck import walkfolder
from saycheck.errors import SaycheckError
from saycheck.history.index import opened
from saycheck.history.records import Walked
from saycheck.history.sense import Sense, sense_of
from saycheck.history.sync import sync
from saycheck.history.take import taken
from saycheck.history.trends import Series as Readings
from saycheck.history.trends import series_of
from saycheck.history.troubles import Trouble, follow
from saycheck.history.unit import unit_history
from saycheck.models.walk import Finding, Walk
from saycheck.reporting.wording import number
from saycheck.reporting.writeup.entries import own
from saycheck.reporting.writeup.given import Point, Series


@dataclass(frozen=True)
class Remembered:
    """By finding id: measurements over time, and a sentence on when it was first seen; ``note`` is for the user."""

    series: dict[str, Series] = field(default_factory=dict)
    since: dict[str, str] = field(default_factory=dict)
    note: str = ""


def remembered(walk: Walk, folder: Path, walks: Path | None = None) -> Remembered:
    """What the walks in ``walks`` (else where they are kept) say of the unit before this walk.

    Nothing that is wrong with the history may stop a write-up: the note tells it.
    """
    root = walkfolder.walks_folder(walks)
    if not walk.machine.unit or not root.is_dir():
        return Remembered()
    try:
        with opened(root, os.environ.get("SAYCHECK_HISTORY")) as index:
            sync(index)
            with index.reading() as connection:
                known = unit_history(connection, walk.machine.unit, walk.machine.kind).walks
    except SaycheckError as error:
        unknown = str(error).startswith("there is no unit")
        return Remembered(note="" if unknown else f"earlier walks were not looked at: {error}")
    now = taken(walk, folder)
    earlier = [one for one in known if one.walk_id != walk.id and one.when <= now.when]
    return of([*earlier, now], walk) if earlier else Remembered()


def of(walked: Sequence[Walked], walk: Walk) -> Remembered:
    """The same from walks that are at hand, in order of time, ``walk`` the last of them."""
    sense = sense_of(walk.machine.kind, walk.machine.unit)
    readings = series_of(walked, sense)
    troubles = [one for one in follow(walked, sense) if one.closed is None]
    series, since = {}, {}
    for finding in walk.findings:
        if finding.state not in ("watch", "writeup"):
            continue
        if found := _series(finding, readings):
            series[finding.id] = found
        if told := _since(finding, troubles, walked, sense):
            since[finding.id] = told
    return Remembered(series, since)


def _series(finding: Finding, readings: Sequence[Readings]) -> Series | None:
    line, side = finding.line or finding.part, finding.side
    units = {one.unit_si for one in finding.measurements if not one.other_units}
    found = [one for one in readings if (one.line, one.side) == (line, side) and one.unit_si in units]
    if len(found) != 1:
        return None
    one = found[0]
    low, high = one.limits
    hours = [point.hours for point in one.points]
    first = _days(one.points[0].day)
    by_hours = all(at is not None for at in hours)
    points = [
        Point(
            point.hours if by_hours and point.hours is not None else _days(point.day) - first,
            point.value,
            point.plus_minus,
        )
        for point in one.points
    ]
    wear = one.wear()
    return Series(
        points=points,
        unit=one.unit,
        axis="h" if by_hours else "days",
        at_least=low,
        at_most=high,
        saying=own(wear.plainly) if wear else "",
    )


def _days(day: str) -> int:
    from datetime import date

    return date.fromisoformat(day[:10]).toordinal()


def _since(finding: Finding, troubles: Sequence[Trouble], walked: Sequence[Walked], sense: Sense) -> str:
    """When the trouble of a finding was first seen, where that was on an earlier walk."""
    line, side = finding.line or finding.part, finding.side
    check = sense.check(finding.condition)
    for one in troubles:
        if (one.said.line, one.check) == (line, check) and one.said.side in (
            side,
            "left" if side == "both" else side,
        ):
            first = walked[one.opened]
            if one.opened == len(walked) - 1:
                return ""
            at = f" at {number(round(first.hours, 1))} h" if first.hours is not None else ""
            return f"first seen on {first.when[:10]}{at}"
    return ""
