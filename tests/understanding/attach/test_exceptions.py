"""What is not as the rest."""

from collections.abc import Callable

import pytest

from saycheck.understanding.statements import Statement

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]
Statements = Callable[..., list[Statement]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Handrails all tight except the right one.",
            [("handrail", "both", "good"), ("handrail", "right", "writeup")],
        ),
        (
            "Mirrors are good apart from the left one, that's cracked.",
            [("mirrors", "both", "good"), ("mirrors", "left", "writeup")],
        ),
    ],
)
def test_exceptions(ruled: Rows, text: str, expected: list[Row]) -> None:
    """What is excepted is not as the rest: a statement of its own."""
    assert expected == [row[:3] for row in ruled(text)]


def test_exception_counts(statements: Statements) -> None:
    """ "All tight except two on the right": two are not tight, on the right."""
    rest, two = statements("Front wheel nuts all tight except two on the right.")
    assert (None, {"exception"}, "right") == (rest.count, two.marks, two.subject.side)
    assert two.count is not None
    assert 2 == two.count[0]
