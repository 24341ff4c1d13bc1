"""Parts of one name told apart by what is said of them; common practice, no source."""

from collections.abc import Callable

import pytest

from saycheck.understanding.statements import Statement

Statements = Callable[..., list[Statement]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Belt clicks in.", "seat belt"),
        ("Seat is fine. Belt is frayed.", "seat belt"),  # the talk is of the seat
        ("Belt is glazed.", "fan belt"),
        ("Alternator is fine. Belt is cracked.", "fan belt"),
        ("Hydraulic tank is half way up the glass.", "hydraulic oil"),
        ("Hydraulic tank is dented.", "hydraulic tank"),
        ("Trans is low.", "transmission oil"),
        ("Diesel, half a tank.", "fuel"),
        ("Diesel is hard to start.", "engine"),
        # the nuts of the wheel that is spoken of
        ("Rear tyre is good. Wheel nuts are tight.", "rear wheel nuts"),
        ("Front tyre is good. Wheel nuts are tight.", "front wheel nuts"),
    ],
)
def test_what_is_meant(statements: Statements, text: str, expected: str) -> None:
    """The last statement is of the part that what is said belongs to."""
    assert expected == statements(text)[-1].subject.part.name
