"""What is said of one part in two breaths is one statement."""

from collections.abc import Callable

import pytest

from saycheck.understanding.statements import Statement

Statements = Callable[..., list[Statement]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Fan belt is loose. Half an inch of play.", [(2, 1)]),
        ("Fan belt is one inch loose, but that's fine.", [(2, 1)]),  # trouble and its verdict
        ("Fan belt is loose. Radiator is clean.", [(1, 0), (1, 0)]),
        ("Fan belt is dry. If they run loose they slip, but these here on the bench have no play.", [(1, 0)]),
    ],
)
def test_joined(statements: Statements, text: str, expected: list[tuple[int, int]]) -> None:
    """Claims and numbers of each statement."""
    assert expected == [(len(s.claims), len(s.quantities)) for s in statements(text)][: len(expected)]
