"""A part is named: alone, in whatever order, or on another part."""

from collections.abc import Callable

import pytest

from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading

Row = tuple[str, ...]
Read = Callable[..., Reading]
Rows = Callable[..., list[Row]]
Statements = Callable[..., list[Statement]]


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
