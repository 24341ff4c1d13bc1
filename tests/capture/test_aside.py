"""What is put aside on the disk comes back, in order, whatever the disk does meanwhile."""

from pathlib import Path

import numpy as np

from saycheck.capture.aside import Aside
from saycheck.capture.measures import Meter
from saycheck.capture.voice import WINDOW

ROWS = [b"first", b"", b"x" * 100_000, "dernière".encode()]


def test_rows_come_back_in_their_order(tmp_path: Path) -> None:
    """Any bytes, as often as they are asked for; nothing of it can be seen in the folder."""
    aside = Aside(tmp_path)
    for row in ROWS:
        aside.put(row)
    assert ROWS == list(aside.rows())
    aside.put(b"one more")
    assert [*ROWS, b"one more"] == list(aside.rows())
    assert [] == list(tmp_path.iterdir())
    aside.close()
    assert [] == list(aside.rows())


def test_a_disk_that_takes_nothing_loses_nothing(tmp_path: Path) -> None:
    """Rows wait in memory and go to the disk, in their order, when it takes them again."""
    folder = tmp_path / "later"
    aside = Aside(folder)  # not there, so that nothing can be made in it
    for row in ROWS[:2]:
        aside.put(row)
    assert ROWS[:2] == list(aside.rows()) == aside._waiting
    folder.mkdir()
    for row in ROWS[2:]:
        aside.put(row)
    assert [] == aside._waiting
    assert ROWS == list(aside.rows())


def test_measures_put_aside_are_the_same(tmp_path: Path) -> None:
    """Three minutes measured with and without it; what stays in memory is less than a minute."""
    chance = np.random.default_rng(9)
    here, there = Meter(), Meter(Aside(tmp_path))
    for _ in range(6_000):
        window, likely = chance.normal(0, 0.1, WINDOW).astype(np.float32), chance.uniform()
        here.add(window, likely)
        there.add(window, likely)
    assert len(there._rows) < len(here._rows) / 3
    one, other = here.measures(), there.measures()
    for name in ("chance", "power", "rumble", "near_full"):
        assert np.array_equal(getattr(one, name), getattr(other, name))
    assert one.seconds == other.seconds
