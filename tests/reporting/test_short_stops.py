"""What to walk back for where the screen is low: a line or two for each stop."""

from io import StringIO

import pytest
from rich.console import Console

from saycheck.coverage.missed import Stop
from saycheck.models.walk import About, ChecklistLine, Question
from saycheck.reporting.stops import short, show_stops

DANGER = {"horn": (1, 2), "seat belt": (0, 0), "mirror": (1, 1)}


def stops(count: int) -> list[Stop]:
    """Stops with the same three parts, the first with a question."""
    asked = Question(id="q", about=About(zone="cab 1"), kind="measure", text="How thick is the floor mat?")
    hidden = Question(id="h", about=About(zone="cab 1"), kind="hidden", text="Horn: could not be seen.")
    return [
        Stop(
            zone=f"cab {number}",
            side="none",
            lines=[
                ChecklistLine(zone="cab", part=part, side="none", state="unsaid")
                for part in ("horn", "mirror", "seat belt")
            ],
            questions=[asked, hidden] if number == 1 else [],
        )
        for number in range(1, count + 1)
    ]


def printed(count: int, height: int, danger: bool = True, only: int = 0) -> list[str]:
    """What a terminal of 40 columns shows."""
    console = Console(file=StringIO(), width=40, height=height, force_terminal=True, color_system=None)
    show_stops(stops(count), console, DANGER.__getitem__ if danger else None, only)
    assert isinstance(console.file, StringIO)
    return console.file.getvalue().splitlines()


def test_each_stop_is_counted_and_what_can_hurt_named_first() -> None:
    """Parts and questions are counted; a question about a hidden part is its part."""
    assert [
        " 1 cab 1: 3 parts, 1 to ask",
        "   seat belt, mirror, horn",
        " 2 cab 2: 3 parts",
        "   seat belt, mirror, horn",
        "--stop 1 tells all of one, --all of all",
    ] == short(stops(2), DANGER.__getitem__, 40, 20)


def test_the_first_stops_have_their_parts_where_there_is_room() -> None:
    """Eight lines for four stops: three of them with parts, and the last line that tells how to see more."""
    lines = short(stops(4), DANGER.__getitem__, 40, 8)
    assert 8 == len(lines)
    assert [2, 4, 6] == [number for number, line in enumerate(lines, 1) if "seat belt" in line]


@pytest.mark.parametrize(("count", "height"), [(4, 9), (11, 22), (12, 22), (18, 22)])
def test_it_is_no_higher_and_no_wider_than_the_screen(count: int, height: int) -> None:
    """A phone held upright shows all stops at once, with the shell's own line."""
    lines = printed(count, height)
    assert len(lines) <= height - 1
    assert all(len(line) <= 40 for line in lines)
    assert count == sum("3 parts" in line for line in lines)


@pytest.mark.parametrize(("danger", "only", "expected"), [(False, 0, 12), (True, 3, 1)])
def test_all_is_told_where_asked_for(danger: bool, only: int, expected: int) -> None:
    """``--all`` and ``--stop`` tell whole lists, and so does a screen that is high enough."""
    lines = printed(12, 22, danger, only)
    assert expected == sum("unsaid" in line for line in lines)
    assert 12 == sum("unsaid" in line for line in printed(12, 60))
