"""What was bad on an earlier walk and is not spoken of becomes a question."""

from pathlib import Path

import pytest

from saycheck.history.again import again, asker
from saycheck.history.take import taken

from .conftest import Row, made_walk, put

LEAK: Row = ("lift cylinder", "left", "watch", "leak")


@pytest.mark.parametrize(
    ("now", "asked"),
    [
        ([], 1),
        ([("bucket", "none", "good", "good")], 1),
        ([("lift cylinder", "right", "good", "dry")], 1),
        ([("lift cylinder", "left", "good", "dry")], 0),
        ([("lift cylinder", "left", "writeup", "leak")], 0),
        ([("lift cylinder", "left", "hidden", "hidden")], 0),  # asked about as hidden already
        ([("lift cylinder", "both", "good", "good")], 0),
    ],
)
def test_asked_only_where_nothing_was_said(now: list[Row], asked: int) -> None:
    """A trouble that this walk speaks of in any way is not asked about again."""
    before = taken(made_walk("2025-03-09", LEAK, hours=4812), Path())
    assert asked == len(again([before], made_walk("2025-04-09", *now)))


def test_the_question() -> None:
    """It names the part, what was wrong, when and at how many hours, and keeps its id."""
    before = [taken(made_walk(f"2025-03-0{day}", LEAK, hours=4812), Path()) for day in (1, 2)]
    (question,) = again(before, made_walk("2025-04-09"))
    assert (
        "Left lift cylinder: leak on 2 March 2025 at 4,812 h, not mentioned today. How is it now?"
        == question.text
    )
    assert ("again", "again-left-side-left-lift-cylinder-leak") == (question.kind, question.id)
    assert ("left side", "lift cylinder", "left") == (
        question.about.zone, question.about.part, question.about.side
    )  # fmt: skip


def test_only_earlier_walks_of_the_unit_count() -> None:
    """Neither a later walk nor the same one nor that of another unit raises a question."""
    now = made_walk("2025-04-09")
    others = [made_walk("2025-05-09", LEAK), made_walk("2025-03-09", LEAK, unit="Loader Eight"), now]
    assert [[], [], []] == [again([taken(other, Path())], now) for other in others]


def test_the_history_never_stops_a_hearing(walks: Path) -> None:
    """A database that is not there is told and nothing is asked; an unknown unit is not even told."""
    told: list[str] = []
    put(made_walk("2025-03-09", LEAK), walks / "one")
    assert asker(walks, "Loader Seven", "wheel-loader", "sqlite:////nowhere/x.sqlite", told.append) is None
    (note,) = told
    assert note.startswith(
        "earlier walks were not looked at: the database 'sqlite:////nowhere/x.sqlite' refused"
    )
    assert asker(walks, "Nobody", "wheel-loader", f"sqlite:///{walks}/.i.sqlite", told.append) is None
    assert asker(walks / "none", "Loader Seven", "wheel-loader", None, told.append) is None
    assert 1 == len(told)
    ask = asker(walks, "loader seven", "wheel-loader", f"sqlite:///{walks}/.i.sqlite", told.append)
    assert ask is not None
    assert 1 == len(ask(made_walk("2025-04-09")))
