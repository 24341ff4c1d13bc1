"""``edits.jsonl`` keeps every edit, whoever writes and whatever stops them."""

import subprocess
import sys
from pathlib import Path

import pytest

from saycheck.errors import WalkError
from saycheck.models.review import Edit
from saycheck.review.edits import EDITS, append, new_id, now, read


def an_edit(who: str = "Ann", reason: str = "") -> Edit:
    """An edit that stands for any."""
    return Edit(id=new_id(), at=now(), who=who, action="settle", reason=reason)


def add(folder: Path, *edits: Edit) -> None:
    """Append edits as they are."""
    append(folder, lambda _: edits)


def test_what_is_added_is_read(tmp_path: Path) -> None:
    """Edits come back whole and in order, line ends in their words and all."""
    edits = [an_edit("Ann", "a\nb"), an_edit("Børge", "“worn”, 12 mm")]
    add(tmp_path, edits[0])
    add(tmp_path, edits[1])
    assert edits == read(tmp_path)
    assert 2 == len((tmp_path / EDITS).read_text(encoding="utf-8").splitlines())


def test_no_edits_yet(tmp_path: Path) -> None:
    """A walk that nobody has edited has none."""
    assert [] == read(tmp_path)


def test_the_maker_sees_what_is_there(tmp_path: Path) -> None:
    """What an edit is made of are all edits before it."""
    first, second = an_edit(), an_edit()
    add(tmp_path, first)
    seen: list[list[Edit]] = []

    def make(edits: list[Edit]) -> list[Edit]:
        seen.append(edits)
        return [second]

    assert [second] == append(tmp_path, make)
    assert [[first]] == seen


@pytest.mark.parametrize("cut", [1, 7, 40])
def test_a_torn_line_is_kept_aside(tmp_path: Path, cut: int) -> None:
    """Half a line does not count, does not disturb, and is kept under a name of its own."""
    whole, torn, later = an_edit(), an_edit(), an_edit()
    add(tmp_path, whole, torn)
    path = tmp_path / EDITS
    lines = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(lines[0] + lines[1][:cut])
    assert [whole] == read(tmp_path)
    add(tmp_path, later)
    assert [whole, later] == read(tmp_path)
    (aside,) = tmp_path.glob("edits-torn-*.txt")
    assert lines[1][:cut] == aside.read_bytes()


def test_a_line_that_lacks_only_its_end_counts(tmp_path: Path) -> None:
    """An edit written in full but for the line feed is one."""
    first, later = an_edit(), an_edit()
    add(tmp_path, first)
    path = tmp_path / EDITS
    path.write_bytes(path.read_bytes().rstrip(b"\n"))
    assert [first] == read(tmp_path)
    add(tmp_path, later)
    assert [first, later] == read(tmp_path)
    assert [] == list(tmp_path.glob("edits-torn-*"))


def test_a_damaged_line_is_told(tmp_path: Path) -> None:
    """A line in the middle that is no edit stops everything with its number; nothing is written."""
    add(tmp_path, an_edit(), an_edit())
    path = tmp_path / EDITS
    lines = path.read_bytes().splitlines(keepends=True)
    damaged = lines[0] + b"{}\n" + lines[1]
    path.write_bytes(damaged)
    with pytest.raises(WalkError) as caught:
        add(tmp_path, an_edit())
    assert f"line 2 of '{path}' is damaged; put it right or take it out, the other lines are whole" == str(
        caught.value
    )
    assert damaged == path.read_bytes()


WRITER = """
import sys
from pathlib import Path
from saycheck.models.review import Edit
from saycheck.review.edits import append, new_id, now
for number in range(15):
    edit = Edit(id=new_id(), at=now(), who=sys.argv[2], action="settle", reason=f"{number} " + "x" * 3000)
    append(Path(sys.argv[1]), lambda _: [edit])
"""


def test_writers_take_turns(tmp_path: Path) -> None:
    """Four programs at once lose nothing, and no line runs into another."""
    names = ["Ann", "Ben", "Cleo", "Dee"]
    writers = [subprocess.Popen([sys.executable, "-c", WRITER, tmp_path, name]) for name in names]
    assert [0] * 4 == [writer.wait() for writer in writers]
    edits = read(tmp_path)
    for name in names:
        assert [str(n) for n in range(15)] == [e.reason.split()[0] for e in edits if e.who == name]
