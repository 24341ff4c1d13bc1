"""What is due as calendars of other people read it: by vobject, and by the rules of RFC 5545 themselves."""

import re
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest

from saycheck.history.calendar import calendar
from saycheck.history.exports import rows
from saycheck.history.index import Index
from saycheck.history.sync import sync

from .conftest import Row, made_walk, put

NAMES = ["Loader Seven", "seven; the old, one", "back\\slash", "line\nbreak", "Ärmel " * 20, "日本" * 40]
CUT: Row = ("front tyre", "right", "writeup", "cut")
MADE = datetime(2025, 3, 10, 8, 30, tzinfo=UTC)


@pytest.fixture
def made(walks: Path, index: Index) -> bytes:
    """The calendar of units with difficult names, each with something due."""
    for place, name in enumerate(NAMES):
        put(
            made_walk("2025-03-09", CUT, ("bucket", "none", "writeup", "leak"), unit=name), walks / str(place)
        )
    sync(index)
    with index.reading() as connection:
        return b"".join(calendar(rows(connection, "due"), (), MADE))


def entries(made: bytes) -> list[Any]:
    """The entries as vobject reads them."""
    vobject = pytest.importorskip("vobject")
    return list(vobject.readOne(made.decode("utf-8")).vevent_list)


def test_read_by_vobject(made: bytes) -> None:
    """Each entry has the day, the unit's name letter by letter, and an id of its own."""
    found = entries(made)
    names = {" ".join(name.split()) for name in NAMES}
    assert names == {one.summary.value.rsplit(": ", 1)[0] for one in found}
    assert {"right front tyre, cut", "bucket, leak"} == {
        one.summary.value.rsplit(": ", 1)[1] for one in found
    }
    assert {date(2025, 3, 9), date(2025, 3, 16)} == {one.dtstart.value for one in found}
    assert len(found) == len({one.uid.value for one in found}) == 2 * len(NAMES)
    assert {MADE} == {one.dtstamp.value for one in found}
    for one in found:
        assert one.description.value.endswith(
            "the maker's manual, local rules and a competent person come first."
        )


def test_lines_are_as_rfc_5545_wants_them(made: bytes) -> None:
    """Sections 3.1 and 3.6: CR LF, no line over 75 octets, folded between whole characters, all required properties."""
    assert made.endswith(b"END:VCALENDAR\r\n")
    lines = made.split(b"\r\n")[:-1]
    assert [] == [line for line in lines if len(line) > 75 or b"\n" in line or b"\r" in line]
    for line in lines:
        line.decode("utf-8")
    unfolded = made.decode("utf-8").replace("\r\n ", "").split("\r\n")[:-1]
    content = re.compile(r"[A-Z-]+(;[A-Z-]+=[^:;\"]+)*:[^\x00-\x08\x0b-\x1f\x7f]*")
    assert [] == [line for line in unfolded if not content.fullmatch(line)]
    assert "VERSION:2.0" in unfolded
    assert any(line.startswith("PRODID:") for line in unfolded)
    for wanted in ("UID:", "DTSTAMP:", "DTSTART;VALUE=DATE:"):
        assert 2 * len(NAMES) == sum(line.startswith(wanted) for line in unfolded)


def test_the_id_stays(made: bytes, walks: Path, index: Index) -> None:
    """Another walk moves the entry of the same trouble instead of adding one."""
    put(made_walk("2025-05-09", CUT, unit="Loader Seven"), walks / "later")
    sync(index)
    with index.reading() as connection:
        again = entries(b"".join(calendar(rows(connection, "due"), (), MADE)))
    before = {one.uid.value: one.dtstart.value for one in entries(made)}
    after = {one.uid.value: one.dtstart.value for one in again}
    assert set(before) == set(after)
    assert [(date(2025, 3, 9), date(2025, 5, 9))] == [
        (before[uid], after[uid]) for uid in before if before[uid] != after[uid]
    ]


def test_an_empty_calendar_is_one(index: Index) -> None:
    """Nothing due is a calendar without entries."""
    assert b"VEVENT" not in b"".join(calendar((), (), MADE))
