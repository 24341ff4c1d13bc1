"""A log ends in a whole line before the next is added, and nothing that stood there is lost."""

from pathlib import Path

import pytest

from saycheck.lasting import add, end_whole


def is_whole(line: bytes) -> bool:
    """Whether a line ends in a full stop."""
    return line.endswith(b".")


@pytest.mark.parametrize(
    ("there", "log", "aside"),
    [
        (b"", b"", []),
        (b"one.\n", b"one.\n", []),
        (b"one.\ntwo.", b"one.\ntwo.\n", []),  # lacks only its end
        (b"one.\ntw", b"one.\n", [b"tw"]),
        (b"on", b"", [b"on"]),
    ],
)
def test_a_log_ends_whole(tmp_path: Path, there: bytes, log: bytes, aside: list[bytes]) -> None:
    """A torn end is kept beside the log, a line that is whole gets its end."""
    path = tmp_path / "log"
    add(path, there)
    end_whole(path, is_whole, "torn")
    assert log == path.read_bytes()
    assert aside == [one.read_bytes() for one in tmp_path.glob("torn*")]


def test_torn_ends_do_not_take_each_others_place(tmp_path: Path) -> None:
    """Each has a name of its own."""
    path = tmp_path / "log"
    for torn in (b"tw", b"thr"):
        add(path, torn)
        end_whole(path, is_whole, "torn")
    assert b"tw" == (tmp_path / "torn.txt").read_bytes()
    assert b"thr" == (tmp_path / "torn-2.txt").read_bytes()
