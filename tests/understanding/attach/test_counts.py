"""Numbers that count things."""

from collections.abc import Callable

import pytest

from saycheck.understanding.statements import Statement

Statements = Callable[..., list[Statement]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Three teeth missing.", 3),
        ("One tooth is missing.", 1),
        ("One of the teeth is missing.", 1),
        ("Two wheel nuts missing on the right rear.", 2),
        ("Wheel nuts, eight, all tight.", 8),  # behind the plural
        ("Seven of the eight teeth are okay.", 7),
        ("Teeth, I counted four, should be five.", 4),
        ("Alternator belt has two ribs split.", 2),  # things that no list names
        ("Rear left tyre, five zero, good.", None),  # digits one by one measure, they do not count
        ("Teeth are all there.", None),
        ("Tyres, all four, no cuts.", 4),
        ("Bucket teeth, missing, one of six.", 1),
        ("The left one of the mirrors is cracked.", None),  # points at one, counts nothing
        ("Number two tooth is loose.", None),
        ("Wheel bolts loose, some of twenty.", None),  # of how many is not how many
        ("A few of the wheel bolts are loose.", None),
    ],
)
def test_counts(statements: Statements, text: str, expected: int | None) -> None:
    """How many of a part are meant; a number that points at one is no count."""
    made = statements(text)
    assert made
    assert {expected} == {s.count[0] if s.count else None for s in made}


@pytest.mark.parametrize(
    ("text", "part", "value"),
    [
        ("Front tyre is holding seventy, and the lift cylinder is dry.", "front tyre", 70),
        ("Mirrors are good, two mil of play in the left bucket pin.", "bucket pins", 2),
    ],
)
def test_whose_number(statements: Statements, text: str, part: str, value: float) -> None:
    """A number is of the part before it where "and the" begins anew, and of the one behind it where its play is."""
    made = statements(text)
    assert [part] == [s.subject.part.name for s in made if s.quantities]
    assert [value] == [q.value for s in made for q, _ in s.quantities]
