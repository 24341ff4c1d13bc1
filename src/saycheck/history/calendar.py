"""What is due as an iCalendar file (RFC 5545): one whole-day entry for each day on which something is due.

Entries are events and not to-dos, since phones and mail programs show events and mostly leave to-dos out.
They take no time (``TRANSP:TRANSPARENT``) and keep their ``UID``, so that a calendar that takes the file in
again moves them and does not double them.
"""

import hashlib
from collections.abc import Iterable, Iterator
from datetime import UTC, date, datetime, timedelta
from typing import Any

from saycheck import __version__
from saycheck.history.exports import EXPORTS, HOUR, ID
from saycheck.reporting.wording import STATE_WORDS, number, plain, with_side

CAUTION = "An aid: the maker's manual, local rules and a competent person come first."


def calendar(
    due: Iterable[tuple[Any, ...]], wear: Iterable[tuple[Any, ...]] = (), now: datetime | None = None
) -> Iterator[bytes]:
    """The rows of the tables ``due`` and ``wear`` as a calendar, entry by entry; ``now`` is when it was made (UTC)."""
    from icalendar import Calendar

    made = now or datetime.now(UTC)
    found = Calendar()
    found.add("prodid", f"-//saycheck//{__version__}//EN")
    found.add("version", "2.0")
    head, end, _ = found.to_ical().partition(b"END:VCALENDAR\r\n")
    yield head
    for row in _named("due", due):
        what = f"{_part(row)}, {plain(row['condition'])}"
        uid = _uid(row, "part", "side", "check", "opened_on")
        yield _event(row, made, uid, what, _told(row), STATE_WORDS[row["state"]])
    for row in _named("wear", wear):
        what = f"{_part(row)}, {plain(row['attribute'])} at its limit"
        told = f"{plain(row['told'])} {CAUTION}"
        uid = _uid(row, "part", "side", "attribute")
        yield _event(row, made, uid, what, told, "wear")
    yield end


def _named(table: str, rows: Iterable[tuple[Any, ...]]) -> Iterator[dict[str, Any]]:
    names = list(EXPORTS[table].columns)
    return (dict(zip(names, row, strict=True)) for row in rows)


def _event(row: dict[str, Any], made: datetime, uid: str, what: str, told: str, category: str) -> bytes:
    """One entry, line by line: a component of the library would cost three times as much, and there may be many."""
    from icalendar import Parameters, vText
    from icalendar.parser import Contentline

    day = date.fromisoformat(row["due_on"])
    whole_day, text = Parameters({"VALUE": "DATE"}), Parameters()
    lines = [
        ("BEGIN", text, "VEVENT"),
        ("UID", text, uid),
        ("DTSTAMP", text, f"{made.astimezone(UTC):%Y%m%dT%H%M%SZ}"),
        ("DTSTART", whole_day, f"{day:%Y%m%d}"),
        *([("DTEND", whole_day, f"{day + timedelta(days=1):%Y%m%d}")] if day < date.max else []),
        ("SUMMARY", text, f"{plain(row[ID])}: {what}"),
        ("DESCRIPTION", text, told),
        ("TRANSP", text, "TRANSPARENT"),
        ("CATEGORIES", text, category),
        ("END", text, "VEVENT"),
    ]
    return b"".join(
        Contentline.from_parts(name, given, vText(value)).to_ical() + b"\r\n" for name, given, value in lines
    )


def _part(row: dict[str, Any]) -> str:
    return with_side(plain(row["part"]), row["side"])


def _told(row: dict[str, Any]) -> str:
    hours = f" at {number(round(row['opened_hours'], 1))} h" if row["opened_hours"] is not None else ""
    now = (
        f" The unit had {number(round(row[HOUR], 1))} h when it was last walked."
        if row[HOUR] is not None
        else ""
    )
    return (
        f"{STATE_WORDS[row['state']]}, open since {row['opened_on']}{hours}, last seen {row['last_seen_on']}; "
        f"due because: {plain(row['due_because'])}.{now} {CAUTION}"
    )


def _uid(row: dict[str, Any], *names: str) -> str:
    told = [str(row[name]) for name in (ID, "kind", *names)]
    return f"{hashlib.sha256(chr(0).join(told).encode()).hexdigest()[:32]}@saycheck"
