"""A whole session as a technician has it: a microphone, a terminal, a walk, commands, and no network."""

import json
import os
import re
import shutil
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest

import yard as yards
from saycheck.models.walk import Walk
from speak import SAMPLE_RATE, speak, write_wav
from terminal import Terminal

SAID = (
    ("Left front tyre is cut on the sidewall.", 1.5),
    ("The bucket is cracked at the corner.", 1.5),
    ("Recorder, take that back.", 4.0),
    ("Recorder, photo here.", 3.0),
    ("Lift cylinder on the left is leaking.", 1.5),
    ("Recorder, change zone to right side.", 3.0),
    ("Recorder, same again on this side.", 3.0),
    ("Recorder, what have I missed?", 9.0),
    ("Seat belt works.", 2.0),
    ("Recorder, done.", 1.0),
)
"""What is said, and how long the walker then waits, seconds."""

BEFORE = (
    "Left front tyre is cut on the sidewall.", "The bucket is cracked at the corner.",
    "Lift cylinder on the left is leaking.", "The horn is dead.",
)  # fmt: skip
MEANWHILE = "Seat belt works."
"""What is said until a small disk is full, and after it."""

VOICE = "slt-hts"
"""saycheck's own voice is off: the sink that plays the walker would play it as well, over the walker where the
computer is slow."""

PATIENCE_S = 240

FIRST_LINES = 'sys.argv[0] = "saycheck"; sys.path[:0] = sys.argv.pop(1).split(os.pathsep)'
PROGRAM = f"import os, sys; {FIRST_LINES}; from saycheck.cli import main; main()"

pytestmark = pytest.mark.sound


@dataclass
class Session:
    """What came of it: what stood on the screen along the way, the walk, and whether there was a network."""

    screens: list[str]
    folder: Path
    walk: Walk
    alone: bool


def told(arguments: list[str]) -> list[str]:
    """The command that runs saycheck from this checkout."""
    return [sys.executable, "-c", PROGRAM, os.pathsep.join(sys.path), *arguments]


def without_network(command: list[str]) -> tuple[list[str], bool]:
    """The command in a network of its own that has nothing but loopback, where this user may make one."""
    tried = (
        subprocess.run(["unshare", "-n", "true"], capture_output=True) if shutil.which("unshare") else None
    )
    if tried is None or tried.returncode:
        return command, False
    return ["unshare", "-n", *command], True


def spoken_walk(path: Path, said: Sequence[tuple[str, float]] = SAID) -> None:
    """The walk as one recording."""
    sounds = [
        np.concatenate([speak(text, VOICE), np.zeros(round(pause * SAMPLE_RATE), np.float32)])
        for text, pause in said
    ]
    write_wav(path, np.concatenate(sounds))


@pytest.fixture(scope="module")
def session(yard: yards.Yard, tmp_path_factory: pytest.TempPathFactory) -> Session:
    """The session; once more where sound was lost on its way to the microphone, as on a busy computer it may be."""
    if shutil.which("tmux") is None:
        pytest.skip("no terminal can be held without tmux (Debian: tmux)")
    found = listened(yard, tmp_path_factory.mktemp("session"))
    return found if came_through(found.walk) else listened(yard, tmp_path_factory.mktemp("again"))


def came_through(walk: Walk) -> bool:
    """Whether every sentence that was played left most of its words in the transcript."""
    heard = set(re.findall(r"\w+", walk.transcript.text.lower()))
    return all(
        sum(word in heard for word in re.findall(r"\w+", text.lower())) * 2 > len(text.split())
        for text, _ in SAID
    )


def listened(yard: yards.Yard, folder: Path) -> Session:
    """One session, in a terminal that tmux holds."""
    spoken_walk(folder / "walk.wav")
    asked = ["listen", "--machine", "wheel-loader", "--unit", "loader seven", "--no-aloud"]
    command, alone = without_network(told([*asked, "--out", str(folder / "seven")]))
    with Terminal(folder, command, yard.environment) as terminal:
        terminal.until(lambda shown: " listening " in shown, PATIENCE_S)
        playing = yard.play(folder / "walk.wav")
        written = terminal.until(lambda _: (folder / "seven" / "walk.json").exists(), PATIENCE_S)
        playing.kill()
        playing.wait()
        time.sleep(1.0)
        terminal.look()
    assert written, terminal.screens[-1]
    return Session(terminal.screens, folder, walk_of(folder / "seven"), alone)


def walk_of(folder: Path) -> Walk:
    """The walk that a session left."""
    return Walk.model_validate_json((folder / "walk.json").read_text(encoding="utf-8"))


