"""`saycheck history` as a person or a script meets it."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from rich.console import Console
from typer.testing import CliRunner, Result

from saycheck.cli import app
from saycheck.history.index import own_file
from saycheck.history.view import header

from .conftest import Row, made_walk, put

LEAK: Row = ("lift cylinder", "left", "watch", "leak")
WORSE: Row = ("lift cylinder", "left", "writeup", "leak")
DRY: Row = ("lift cylinder", "left", "good", "dry")
CUT: Row = ("front tyre", "right", "writeup", "cut")
EDGE: Row = ("cutting edge", "none", "good", "measured")
CHIP: Row = ("windscreen", "none", "watch", "chipped")


@pytest.fixture
def yard(walks: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A yard with a history of four walks of one unit and one of another."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setenv("SAYCHECK_WALKS", str(walks))
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.chdir(tmp_path)
    put(made_walk("2025-03-09T07:00", EDGE, LEAK, hours=4000, numbers={0: 30}), walks / "1")
    put(made_walk("2025-04-09T07:00", EDGE, DRY, CHIP, hours=4200, numbers={0: 27}), walks / "2")
    put(made_walk("2025-05-09T07:00", EDGE, WORSE, hours=4400, numbers={0: 24}), walks / "3")
    put(made_walk("2025-06-09T07:00", EDGE, WORSE, CUT, hours=4600, numbers={0: 21}), walks / "4")
    put(made_walk("2025-06-10", DRY, unit="Loader Eight"), walks / "5")
    return walks


def history(*words: str, status: int = 0) -> Result:
    """Run the command."""
    done = CliRunner().invoke(app, ["history", *words])
    assert status == done.exit_code, done.output
    return done


def test_a_unit(yard: Path) -> None:
    """What changed, what is open and how long, what came back, wears and is due; no line too wide, no colour."""
    shown = history("loader  SEVEN").stdout
    lines = [" ".join(line.split()) for line in shown.splitlines()]
    assert "Loader Seven, wheel loader, 4,600 h" == lines[0]
    assert "4 walks from 9 March 2025 to 9 June 2025, about 6.5 h a day" == lines[1]
    assert "new right front tyre: cut, write up" in lines
    assert "not seen windscreen: chipped, was watch, not spoken of this time" in lines
    assert "write up left lift cylinder: leak 31 days, 200 h" in lines
    assert "watch windscreen: chipped 61 days, 400 h" in lines
    assert "2 times left lift cylinder: leak (9 March 2025 to 9 April 2025; since 9 May 2025)" in " ".join(
        lines
    )
    assert any(line.startswith("Falls 1.5 mm") for line in lines)
    assert "16 Jun 25 left lift cylinder: leak this week" in lines
    assert all(len(line) <= 80 for line in shown.splitlines())
    assert "\x1b" not in shown


def test_the_fleet(yard: Path) -> None:
    """Units that need most first, what is due, what came back in how many units."""
    put(made_walk("2025-06-10", unit=None), yard / "6")
    lines = [" ".join(line.split()) for line in history("--fleet").stdout.splitlines()]
    assert "2 units, 5 walks, 3 still open" == lines[0]
    assert "1 walk of no named unit left out; name the unit in a review" == lines[1]
    seven = lines.index("2 1 1 Loader Seven, wheel loader, 4,600 h 9 Jun 25")
    assert seven + 1 == lines.index("Loader Eight, wheel loader, hours not read 10 Jun 25")
    assert "9 Jun 25 Loader Seven: right front tyre, cut before work" in lines
    assert "1 unit lift cylinder of wheel loader, leaking: 1 time" in lines


def test_a_long_fleet_is_cut_and_says_so(yard: Path) -> None:
    """Fifteen lines a list, the rest counted; --all shows them."""
    for place in range(20):
        put(made_walk("2025-06-10", DRY, unit=f"unit {place}"), yard / f"more-{place}")
    assert "and 7 units more; --all shows them" in history("--fleet").stdout
    shown = history("--fleet", "--all").stdout
    assert 20 == sum(f"unit {place}, wheel loader" in shown for place in range(20))


def test_exports_go_to_a_file_or_to_standard_output(yard: Path, tmp_path: Path) -> None:
    """A file is written whole, never over another unless asked, and - is standard output."""
    shown = history("Loader Seven", "--as", "jsonl").stdout
    assert ["cutting edge"] != [json.loads(line)["part"] for line in shown.splitlines()]
    assert {"front tyre", "lift cylinder", "windscreen"} == {
        json.loads(line)["part"] for line in shown.splitlines()
    }
    out = tmp_path / "open.jsonl"
    history("Loader Seven", "--as", "jsonl", "--out", str(out))
    assert shown == out.read_text(encoding="utf-8")
    refused = history("--fleet", "--as", "csv", "--out", str(out), status=2)
    assert f"'{out}' is there already; name another file, or say --replace\n" == refused.stderr
    assert shown == out.read_text(encoding="utf-8")
    history("--fleet", "--as", "csv", "--out", str(out), "--replace")
    assert out.read_bytes().startswith(b"EquipmentHeader.EquipmentID,")
    assert [out] == [path for path in tmp_path.iterdir() if path.is_file()]
    assert "BEGIN:VEVENT" in history("--fleet", "--as", "ical").stdout


@pytest.mark.parametrize(
    ("name", "head"), [("t.svg", b"<?xml"), ("t.PNG", b"\x89PNG\r\n"), ("t.pdf", b"%PDF-")]
)
def test_a_picture_of_what_was_measured(name: str, head: bytes, yard: Path, tmp_path: Path) -> None:
    """The ending of the name says which kind of picture; it holds the words as text where it can."""
    pytest.importorskip("matplotlib")
    history("loader seven", "--plot", str(tmp_path / name))
    drawn = (tmp_path / name).read_bytes()
    assert drawn.startswith(head)
    if name == "t.svg":
        assert b"cutting edge, thickness in mm" in drawn
        assert b"hour meter, h" in drawn


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], 'name one unit, as in `saycheck history "loader seven"`, or say --fleet for all'),
        (["Loader Seven", "--fleet"],
         "'Loader Seven' is one unit and --fleet is all of them; leave one of the two out"),
        (["Loader Seven", "--only", "due"],
         "--only and --out go with a table for other programs; add --as csv, or leave them out"),
        (["Loder Seven"], "there is no unit 'Loder Seven'; did you mean 'Loader Seven'? "
         "`saycheck history --fleet` lists all"),
        (["zzz"], "there is no unit 'zzz' among 2; `saycheck history --fleet` lists them"),
        (["Loader Seven", "--plot", "t.gif"],
         "'t.gif' is no picture that can be drawn; end its name in .svg, .png, .pdf"),
        (["Loader Eight", "--plot", "t.svg"], "there is nothing to draw: no part was measured on two walks or more"),
        (["--fleet", "--plot", "t.svg"], "--plot draws one unit; name it in place of --fleet"),
        (["--fleet", "--as", "csv", "--out", "no/where.csv"],
         "'no/where.csv' cannot be written (No such file or directory); choose a folder that you may write to"),
        (["--fleet", "--walks", "nowhere"],
         "there is no folder 'nowhere'; name the folder that holds your walks with --walks"),
    ],
)  # fmt: skip
def test_what_goes_wrong_is_one_sentence(words: list[str], told: str, yard: Path) -> None:
    """Status 2, the sentence on standard error, nothing on standard output, no file left."""
    before = sorted(Path.cwd().iterdir())
    done = history(*words, status=2)
    assert (f"{told}\n", "") == (done.stderr, done.stdout)
    assert [path for path in sorted(Path.cwd().iterdir()) if path.name != "cache"] == [
        path for path in before if path.name != "cache"
    ]


def test_what_wears_is_due(yard: Path) -> None:
    """A tyre on its way to a published limit has its day in the unit, the fleet, the table and the calendar."""
    tread: Row = ("steer tyre", "left", "good", "measured")
    for month in range(1, 7):
        walk = made_walk(f"2025-{month:02}-01", tread, unit="Truck Two", kind="road-truck", hours=100.0 * month,
                         numbers={0: 12.35 - month})  # fmt: skip
        put(walk, yard / f"truck-{month}")
    lines = [" ".join(line.split()) for line in history("truck two").stdout.splitlines()]
    assert "3 Sep 25 left steer tyre: at its limit wear" in lines
    assert any(line.startswith("Wears 1 mm") for line in lines)
    assert "3 Sep 25 Truck Two: left steer tyre, at its limit wear" in [
        " ".join(line.split()) for line in history("--fleet").stdout.splitlines()
    ]
    (row,) = [
        json.loads(line) for line in history("--fleet", "--as", "jsonl", "--only", "wear").stdout.splitlines()
    ]
    assert ("steer tyre", "left", "2025-09-03", 6.35) == (
        row["part"], row["side"], row["due_on"], round(row["value"], 6)
    )  # fmt: skip
    assert (
        "SUMMARY:Truck Two: left steer tyre\\, depth at its limit"
        in history("--fleet", "--as", "ical").stdout
    )


def test_rebuild(yard: Path) -> None:
    """The index is made again, a damaged walk is told and left out, and the answers are as before."""
    before = history("loader seven").stdout
    (yard / "bad").mkdir()
    (yard / "bad" / "walk.json").write_text("{")
    told = history("rebuild").stderr
    assert "the index is made again from 5 walks" in told
    assert (
        f"left out: '{yard / 'bad' / 'walk.json'}' is damaged (line 1 is not JSON); hear the recording again"
        in told
    )
    after = history("loader seven")
    assert before == after.stdout
    assert after.stderr.startswith("left out: ")


def test_rebuild_mends_a_damaged_index(yard: Path) -> None:
    """An index whose inside is damaged is told in one sentence, and made again when asked for."""
    before = history("loader seven").stdout
    file = own_file(yard)
    for ending in ("-wal", "-shm"):
        file.with_name(file.name + ending).unlink(missing_ok=True)
    content = file.read_bytes()
    file.write_bytes(content[:100] + b"\xff" * (len(content) - 100))
    told = history("loader seven", status=2).stderr
    assert told.startswith(f"the database 'sqlite:///{file}' refused (")
    assert told.endswith("; look who may write there, or make it again with `saycheck history rebuild`\n")
    history("rebuild")
    assert before == history("loader seven").stdout


def test_the_next_hearing_asks(yard: Path) -> None:
    """`saycheck hear --unit` asks about what earlier walks left open and this one does not mention."""
    done = CliRunner().invoke(
        app,
        [
            "hear",
            "-",
            "--machine",
            "wheel-loader",
            "--unit",
            "loader seven",
            "--walked",
            "2025-07-01T07:40",
            "--json",
        ],
        input="Left lift cylinder is still leaking, write it up.",
    )
    assert 0 == done.exit_code, done.output
    walk = json.loads(done.stdout)
    assert ("2025-07-01", "2025-07-01T07:40") == (walk["id"][:10], walk["walked_at"])
    assert ["Right front tyre: cut on 9 June 2025 at 4,600 h, not mentioned today. How is it now?",
            "Windscreen: chipped on 9 April 2025 at 4,200 h, not mentioned today. How is it now?"] == sorted(
        one["text"] for one in walk["questions"] if one["kind"] == "again"
    )  # fmt: skip
    assert (yard / "2025-07-01-loader-seven" / "walk.json").is_file()
    assert "5 walks from 9 March 2025 to 1 July 2025" in history("loader seven").stdout


def test_hearing_again_keeps_the_day(yard: Path) -> None:
    """A recording that is heard again, into the same folder, was still walked when it was walked."""
    words = ["hear", "-", "-m", "wheel-loader", "-u", "Nine", "--out", str(yard / "nine"), "--json"]
    first = CliRunner().invoke(app, [*words, "--walked", "2025-07-01T07:40"], input="Bucket is cracked.")
    again = CliRunner().invoke(app, [*words, "--replace"], input="Bucket is cracked.")
    assert (0, 0) == (first.exit_code, again.exit_code), again.output
    assert ["2025-07-01T07:40"] * 2 == [json.loads(done.stdout)["walked_at"] for done in (first, again)]
    assert [] == [one for one in json.loads(again.stdout)["questions"] if one["kind"] == "again"]


@pytest.mark.parametrize("when", ["yesterday", "2025-02-30", "07:40"])
def test_a_day_that_is_none(when: str, yard: Path) -> None:
    """--walked takes a day or a day and time, nothing else."""
    done = CliRunner().invoke(
        app, ["hear", "-", "-m", "wheel-loader", "--walked", when], input="Bucket is good."
    )
    assert 2 == done.exit_code
    assert (
        f"'{when}' is no day; write when it was walked like 2025-03-09 or 2025-03-09T07:40\n" == done.stderr
    )


def test_nothing_heavy_before_it_is_needed() -> None:
    """The help of the command loads neither database nor pictures."""
    heavy = "('sqlalchemy', 'matplotlib', 'icalendar', 'pyarrow', 'msgspec')"
    ask = f"import sys; from saycheck.cli import app; print([m for m in {heavy} if m in sys.modules])"
    done = subprocess.run(
        [sys.executable, "-c", ask], capture_output=True, text=True, env=os.environ, timeout=60
    )
    assert "[]\n" == done.stdout, done.stderr


@pytest.mark.parametrize(
    ("days", "said"),
    [
        (["2025-03-09"], "walked once, on 9 March 2025"),
        (["2025-03-09"] * 2, "walked twice on 9 March 2025"),
        (["2025-03-09"] * 3, "walked 3 times on 9 March 2025"),
        (["2025-03-09", "2025-03-10"], "2 walks from 9 March 2025 to 10 March 2025"),
    ],
)
def test_how_often_it_was_walked(days: list[str], said: str) -> None:
    """Days are told as a person tells them: one day is not "from" it "to" itself."""
    walks = [SimpleNamespace(day=one, hours=10.0) for one in days]
    unit: Any = SimpleNamespace(walks=walks, name="nine", kind="wheel-loader", hours_per_day=None)
    console = Console(file=io.StringIO(), width=80)
    console.print(header(unit))
    assert isinstance(console.file, io.StringIO)
    assert ["nine, wheel loader, 10 h", said] == console.file.getvalue().splitlines()
