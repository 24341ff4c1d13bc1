"""How the history says days, hours and parts in plain words."""

from collections.abc import Sequence
from datetime import date

from saycheck.history.trends import Series
from saycheck.history.troubles import Trouble
from saycheck.reporting.wording import number, plain, with_side


def series_name(series: Series) -> str:
    """What is measured: "left front tyre, depth in mm"."""
    what = f"{plain(series.attribute)} in " if series.attribute else ""
    return f"{with_side(plain(series.line), series.side)}, {what}{plain(series.unit)}"  # type: ignore[arg-type]


def name(trouble: Trouble) -> str:
    """The part of a trouble with its side."""
    return with_side(plain(trouble.said.part), trouble.said.side)  # type: ignore[arg-type]


def hours_read(hours: float | None) -> str:
    """An hour-meter reading in words."""
    return "hours not read" if hours is None else f"{number(round(hours, 1))} h"


def day(iso: str) -> str:
    """A day as it is written by hand: "9 March 2025"."""
    found = date.fromisoformat(iso)
    return f"{found.day} {MONTHS[found.month - 1]} {found.year}"


def short_day(iso: str) -> str:
    """A day that fits the margin: "9 Mar 25"."""
    found = date.fromisoformat(iso)
    return f"{found.day} {MONTHS[found.month - 1][:3]} {found.year % 100:02}"


def days_between(first: str, last: str) -> int:
    """Days from one day to another."""
    return (date.fromisoformat(last) - date.fromisoformat(first)).days


def ordinal(count: int) -> str:
    """A place in a row: "second", "3rd", "11th"."""
    if count == 2:
        return "second"
    ending = "th" if count % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(count % 10, "th")
    return f"{count}{ending}"


MONTHS: Sequence[str] = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December",
)  # fmt: skip