def test_the_walk_says_what_was_said(session: Session) -> None:
    """Findings, what was taken back, commands and the photo are in the walk folder."""
    found = {(one.part, one.side, one.state) for one in session.walk.findings}
    assert {("lift cylinder", "left", "writeup"), ("seat belt", "none", "good")} <= found
    assert ("lift cylinder", "right", "writeup") in found  # same again on this side
    assert not any(part == "bucket" for part, _, _ in found)
    spans = session.walk.transcript.spans
    commands = [span.why for span in spans if span.disposition == "command"]
    assert ["take back", "photo", "zone", "same again", "missed", "done"] == commands
    assert any(span.disposition == "taken-back" for span in spans)
    assert [("photo", "1")] == [(one.kind, one.text) for one in session.walk.events if one.kind == "photo"]
    assert session.walk.machine.unit == "loader seven"


def test_every_character_of_it_is_accounted_for(session: Session) -> None:
    """Spans follow one another from the first character to the last."""
    text, spans = session.walk.transcript.text, session.walk.transcript.spans
    assert [0, *(span.char_end for span in spans)] == [*(span.char_start for span in spans), len(text)]


def test_it_was_on_the_screen_as_it_was_said(session: Session) -> None:
    """What was heard, what was found, the answers and the level could be seen along the way."""
    seen = "\n".join(session.screens)
    for words in ("heard: “", "dB over the noise", "photo 1", "open in all", "loader seven"):
        assert words in seen
    assert any(" more." in screen for screen in session.screens)  # what have I missed
    assert all(len(line) <= 80 for screen in session.screens for line in screen.splitlines())
    assert "Traceback" not in seen


def test_hearing_the_kept_sound_gives_the_same_words(session: Session) -> None:
    """``saycheck hear`` on the recording hears, outside of the commands, the very words of the walk."""
    out = session.folder / "again"
    subprocess.run(
        told(["hear", str(session.folder / "seven" / "recording.wav"), "-m", "wheel-loader", "-o", str(out)]),
        check=True, capture_output=True, cwd=session.folder,
    )  # fmt: skip
    again = json.loads((out / "walk.json").read_text(encoding="utf-8"))["transcript"]["words"]
    times = {(word["start_s"], word["text"]) for word in again}
    kept = [
        (word.start_s, word.text) for word in session.walk.transcript.words if word.confidence is not None
    ]
    assert len(kept) > 15
    assert [] == [word for word in kept if word not in times]


def test_nothing_is_left_of_the_listening(session: Session) -> None:
    """The folder of the unfinished walk is gone, the recording is in the walk."""
    assert ["again", "seven"] <= sorted(path.name for path in session.folder.iterdir() if path.is_dir())
    assert not list(session.folder.glob("*.listening"))
    assert (session.folder / "seven" / "recording.wav").stat().st_size > 30 * 32_000


def test_all_of_it_without_a_network(session: Session) -> None:
    """The session ran where there is no interface but loopback."""
    if not session.alone:
        pytest.skip("this user may make no network namespace (unshare -n)")
    links = subprocess.run(
        ["unshare", "-n", "cat", "/proc/net/dev"], capture_output=True, text=True, check=True
    ).stdout
    assert ["lo"] == [line.split(":")[0].strip() for line in links.splitlines()[2:]]
    assert session.walk.findings


@pytest.mark.skipif(
    shutil.which("tmux") is None, reason="no terminal can be held without tmux (Debian: tmux)"
)
def test_a_disk_that_fills_up_on_the_walk(yard: yards.Yard, small_disk: Path, tmp_path: Path) -> None:
    """It is on the screen, and once there is room again nothing that was said meanwhile is missing."""
    (small_disk / "pictures").write_bytes(bytes(2 * 2**20))
    said = [*((text, 8.0) for text in BEFORE), (MEANWHILE, 3.0), ("Recorder, done.", 1.0)]
    spoken_walk(tmp_path / "walk.wav", said)
    asked = ["listen", "--machine", "wheel-loader", "--no-aloud", "--out", str(small_disk / "walk")]
    with Terminal(tmp_path, told(asked), yard.environment) as terminal:
        terminal.until(lambda shown: " listening " in shown, PATIENCE_S)
        playing = yard.play(tmp_path / "walk.wav")
        full = terminal.until(lambda shown: "the disk is full" in shown, PATIENCE_S)
        time.sleep(5.0)
        (small_disk / "pictures").unlink()
        room = terminal.until(lambda shown: "the disk is full" not in shown, PATIENCE_S)
        written = terminal.until(lambda _: (small_disk / "walk" / "walk.json").exists(), PATIENCE_S)
        playing.kill()
        playing.wait()
    assert (True, True, True) == (full, room, written), terminal.screens[-1]
    words = walk_of(small_disk / "walk").transcript.text.lower()
    assert [] == [one for one in ("sidewall", "corner", "leaking", "horn", "belt") if one not in words]
    seconds = (small_disk / "walk" / "recording.wav").stat().st_size / (2 * SAMPLE_RATE)
    assert seconds > sum(pause for _, pause in said)
