"""What is taken back and put right."""

from collections.abc import Callable

import pytest

from saycheck.understanding.statements import Statement

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]
Statements = Callable[..., list[Statement]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Fan belt is cracked, scratch that.", []),
        ("Fan belt is cracked. Scratch that.", []),
        ("Fan belt is cracked. Scratch that, it's fine.", [("fan belt", "none", "good", "good")]),
        (
            "Left steering cylinder is weeping, no wait, the right one.",
            [("steering cylinder", "right", "watch", "leak")],
        ),
        ("Left mirror is cracked, sorry, the right one.", [("mirrors", "right", "writeup", "crack")]),
        # only the last statement is taken back
        ("Horn works. Fan belt is cracked. Scratch that.", [("horn", "none", "good", "works")]),
    ],
)
def test_taken_back(ruled: Rows, text: str, expected: list[Row]) -> None:
    """What is taken back no longer counts, and a side put right moves the statement."""
    assert expected == ruled(text)


@pytest.mark.parametrize(
    ("text", "units"),
    [
        ("Front tyre, fifty psi, no cuts, eleven mil.", ["psi", "mm"]),  # the no is none of a correction
        ("Front tyre, fifty psi, no, forty psi.", ["psi"]),
        ("Front tyre, fifty psi, sorry, and eleven mil.", ["psi", "mm"]),  # a number of another kind
    ],
)
def test_only_its_own_kind_is_put_right(statements: Statements, text: str, units: list[str]) -> None:
    """A number stands in place of one of its kind, behind words that do put right."""
    assert units == [q.unit for s in statements(text) for q, _ in s.quantities]
