"""A second recording joined to a walk: nothing of the first is changed or lost."""

import json
import subprocess
import sys
import time
import wave
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np
import pytest
from typer.testing import CliRunner

from saycheck import joined as joining
from saycheck import walkfolder
from saycheck.capture.files import blocks
from saycheck.cli import app
from saycheck.errors import EarError
from saycheck.models.hearing import OtherReading, Passage
from saycheck.models.walk import Evidence, Finding, Source, Span, Transcript, Walk, Word
from saycheck.models.wishes import Patch, Wish
from saycheck.review.edits import read
from saycheck.standing import apply, standing
from saycheck.vocabulary.load import load

FIRST = "The bucket is cracked, write that up. Seat belt could not be seen."
SECOND = "Seat belt works. The horn works."


def command(*words: object, status: int = 0) -> str:
    """Run a command; returns what went to standard error."""
    result = CliRunner().invoke(app, [str(word) for word in words])
    assert status == result.exit_code, result.output
    return result.stderr


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A walk read from ``FIRST``; beside it lies ``SECOND`` under the same name in another folder."""
    (tmp_path / "second").mkdir()
    (tmp_path / "walk.txt").write_text(FIRST)
    (tmp_path / "second" / "walk.txt").write_text(SECOND)
    command("hear", tmp_path / "walk.txt", "-m", "wheel-loader", "-u", "Seven", "-o", tmp_path / "walk")
    return tmp_path / "walk"


def contents(folder: Path) -> dict[str, bytes]:
    """All files of a folder but the lock."""
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.name != ".edits.lock"}


def test_the_first_walk_stands_in_front_of_the_second(folder: Path) -> None:
    """Text, words, findings and originals of both, the first unchanged; findings are numbered on."""
    before = walkfolder.read(folder)
    command("hear", folder.parent / "second" / "walk.txt", "--into", folder)
    after = walkfolder.read(folder)
    assert f"{FIRST}\n\n{SECOND}" == after.transcript.text
    count = len(before.findings)
    assert before.findings == after.findings[:count]
    assert [f"f{n:03}" for n in range(1, len(after.findings) + 1)] == [one.id for one in after.findings]
    quoted = [
        after.transcript.text[f.evidence[0].char_start : f.evidence[0].char_end] for f in after.findings
    ]
    assert ["Seat belt works", "horn works"] == quoted[count:]
    assert all(w.text == after.transcript.text[w.char_start : w.char_end] for w in after.transcript.words)
    assert (FIRST, SECOND) == ((folder / "walk.txt").read_text(), (folder / "2-walk.txt").read_text())
    assert [(len(FIRST) + 2, None)] == [(one.char_start, one.start_s) for one in after.joined]


def test_the_spans_cover_both_without_gaps(folder: Path) -> None:
    """Every character of the joined transcript has its disposition."""
    command("hear", folder.parent / "second" / "walk.txt", "--into", folder)
    after = walkfolder.read(folder).transcript
    at = 0
    for span in after.spans:
        assert at == span.char_start
        at = span.char_end
    assert len(after.text) == at


def test_what_was_hidden_is_seen_after_walking_back(folder: Path) -> None:
    """The line and the question of a part that the second recording speaks of are settled."""
    before = standing(folder).walk
    assert "hidden" == next(line.state for line in before.checklist if line.part == "seat belt")
    assert any(one.kind == "hidden" for one in before.questions)
    command("hear", folder.parent / "second" / "walk.txt", "--into", folder)
    after = standing(folder).walk
    assert "good" == next(line.state for line in after.checklist if line.part == "seat belt")
    assert not any(one.kind == "hidden" for one in after.questions)


def test_edits_made_before_are_kept_and_nothing_is_called_new(folder: Path) -> None:
    """An edit of the first walk still meets its finding; no difference is told, and more can be edited."""
    bucket = next(one for one in walkfolder.read(folder).findings if one.part == "bucket")
    patch = Patch(side="left", condition="bent")
    apply(folder, Wish(action="change", who="Ada", findings=[bucket.id], patches=[patch]))
    edits = (folder / "edits.jsonl").read_bytes()
    command("hear", folder.parent / "second" / "walk.txt", "--into", folder)
    after = standing(folder)
    assert edits == (folder / "edits.jsonl").read_bytes()
    assert [] == after.differences
    assert ["bent"] == [one.condition for one in after.walk.findings if one.id == bucket.id]
    assert "good" == next(line.state for line in after.walk.checklist if line.part == "seat belt")
    apply(folder, Wish(action="accept", who="Ada", findings=[after.walk.findings[-1].id]))
    assert 2 == len(read(folder))


def test_the_earlier_walk_is_set_aside(folder: Path) -> None:
    """The walk.json of before lies beside the new one, byte for byte; a third recording joins as well."""
    before = (folder / "walk.json").read_bytes()
    command("hear", folder.parent / "second" / "walk.txt", "--into", folder)
    (folder.parent / "second" / "walk.txt").write_text("Fire extinguisher is missing.")
    command("hear", folder.parent / "second" / "walk.txt", "--into", folder)
    aside = sorted(path for path in folder.glob("walk-*.json"))
    assert 2 == len(aside)
    assert before in [path.read_bytes() for path in aside]
    assert 2 == len(json.loads((folder / "walk.json").read_text())["joined"])
    assert (folder / "3-walk.txt").is_file()


@pytest.mark.parametrize("fault", [EarError("the ear failed; try another"), KeyboardInterrupt()])
@pytest.mark.parametrize("stage", ["hear_file", "joined"])
def test_what_fails_leaves_the_walk_as_it_was(
    folder: Path, monkeypatch: pytest.MonkeyPatch, stage: str, fault: BaseException
) -> None:
    """An error or Ctrl-C on the way, early or late, changes no byte of the walk folder."""
    from saycheck.cli import joining as commands

    def fail(*_: object) -> None:
        raise fault

    before = contents(folder)
    monkeypatch.setattr(commands, stage, fail)
    status = 130 if isinstance(fault, KeyboardInterrupt) else 2
    command("hear", folder.parent / "second" / "walk.txt", "--into", folder, status=status)
    assert before == contents(folder)


@pytest.mark.parametrize("after_s", [0.7, 1.6, 2.4, 3.0])
def test_a_killed_joining_leaves_one_walk_or_the_other(folder: Path, after_s: float) -> None:
    """Killed at any moment, the walk is whole: as it was, or joined."""
    before = contents(folder)
    more = folder.parent / "second" / "walk.txt"
    words = [sys.executable, "-m", "saycheck", "hear", str(more), "--into", str(folder)]
    with subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as running:
        time.sleep(after_s)
        running.kill()
    walk = walkfolder.read(folder)
    assert walk.joined or before == {name: (folder / name).read_bytes() for name in before}
    assert FIRST in walk.transcript.text
    if not walk.joined:
        command("hear", more, "--into", folder)
    assert 1 == len(walkfolder.read(folder).joined)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            ["--machine", "wheel-loader"],
            "--machine does not go with --into, since the walk that is there tells it",
        ),
        (["--unit", "Eight"], "--unit does not go with --into, since the walk that is there tells it"),
        (["--replace"], "--replace does not go with --into, since the walk that is there tells it"),
    ],
)
def test_the_walk_tells_its_machine(folder: Path, words: Sequence[str], sentence: str) -> None:
    """What the walk that is there tells cannot be told again."""
    told = command("hear", folder.parent / "walk.txt", "--into", folder, *words, status=2)
    assert f"{sentence}; leave it out\n" == told


def test_the_same_recording_is_not_joined_twice(folder: Path) -> None:
    """A recording that is in the walk already is refused, the first as well as a joined one."""
    second = folder.parent / "second" / "walk.txt"
    command("hear", second, "--into", folder)
    before = contents(folder)
    for again in (second, folder.parent / "walk.txt"):
        told = command("hear", again, "--into", folder, status=2)
        assert f"'walk.txt' is in the walk of '{folder}' already; name the recording made after it\n" == told
    assert before == contents(folder)


def test_hearing_anew_says_what_must_be_joined_again(folder: Path) -> None:
    """``--replace`` hears one recording; the walk with both is set aside."""
    command("hear", folder.parent / "second" / "walk.txt", "--into", folder)
    told = command("hear", folder.parent / "walk.txt", "-m", "wheel-loader", "-o", folder, "--replace")
    assert told.startswith("recordings had been joined to that walk; join them again with --into\n")


def test_there_must_be_a_walk(tmp_path: Path) -> None:
    """Joining to a folder without a walk says so and makes nothing."""
    (tmp_path / "more.txt").write_text(SECOND)
    told = command("hear", tmp_path / "more.txt", "--into", tmp_path / "none", status=2)
    assert told.startswith("there is no walk in '")
    assert ["more.txt"] == [path.name for path in tmp_path.iterdir()]


def _heard(make_walk: Callable[..., Walk], text: str, part: str, seconds: float) -> Walk:
    """A walk heard from sound, one finding on its first word."""
    words = [Word(text=text.split()[0], char_start=0, char_end=len(text.split()[0]), start_s=0.5, end_s=0.9)]
    place = Evidence(char_start=0, char_end=words[0].char_end, start_s=0.5, end_s=0.9)
    finding = Finding(
        id="f001", zone="front", part=part, side="none", check="good", state="good", condition="good",
        heard_as=part, confidence=0.9, evidence=[place], line=part,
    )  # fmt: skip
    spans = [Span(char_start=0, char_end=len(text), disposition="finding", finding_ids=["f001"])]
    readings = [OtherReading(char_start=0, char_end=4, text="other", ear="trade", confidence=0.5)]
    return make_walk(
        text, transcript=Transcript(text=text, words=words, spans=spans, readings=readings), findings=[finding],
        source=Source(name="a.wav", sha256="0" * 64, duration_s=seconds),
        sound=[Passage(start_s=0, end_s=seconds, kind="speech", snr_db=20)],
    )  # fmt: skip


def test_times_and_offsets_are_moved(make_walk: Callable[..., Walk]) -> None:
    """All that points into the second sound and text points behind the first."""
    first = _heard(make_walk, "Bucket is good.", "bucket", 10.0)
    second = _heard(make_walk, "Horn works.", "horn", 4.0)
    whole = joining.joined(first, second, 11.0, load("wheel-loader"))
    assert 15.0 == whole.source.duration_s
    place = whole.findings[1].evidence[0]
    assert ("f002", 17, 21, 11.5, 11.9) == (
        whole.findings[1].id, place.char_start, place.char_end, place.start_s, place.end_s
    )  # fmt: skip
    assert ["f002"] == whole.transcript.spans[-1].finding_ids
    assert (17, 21) == (whole.transcript.readings[1].char_start, whole.transcript.readings[1].char_end)
    assert [(0, 10.0), (10.0, 11.0), (11.0, 15.0)] == [(one.start_s, one.end_s) for one in whole.sound]


def _wav(path: Path, samples: np.ndarray) -> np.ndarray:
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(16_000)
        file.writeframes(samples.astype("<i2").tobytes())
    return samples


def test_the_sound_is_lengthened_without_loss(tmp_path: Path) -> None:
    """Both sounds stand in one file sample for sample, a second of silence between them."""
    random = np.random.default_rng(4)
    one = _wav(tmp_path / "one.wav", random.integers(-20_000, 20_000, 24_000))
    two = _wav(tmp_path / "two.wav", random.integers(-20_000, 20_000, 8_123))
    start_s = joining.lengthened(tmp_path / "one.wav", tmp_path / "two.wav", tmp_path / "both.flac")
    whole = np.rint(np.concatenate(list(blocks(tmp_path / "both.flac"))) * 32768).astype(int)
    assert 2.5 == start_s
    assert np.array_equal(np.concatenate([one, np.zeros(16_000, int), two]), whole)


@pytest.mark.sound
def test_a_second_recording_is_heard_and_its_sound_is_where_its_words_say(tmp_path: Path) -> None:
    """Two spoken recordings: the words of the second lie in the lengthened sound where they were spoken."""
    speak = pytest.importorskip("speak")
    for name, text in (("one", "the bucket is cracked"), ("two", "the horn works and the seat belt is good")):
        try:
            sound = speak.speak(text, "slt")
        except (OSError, RuntimeError, speak.subprocess.SubprocessError) as error:
            pytest.skip(f"the voice slt of flite is not here: {error}")
        _wav(tmp_path / f"{name}.wav", np.clip(sound * 32767, -32767, 32767))
    command("hear", tmp_path / "one.wav", "-m", "wheel-loader", "-o", tmp_path / "walk")
    before = walkfolder.read(tmp_path / "walk")
    command("hear", tmp_path / "two.wav", "--into", tmp_path / "walk")
    after = walkfolder.read(tmp_path / "walk")
    start_s = after.joined[0].start_s
    assert start_s is not None
    assert before.source.duration_s + 1 == pytest.approx(start_s, abs=0.01)
    seconds = sum(len(block) for block in blocks(tmp_path / "walk" / "sound.flac")) / 16_000
    assert after.source.duration_s == pytest.approx(seconds, abs=0.01)
    later = [w for w in after.transcript.words if w.char_start >= after.joined[0].char_start]
    assert later
    assert all(w.start_s is not None and start_s <= w.start_s < seconds for w in later)
    assert ["horn"] == [one.part for one in after.findings if one.part == "horn"]
