"""A part is named: alone, in whatever order, or on another part."""

from collections.abc import Callable

import pytest

from saycheck.understanding.pipeline import Understood
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading

Row = tuple[str, ...]
Read = Callable[..., Reading]
Rows = Callable[..., list[Row]]
Statements = Callable[..., list[Statement]]
Understand = Callable[..., Understood]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Windscreen is cracked.", [("windscreen", "none", "writeup", "crack")]),
        # the words in another order
        ("Cracked windscreen.", [("windscreen", "none", "writeup", "crack")]),
        ("There's a crack in the windscreen.", [("windscreen", "none", "writeup", "crack")]),
        ("Got a crack, the windscreen.", [("windscreen", "none", "writeup", "crack")]),
        ("Weeping, the left lift cylinder.", [("lift cylinder", "left", "watch", "leak")]),
        # the end told behind the part
        ("Loose wheel nut on the left front.", [("front wheel nuts", "left", "writeup", "loose")]),
        ("Fan belt tight.", [("fan belt", "none", "good", "tight")]),
        ("Tight fan belt.", [("fan belt", "none", "good", "tight")]),
    ],
)
def test_one_part(ruled: Rows, text: str, expected: list[Row]) -> None:
    """One thing said of one part, in whatever order the words come."""
    assert expected == ruled(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Gland on the left lift cylinder is weeping.", [("lift cylinder gland", "left", "watch", "leak")]),
        ("Left lift cylinder gland is weeping.", [("lift cylinder gland", "left", "watch", "leak")]),
        ("Left lift cylinder is weeping at the gland.", [("lift cylinder gland", "left", "watch", "leak")]),
        ("Leak at the tilt cylinder gland.", [("tilt cylinder gland", "none", "writeup", "leak")]),
        ("Loose bolt on the handrail.", [("handrail bolt", "none", "writeup", "loose")]),
        ("Clamp's loose on the handrail.", [("handrail clamp", "none", "writeup", "loose")]),
    ],
)
def test_part_on_a_part(ruled: Rows, text: str, expected: list[Row]) -> None:
    """A part named with the one it sits on is one subject, from either end."""
    assert expected == ruled(text)


@pytest.mark.parametrize(
    ("text", "quoted"),
    [
        ("So, the left mirror is cracked, I think.", "left mirror is cracked"),
        ("There's a leak at the tilt cylinder gland.", "leak at the tilt cylinder gland"),
        ("Windscreen has a stone chip in it.", "Windscreen has a stone chip"),
    ],
)
def test_words_of_a_statement(read: Read, statements: Statements, text: str, quoted: str) -> None:
    """A statement covers the words from the part to what is said of it."""
    (made,) = statements(text)
    assert quoted == read(text).quote(made.start, made.end)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Quick coupler, the pin is loose.", "Quick coupler, pin"),
        ("Cab, seat belt's frayed.", "Cab, seat belt"),
        ("Seat belt's frayed.", "seat belt"),
        ("Bucket is worn, cutting edge is thin.", "cutting edge"),  # something was said of the bucket itself
    ],
)
def test_under_a_heading(understood: Understand, text: str, expected: str) -> None:
    """A part named first, of which nothing is said, is the heading that the next is heard under."""
    heard = understood(text).findings[-1].heard_as
    assert expected.lower() == heard.lower()


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("Coolant's at the sight glass.", "coolant"),
        ("Articulation lock is in the cab.", "articulation lock"),
    ],
)
def test_in_its_place(statements: Statements, text: str, part: str) -> None:
    """A part that is in or at another: something is said of the first, of the second nothing."""
    (statement,) = statements(text)
    assert part == statement.subject.part.name
    assert "unworded" in statement.marks


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("Cab, seat belt's frayed.", ["seat belt"]),
        ("Cab, seat belt, horn all good.", ["seat belt", "horn"]),
        ("Seat belt, horn all good.", ["seat belt", "horn"]),
        ("Lift cylinder, gland weeping.", ["lift cylinder gland"]),
        ("Rear axle, seal leaking.", ["rear axle seal"]),
        ("Seat, belt frayed.", ["seat belt"]),
        ("Bucket, pins worn.", ["bucket pins"]),
        ("Rim, lock ring seated.", ["rim lock ring"]),
        ("The toolbox has no lid.", ["toolbox lid"]),
        ("Seat has no belt.", ["seat belt"]),
        ("Battery box has a broken clamp.", ["battery cover clamp"]),
        ("Bucket, pins and hoses good.", ["bucket", "bucket pins", "loader hoses"]),
    ],
)
def test_heading_or_list(statements: Statements, text: str, parts: list[str]) -> None:
    """Two parts of which one thing is said are a list, unless the first is a place, the second is one of its own or the
    second alone is meant.
    """
    assert parts == [s.subject.part.name for s in statements(text)]


def test_a_place_is_not_what_is_spoken_of(statements: Statements) -> None:
    """What is said next is said of the part, not of what it was looked at with or from."""
    made = statements("Left lift cylinder, I went over it from the step, and so on. It is dry.")
    assert "lift cylinder" == made[-1].subject.part.name
