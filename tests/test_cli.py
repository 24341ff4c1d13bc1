"""The commands as a person or a script meets them: what goes where, and how they leave."""

import io
import json
import re
import subprocess
import sys
import wave
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner

from saycheck import run, walkfolder
from saycheck.cli import app, doctor, joining
from saycheck.models.walk import Walk

HEAVY = (
    "av", "numpy", "onnxruntime", "pint", "pocketsphinx", "pydantic", "rapidfuzz", "rich", "scipy", "soxr",
    "spacy", "vosk",
)  # fmt: skip

runner = CliRunner()


@pytest.fixture(autouse=True)
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Every test runs in a folder of its own, 80 columns wide."""
    folder = tmp_path / "here"
    folder.mkdir()
    monkeypatch.chdir(folder)
    monkeypatch.setenv("COLUMNS", "80")
    return folder


def hear(*words: object, status: int = 0, given: bytes | None = None) -> tuple[str, str]:
    """Run ``saycheck hear`` for a wheel loader; returns standard output and standard error."""
    return command("hear", "--machine", "wheel-loader", *words, status=status, given=given)


def command(*words: object, status: int = 0, given: bytes | None = None) -> tuple[str, str]:
    """Run a command and look at its status; returns what went to standard output and to standard error."""
    result = runner.invoke(app, [str(word) for word in words], input=given, prog_name="saycheck")
    assert status == result.exit_code, result.output
    return result.stdout, result.stderr


def everything(folder: Path) -> list[str]:
    """All that lies in a folder, hidden and deep."""
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*"))


def test_a_text_becomes_a_walk_folder(narration: Path, own_folder: Path) -> None:
    """The walk holds the text unchanged, its findings, the checklist and the text as it was given."""
    shown, told = hear(narration, "--out", "walk", "--unit", "Number Seven", "--hours", "4812.5")
    walk = json.loads((own_folder / "walk" / "walk.json").read_text(encoding="utf-8"))
    assert narration.read_text() == walk["transcript"]["text"]
    assert {"kind": "wheel-loader", "unit": "Number Seven", "hours": 4812.5} == walk["machine"]
    assert [("front tyre", "left", "good"), ("bucket", "none", "writeup"), ("seat belt", "none", "good")] == [
        (finding["part"], finding["side"], finding["state"]) for finding in walk["findings"]
    ]
    assert {"part", "side", "state", "zone", "finding_ids"} == set(walk["checklist"][0])
    assert narration.read_bytes() == (own_folder / "walk" / narration.name).read_bytes()
    assert re.fullmatch(
        r"the walk is in walk: 1 to write up, 0 to watch, \d+ questions, 3 of \d+ lines spoken of\n", told
    )
    assert shown.startswith("Number Seven, wheel loader, 4,812.5 h\n")


def test_the_view_says_first_what_to_decide(narration: Path) -> None:
    """What needs a decision stands above the questions, the checklist below both."""
    shown, _ = hear(narration)
    decide, ask, checklist = (shown.index(words) for words in ("to decide (1)", "questions", "checklist"))
    assert decide < shown.index(" write up  bucket: crack") < ask < checklist
    assert all(len(line) <= 80 for line in shown.splitlines())
    assert "\x1b" not in shown


def test_the_json_alone_goes_to_standard_output(narration: Path, own_folder: Path) -> None:
    """--json prints what the folder holds and nothing else."""
    shown, _ = hear(narration, "--out", "walk", "--json")
    assert (own_folder / "walk" / "walk.json").read_text(encoding="utf-8") == shown


def test_a_text_may_come_through_a_pipe(narration: Path, own_folder: Path) -> None:
    """- is standard input, and is kept like a file."""
    shown, _ = hear("-", "--out", "walk", "--json", given=narration.read_bytes())
    assert "standard-input" == json.loads(shown)["source"]["name"]
    assert ["walk", "walk/standard-input", "walk/walk.json"] == everything(own_folder)


def test_each_walk_gets_a_folder_of_its_own(narration: Path, own_folder: Path) -> None:
    """Without --out the folder is named after day and unit, else source, and is never taken twice."""
    for _ in range(2):
        hear(narration, "--unit", "Number Seven")
    hear(narration)
    names = [re.sub(r"^\d{4}-\d\d-\d\d", "DAY", path.name) for path in (own_folder / "walks").iterdir()]
    assert ["DAY-number-seven", "DAY-number-seven-2", "DAY-yard-walk"] == sorted(names)


@pytest.mark.parametrize(
    ("content", "text", "note"),
    [
        ("Öl is low".encode(), "Öl is low", ""),
        (b"\xef\xbb\xbfOil is low\r\nSeat good\n", "Oil is low\r\nSeat good\n", ""),
        (b"\xd6l is low", "Öl is low", "'given' is not UTF-8 and was read as Latin-1\n"),
        ("Öl is low".encode("utf-16"), "Öl is low", "'given' was read as UTF-16\n"),
    ],
)
def test_the_text_is_taken_letter_by_letter(tmp_path: Path, content: bytes, text: str, note: str) -> None:
    """Offsets count the characters of the given text, whatever its coding and line ends."""
    given = tmp_path / "given"
    given.write_bytes(content)
    shown, told = hear(given, "--out", "walk", "--json")
    assert text == json.loads(shown)["transcript"]["text"]
    assert told.startswith(f"{note}the walk is in walk: ")


def test_whether_it_is_text_is_told_by_content(narration: Path) -> None:
    """A text called .wav is still a text."""
    disguised = narration.rename(narration.with_suffix(".wav"))
    shown, _ = hear(disguised, "--json")
    assert disguised.read_text() == json.loads(shown)["transcript"]["text"]


@pytest.mark.parametrize(
    ("words", "status"),
    [
        ("Bucket has a crack.", 1),
        ("Bucket is good.", 1),  # 100 lines were not spoken of
    ],
)
def test_the_status_tells_of_open_ends_where_asked(tmp_path: Path, words: str, status: int) -> None:
    """--exit-status leaves with 1 when there is something to decide or to answer; else the status is 0."""
    given = tmp_path / "given"
    given.write_text(words)
    hear(given, "--exit-status", status=status)
    hear(given)


def test_a_walk_without_open_ends_needs_no_attention(make_walk: Callable[..., Walk]) -> None:
    """Nothing to write up, nothing flagged, nothing unclear and no question: status 0."""
    assert not run.needs_attention(make_walk())


def test_a_taken_folder_is_not_overwritten(narration: Path, own_folder: Path) -> None:
    """The second walk into one folder is refused, and --replace keeps the first and the edits."""
    hear(narration, "--out", "walk")
    first = (own_folder / "walk" / "walk.json").read_bytes()
    (own_folder / "walk" / "edits.jsonl").write_text("{}\n")
    _, told = hear(narration, "--out", "walk", status=2)
    assert (
        "'walk' already holds a walk; name another folder with --out, "
        "or say --replace, which keeps its edits\n" == told
    )
    assert first == (own_folder / "walk" / "walk.json").read_bytes()
    hear(narration, "--out", "walk", "--replace", "--hours", "5")
    assert "{}\n" == (own_folder / "walk" / "edits.jsonl").read_text()
    (earlier,) = (own_folder / "walk").glob("walk-*.json")
    assert first == earlier.read_bytes()


@pytest.mark.parametrize(
    ("name", "content", "sentence"),
    [
        ("none.wav", None, "there is no file '{}'; check its name and folder"),
        ("empty.wav", b"", "'{}' is empty (0 bytes); copy it from the recorder again"),
        (
            "noise.wav",
            bytes(range(256)) * 40,
            "'{}' is not a recording (or a damaged one); save the sound as m4a, wav, flac, mp3 or ogg",
        ),
        (
            "blank.txt",
            b" \n.\n",
            "'blank.txt' holds no words; write down what was said, or give the recording",
        ),
    ],
)
def test_bad_input_is_one_sentence_and_status_2(
    tmp_path: Path, own_folder: Path, name: str, content: bytes | None, sentence: str
) -> None:
    """What cannot be heard or read is told in one sentence, and nothing is written."""
    given = tmp_path / name
    if content is not None:
        given.write_bytes(content)
    shown, told = hear(given, status=2)
    assert "" == shown
    assert sentence.format(given) + "\n" == told
    assert [] == everything(own_folder)


def test_a_folder_is_no_recording(tmp_path: Path, own_folder: Path) -> None:
    """Naming a folder says so."""
    _, told = hear(tmp_path, status=2)
    assert f"'{tmp_path}' is a folder; name the recording in it\n" == told
    assert [] == everything(own_folder)


def test_an_unknown_machine_suggests_the_nearest(narration: Path, own_folder: Path) -> None:
    """A slip of the finger in the kind is answered with the kind that was meant."""
    _, told = command("hear", narration, "--machine", "weel-loader", status=2)
    assert (
        "there is no machine kind 'weel-loader'; did you mean 'wheel-loader'? "
        "`saycheck vocab kinds` lists them all\n" == told
    )
    assert [] == everything(own_folder)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            ["hear", "walk.txt"],
            "say which machine it is with --machine; `saycheck vocab kinds` lists them",
        ),
        (["hear", "--machine", "wheel-loader"], "Error: Missing argument 'INPUT'."),
        (["heer"], "Error: No such command 'heer'. Did you mean 'hear'?"),
        (["show", "--colour"], "Error: No such option: --colour"),
        (
            ["hear", "walk.txt", "-m", "wheel-loader", "--hours", "-1"],
            "Error: Invalid value for '--hours': Input should be greater than or equal to 0",
        ),
    ],
)
def test_bad_usage_is_told_and_status_2(words: list[str], sentence: str) -> None:
    """A wrong command line says what is wrong with it."""
    shown, told = command(*words, status=2)
    assert "" == shown
    assert sentence in told.splitlines()


STAGES = [
    "run.hear_file",
    "run._read",
    "run.walk_of",
    "understanding.pipeline.understand",
    "run.checklist",
    "run.questions",
]


@pytest.mark.parametrize("failure", [KeyboardInterrupt, MemoryError])
@pytest.mark.parametrize("stage", STAGES)
def test_a_stage_that_fails_leaves_nothing(
    narration: Path,
    own_folder: Path,
    monkeypatch: pytest.MonkeyPatch,
    stage: str,
    failure: type[BaseException],
) -> None:
    """Whichever stage fails, no file and no folder is left behind."""

    def fail(*_: object, **__: object) -> None:
        raise failure

    assert (
        run.hear_file is vars(joining)["hear_file"]
    )  # a module loaded meanwhile would keep the failing stage
    monkeypatch.setattr(f"saycheck.{stage}", fail)
    result = runner.invoke(app, ["hear", str(narration), "-m", "wheel-loader"])
    if failure is KeyboardInterrupt:
        assert (130, "stopped; nothing was written\n") == (result.exit_code, result.stderr)
    else:
        assert isinstance(result.exception, MemoryError)
    assert [] == everything(own_folder)


def test_a_full_disk_leaves_nothing(narration: Path, own_folder: Path) -> None:
    """Where the system itself refuses to write more, one sentence is told and nothing is left."""
    words = f"ulimit -f 8; exec {sys.executable} -m saycheck hear '{narration}' -m wheel-loader --out walk"
    done = subprocess.run(["bash", "-c", words], capture_output=True, text=True, check=False)
    assert (
        2,
        "the disk is full: 'walk' was not written; make room and start again\n",
    ) == (done.returncode, done.stderr)
    assert [] == everything(own_folder)


def test_a_folder_that_cannot_be_made_is_told(narration: Path, own_folder: Path) -> None:
    """A path below a file is no place for a walk."""
    out = narration / "walk"
    _, told = hear(narration, "--out", out, status=2)
    assert f"'{narration}' is a file; name a folder to write the walk to with --out\n" == told
    assert [] == everything(own_folder)


def test_a_walk_is_shown_again(narration: Path, own_folder: Path) -> None:
    """``show`` prints the view and, with --json, the file."""
    shown, _ = hear(narration, "--out", "walk")
    assert (shown, "") == command("show", "walk")
    assert ((own_folder / "walk" / "walk.json").read_text(encoding="utf-8"), "") == command(
        "show", "walk", "--json"
    )


@pytest.mark.parametrize("name", ["show", "missed"])
def test_a_walk_that_is_not_there_is_told(name: str) -> None:
    """Commands on a walk say what a walk is."""
    _, told = command(name, "nowhere", status=2)
    assert "there is no walk in 'nowhere'; name a folder that holds walk.json\n" == told


def test_what_was_missed_fits_a_phone(narration: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """``missed`` lists stops with the parts to look at, 40 columns wide if need be."""
    hear(narration, "--out", "walk")
    monkeypatch.setenv("COLUMNS", "40")
    shown, _ = command("missed", "walk")
    assert all(len(line) <= 40 for line in shown.splitlines())
    assert "   unsaid  " in shown
    assert shown.startswith("1. ")


def test_the_schema_describes_the_walk(narration: Path) -> None:
    """The JSON Schema names every key that a walk.json has."""
    heard, _ = hear(narration, "--json")
    printed, _ = command("schema")
    assert set(json.loads(heard)) == set(json.loads(printed)["properties"])


def test_the_vocabulary_can_be_looked_at() -> None:
    """Kinds, parts, sayings and what a phrase means are printed."""
    kinds, _ = command("vocab", "kinds")
    assert "wheel-loader " in kinds
    shown, _ = command("vocab", "show", "wheel loader")
    assert "\nfront\n  bucket, from the shared part bucket" in shown
    meant, _ = command("vocab", "hear", "left lift ram", "--machine", "wheel-loader")
    assert meant.startswith("left lift ram: lift cylinder")
    shown, told = command("vocab", "hear", "good morning", "--machine", "wheel-loader")
    assert ("", "no part is named in 'good morning'; `saycheck vocab show wheel-loader` lists them\n") == (
        shown,
        told,
    )
    checked, _ = command("vocab", "check")
    assert len(kinds.splitlines()) == len(checked.splitlines())


def test_help_and_version_need_nothing_heavy() -> None:
    """Neither importing the commands nor --help loads a heavy library."""
    code = (
        "import sys\n"
        "from saycheck.cli import app\n"
        "try:\n    app(['--help'])\nexcept SystemExit:\n    pass\n"
        f"print([name for name in {HEAVY} if name in sys.modules], file=sys.stderr)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert "[]\n" == done.stderr


def test_a_walk_text_cannot_paint_the_terminal(tmp_path: Path) -> None:
    """Control characters and markup in names and narrations are shown as plain letters."""
    given = tmp_path / "given"
    given.write_text("Bucket has a [bold]crack[/bold].")
    shown, _ = hear(given, "--unit", "\x1b[31mred\x07[/]")
    assert "\x1b" not in shown
    assert shown.startswith("[31mred [/], wheel loader")


def test_every_command_says_what_it_does() -> None:
    """Each command and each of its options has a sentence of help."""
    from typer.main import get_command

    group = get_command(app)
    commands = dict(group.commands)  # type: ignore[attr-defined]
    commands.update({f"vocab {name}": one for name, one in commands.pop("vocab").commands.items()})
    assert {"hear", "show", "missed", "schema", "demo", "doctor", "vocab kinds"} <= set(commands)
    for name, one in commands.items():
        assert one.help, name
        assert all(option.help for option in one.params if option.name != "help"), name


def test_a_saved_walk_is_a_walk(narration: Path, own_folder: Path) -> None:
    """What ``hear`` writes is read back by ``walkfolder`` with all its spans inside the text."""
    hear(narration, "--out", "walk")
    walk = walkfolder.read(own_folder / "walk")
    assert all(0 <= s.char_start < s.char_end <= len(walk.transcript.text) for s in walk.transcript.spans)


def test_a_recording_may_come_through_a_pipe(own_folder: Path) -> None:
    """Standard input is told by its content too; a silent recording leaves nothing."""
    silent = io.BytesIO()
    with wave.open(silent, "wb") as file:
        file.setparams((1, 2, 16_000, 0, "NONE", ""))
        file.writeframes(bytes(32_000))
    _, told = hear("-", "--ear", "plain", given=silent.getvalue(), status=2)
    assert "no speech was heard in 'standard-input'; hold the microphone closer and speak up\n" == told
    assert [] == everything(own_folder)


def test_doctor_finds_what_is_here() -> None:
    """Each thing that hearing needs stands on a line of its own, with a word for how it is."""
    shown, _ = command("doctor", "--quick")
    assert ["python", "packages", "vocabulary", "cache folder", "disk", "vosk", "microphone"] == [
        line.split("  ")[-1].partition(":")[0] for line in shown.splitlines()
    ]
    assert all(re.match(r" *(ok|without)  ", line) for line in shown.splitlines())


def test_doctor_says_what_is_wrong(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is broken is told in its own words, and the status is 2."""

    def broken() -> str:
        raise OSError("no such luck")

    monkeypatch.setattr(doctor, "CHECKS", {"luck": broken})
    shown, _ = command("doctor", "--quick", status=2)
    assert "  wrong  luck: no such luck\n" == shown
