"""A part's name made whole by what stands with it."""

from collections.abc import Callable

import pytest

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]


@pytest.mark.parametrize(
    ("kind", "text", "part"),
    [
        ("road-truck", "Kingpin on the trailer is worn.", "trailer king pin"),
        ("road-truck", "Kingpin is worn.", "king pin"),
        ("motor-grader", "Tandem is dry. Oil is low.", "tandem oil"),
        (
            "motor-grader",
            "Tandem is dry. Tyre is cut. Oil is low.",
            "engine oil",
        ),  # the tandem is too far back
        ("wheel-loader", "Seat is clean. Belt is frayed.", "seat belt"),
        ("wheel-loader", "Fan is clean. Belt is frayed.", "fan belt"),
        ("wheel-loader", "Bolt on the exhaust is loose.", "exhaust bolt"),  # no line of the list
    ],
)
def test_completed_names(ruled: Rows, kind: str, text: str, part: str) -> None:
    """By what it is on, or by the part spoken of just before: only to a name that the list has."""
    assert ruled(text, kind)[-1][0] == part
