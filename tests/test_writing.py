"""``saycheck writeup`` and ``saycheck decide`` as a person or a script meets them."""

import csv
import io
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner

from saycheck import walkfolder
from saycheck.cli import app
from saycheck.decisions import read
from saycheck.models.walk import Walk

TEXT = "Bucket is cracked. Horn is dead. Cutting edge is worn."
runner = CliRunner()


@pytest.fixture
def folder(tmp_path: Path, make_walk: Callable[..., Walk], monkeypatch: pytest.MonkeyPatch) -> Path:
    """A walk folder with two findings to decide, in a folder of its own."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SAYCHECK_WALKS", raising=False)
    at = {"char_start": 0, "char_end": 18}
    common = {"zone": "front", "side": "none", "heard_as": "", "confidence": 1, "state": "writeup"}
    bucket = common | {
        "id": "f1",
        "part": "bucket",
        "check": "cracked",
        "condition": "crack",
        "evidence": [at],
    }
    at = {"char_start": 19, "char_end": 32}
    horn = common | {
        "id": "f2", "zone": "cab", "part": "horn", "check": "horn sounds", "condition": "inoperative",
        "evidence": [at],
    }  # fmt: skip
    with walkfolder.writing(tmp_path / "walk") as draft:
        draft.write(make_walk(TEXT, findings=[bucket, horn]))
    return tmp_path / "walk"


def command(*words: object, status: int = 0, given: str | None = None) -> tuple[bytes, str]:
    """Run a command; returns standard output as bytes, and standard error."""
    done = runner.invoke(app, [str(word) for word in words], input=given)
    assert status == done.exit_code, done.output
    return done.stdout_bytes, done.stderr


@pytest.mark.parametrize(
    ("form", "begins"), [("pdf", b"%PDF-"), ("html", b"<!doctype html>"), ("csv", b"walk,unit,kind,")]
)
def test_to_standard_output(folder: Path, form: str, begins: bytes) -> None:
    """Each form goes to standard output, whole and alone, and nothing is written."""
    before = sorted(folder.iterdir())
    out, told = command("writeup", folder, "--as", form, "--out", "-")
    assert out.startswith(begins)
    assert "" == told
    assert before == sorted(folder.iterdir())


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ([], "walk/write-up.pdf"),
        (["--as", "csv"], "walk/write-up.csv"),
        (["--out", "for the owner.html"], "for the owner.html"),  # the ending says what it is
        (["--out", "table", "--as", "csv"], "table"),
    ],
)
def test_where_it_goes(folder: Path, words: list[str], name: str) -> None:
    """Into the walk folder, or where it was asked for; standard error says where and what is left."""
    out, told = command("writeup", folder, *words)
    assert b"" == out
    path = folder.parent / name
    assert path.stat().st_size > 100
    assert "2 to decide. Not reviewed: nobody has checked what was heard." in told


def test_an_earlier_write_up_is_kept(folder: Path) -> None:
    """Someone may have written on it: it stays under a dated name."""
    command("writeup", folder)
    first = (folder / "write-up.pdf").read_bytes() + b"% signed"
    (folder / "write-up.pdf").write_bytes(first)
    command("writeup", folder)
    kept = [path for path in folder.glob("write-up-*.pdf") if path.read_bytes() == first]
    assert 1 == len(kept)
    assert first != (folder / "write-up.pdf").read_bytes()


def test_an_ending_that_is_no_form(folder: Path) -> None:
    """A file whose ending says nothing is refused rather than filled with something else."""
    _, told = command("writeup", folder, "--out", "owner.doc", status=2)
    assert "'owner.doc' ends in none of .pdf, .html and .csv; name it so, or say --as\n" == told


def test_a_file_is_not_written_over(folder: Path) -> None:
    """Named with --out it is refused in one sentence, and stays as it was."""
    mine = folder.parent / "mine.pdf"
    mine.write_text("mine")
    _, told = command("writeup", folder, "--out", mine, status=2)
    assert f"'{mine}' is there already; name another file with --out, or say --replace\n" == told
    assert "mine" == mine.read_text()


def test_a_folder_that_is_not_there(folder: Path) -> None:
    """One sentence, status 2, no trace of a file."""
    path = folder / "no" / "such.pdf"
    _, told = command("writeup", folder, "--out", path, status=2)
    assert f"'{path}' cannot be written (No such file or directory)" in told
    assert not (folder / "no").exists()


def test_names_that_the_walk_does_not_hold(folder: Path) -> None:
    """Who walked and who decides are shown as given."""
    out, _ = command(
        "writeup", folder, "--as", "html", "--out", "-", "--walker", "Ada <b>", "--owner", "R. Holm"
    )
    assert "Ada &lt;b&gt;" in out.decode()
    assert "R. Holm" in out.decode()


def test_earlier_walks_are_told_of(folder: Path, make_walk: Callable[..., Walk]) -> None:
    """A trouble that an earlier walk of the unit saw is called still open, with the day and the hours."""
    at = {"char_start": 0, "char_end": 18}
    bucket = {
        "id": "f1", "zone": "front", "part": "bucket", "side": "none", "check": "cracked", "state": "watch",
        "condition": "crack", "heard_as": "", "confidence": 1, "evidence": [at],
    }  # fmt: skip
    with walkfolder.writing(folder.parent / "walks" / "before") as draft:
        draft.write(make_walk(TEXT, id="2025-01-07-00000000", walked_at="2025-01-07", findings=[bucket]))
    out, _ = command("writeup", folder, "--as", "html", "--out", "-")
    assert "first seen on 2025-01-07 at 4,812 h" in out.decode()


def test_earlier_measurements_become_a_trend(folder: Path, make_walk: Callable[..., Walk]) -> None:
    """Readings of the same part on earlier walks are plotted with this one, said in words, along the hours."""
    text = "Fan belt is worn."

    def walk(day: str, hours: float, value: float) -> Walk:
        size = {
            "value": value,
            "unit": "mm",
            "text": "",
            "value_si": value / 1000,
            "unit_si": "m",
            "plus_minus": 0.5,
        }
        belt = {
            "id": "f1", "zone": "engine bay", "part": "fan belt", "side": "none", "check": "worn", "state": "watch",
            "condition": "worn", "heard_as": "", "confidence": 1, "measurements": [size], "line": "fan belt",
            "evidence": [{"char_start": 0, "char_end": len(text)}],
        }  # fmt: skip
        machine = {"kind": "wheel-loader", "unit": "Number Seven", "hours": hours}
        return make_walk(text, id=f"{day}-0000", walked_at=day, machine=machine, findings=[belt])

    for name, day, hours, value in (("a", "2025-01-07", 4100, 12), ("b", "2025-02-07", 4400, 10.5)):
        with walkfolder.writing(folder.parent / "walks" / name) as draft:
            draft.write(walk(day, hours, value))
    with walkfolder.writing(folder.parent / "last") as draft:
        draft.write(walk("2025-03-07", 4700, 9))
    out, _ = command("writeup", folder.parent / "last", "--as", "html", "--out", "-")
    assert "fan belt: 12 mm at 4,100 h, 9 mm at 4,700 h; 3 measurements." in out.decode()
    assert 3 == out.count(b"<circle")


def decided(folder: Path) -> list[tuple[str, str | None, str, str]]:
    """What stands in the file."""
    return [(one.part, one.choice, one.who, one.note) for one in read(folder)]


def test_decide_one(folder: Path) -> None:
    """By number or id, with name and note; the write-up shows it."""
    command("decide", folder, "--finding", "1", "--choice", "now", "--by", "R. Holm")
    command(
        "decide", folder, "--finding", "f1", "--choice", "never", "--by", "R. Holm", "--note", "sold in May"
    )
    assert [("horn", "now", "R. Holm", ""), ("bucket", "never", "R. Holm", "sold in May")] == decided(folder)
    out, _ = command("writeup", folder, "--as", "csv", "--out", "-")
    rows = list(csv.DictReader(io.StringIO(out.decode(), newline=""), strict=True))
    assert [("horn", "now"), ("bucket", "not at all")] == [(row["part"], row["decision"]) for row in rows]


def test_decide_one_by_one(folder: Path) -> None:
    """What is urgent is asked first; an answer counts at once, a skipped one is asked next time."""
    _, told = command("decide", folder, given="R. Holm\ns\nx\nscrap\n")
    assert [("bucket", "never", "R. Holm", "scrap")] == decided(folder)
    assert told.index("1 of 2  horn") < told.index("2 of 2  bucket")
    assert told.endswith("1 left to decide\n")
    _, told = command("decide", folder, "--by", "R. Holm", given="z\nn\n\n")
    assert "1 of 1  horn" in told
    assert told.endswith("all is decided\n")
    assert "nothing is left to decide\n" == command("decide", folder)[1]


def test_stopped_in_the_middle(folder: Path) -> None:
    """What was answered before counts, and the status is that of a stop."""
    _, told = command("decide", folder, "--by", "R. Holm", given="n\n\n", status=130)
    assert told.endswith("stopped; what was decided so far counts\n")
    assert [("horn", "now", "R. Holm", "")] == decided(folder)


def test_take_a_decision_back(folder: Path) -> None:
    """Undecided again, and the list says so."""
    for choice in ("now", "undecided"):
        command("decide", folder, "--finding", "f2", "--choice", choice, "--by", "R. Holm")
    out, _ = command("decide", folder, "--list")
    assert ["1  horn: inoperative: undecided", "2  bucket: crack: undecided"] == [
        line.strip() for line in out.decode().splitlines()
    ]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            ["--finding", "1"],
            "--finding and --choice go together; name both, or neither to be asked one by one",
        ),
        (["--finding", "1", "--choice", "now"], "nobody is named who decides; say --by NAME"),
        (
            ["--finding", "f7", "--choice", "now", "--by", "R. Holm"],
            "no finding 'f7' is written up; those are 1 (f2), 2 (f1)",
        ),
    ],
)
def test_what_cannot_be_decided(folder: Path, words: list[str], sentence: str) -> None:
    """One sentence, status 2, nothing recorded."""
    assert f"{sentence}\n" == command("decide", folder, *words, status=2)[1]
    assert [] == decided(folder)
