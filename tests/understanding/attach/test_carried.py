"""Numbers: to the part in the sentence, before it, or in the next breath."""

from collections.abc import Callable

import pytest

from saycheck.understanding.statements import Statement

Statements = Callable[..., list[Statement]]


@pytest.mark.parametrize(
    ("text", "part", "value", "unit"),
    [
        ("Left front tyre, four eight p s i.", "front tyre", 48, "psi"),
        ("Forty eight psi in the left front tyre.", "front tyre", 48, "psi"),  # before the part
        ("Left front tyre is good. Forty eight psi.", "front tyre", 48, "psi"),  # in the next breath
        ("Cutting edge is worn, three sixteenths left.", "cutting edge", 3 / 16, "in"),
        ("Three sixteenths left on the cutting edge.", "cutting edge", 3 / 16, "in"),
        ("Eighteen millimetres on the cutting edge.", "cutting edge", 18, "mm"),
        ("Cutting edge is worn. Eighteen millimetres left.", "cutting edge", 18, "mm"),
        ("Bucket pin has between three and four mil of play.", "bucket pins", 3.5, "mm"),
        ("Between three and four mil of play in the bucket pin.", "bucket pins", 3.5, "mm"),
        ("Fan belt deflects half an inch.", "fan belt", 0.5, "in"),
        ("Coolant is good to minus thirty five.", "coolant", -35, "degC"),
        ("Left front tyre forty eight.", "front tyre", 48, "psi"),  # the part leaves no doubt
        (
            "Cutting edge is eighteen millimetres. No, make that sixteen.",
            "cutting edge",
            16,
            "mm",
        ),  # put right in the next breath: the unit stays
        (
            "Cutting edge is eighteen millimetres, make that sixteen millimetres.",
            "cutting edge",
            16,
            "mm",
        ),  # put right at once
        ("Left front tyre is at um forty uh eight psi.", "front tyre", 48, "psi"),
        ("Left front tyre is at forty, uh, eight psi.", "front tyre", 48, "psi"),
        ("The cutting edge is down to 5/8 in the middle.", "cutting edge", 5 / 8, "in"),
        ("Batteries are clean. Voltage is twelve point five.", "batteries", 12.5, "V"),
        ("A sixteenth of play in the bucket pin.", "bucket pins", 1 / 16, "in"),
    ],
)
def test_numbers(statements: Statements, text: str, part: str, value: float, unit: str) -> None:
    """A number goes to its part, also when it comes before the part or in the next breath."""
    ((statement, quantity),) = [(s, q) for s in statements(text) for q, _ in s.quantities]
    assert pytest.approx(value) == quantity.value
    assert (part, unit) == (statement.subject.part.name, quantity.unit)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Left front forty eight, right front fifty two.",
            [("front tyre", "left", 48), ("front tyre", "right", 52)],
        ),
        (
            "Tyres: left front forty eight psi, right front fifty, left rear forty six.",
            [("front tyre", "left", 48), ("front tyre", "right", 50), ("rear tyre", "left", 46)],
        ),
        (
            "Batteries twelve point six and twelve point five.",
            [("batteries", "none", 12.6), ("batteries", "none", 12.5)],
        ),
    ],
)
def test_numbers_in_a_row(statements: Statements, text: str, expected: list[tuple[str, str, float]]) -> None:
    """Numbers said one after the other each find their own part and side."""
    found = [
        (s.subject.part.name, s.subject.side or "none", q.value)
        for s in statements(text)
        for q, _ in s.quantities
    ]
    assert expected == found
