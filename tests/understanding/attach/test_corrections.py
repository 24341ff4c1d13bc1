"""What is taken back and put right."""

from collections.abc import Callable

import pytest

from saycheck.understanding.pipeline import understand
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
        (  # the right one is told anew
            "Steering cylinder on the left is leaking, no, correction, the right one is leaking.",
            [("steering cylinder", "right", "writeup", "leak")],
        ),
        (  # of the left one something else was told
            "Left steering cylinder is bent, no wait, the right one is leaking.",
            [
                ("steering cylinder", "left", "watch", "bent"),
                ("steering cylinder", "right", "writeup", "leak"),
            ],
        ),
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


@pytest.mark.parametrize(
    "text",
    [
        "Steering cylinder on the left is leaking, no, correction, the right one.",
        "Left steering cylinder is leaking, no, wait, the right one. Horn works.",
    ],
)
def test_what_was_put_right_is_no_talk(text: str) -> None:
    """Whatever the words that were taken back sound like: the finding holds, with the words that put it right."""
    found = understand(text, "wheel-loader").findings[0]
    assert ("steering cylinder", "right", "writeup") == (found.part, found.side, found.state)
    assert text[: found.evidence[0].char_end].endswith("the right one")
