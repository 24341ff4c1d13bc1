"""A walk that was cut off is not lost: the sound is there, and is written up at the next start."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from saycheck.capture.recording import Recording
from saycheck.errors import WalkError
from saycheck.live.folder import ListeningFolder, Session, unfinished
from saycheck.models.walk import Event, Walk
from speak import SAMPLE_RATE, speak, write_wav

SAID = ("Left front tyre is cut on the sidewall.", "The bucket is cracked.", "Recorder, take that back.",
        "Recorder, note the gate sticks.", "Seat belt works.")  # fmt: skip

LISTENING = """
import sys
from functools import partial
from pathlib import Path
from sources import Played
from saycheck.cli.listening import Options, listen_now

if __name__ == "__main__":
    options = Options(
        "wheel-loader", "loader seven", 4812.0, Path("walks/seven"), "both", None, None, "recorder",
        False, False, False,
    )
    listen_now(options, partial(Played, Path(sys.argv[1])))
"""


def session(process: int = 0, **other: object) -> Session:
    """A session whose process is long gone."""
    given: dict[str, object] = {
        "machine": "wheel-loader", "unit": "loader seven", "lead": "recorder", "ears": "builtin",
        "out": "walks/seven", "started": "2025-03-09T07:30:00", "process": process or gone(),
    }  # fmt: skip
    return Session.model_validate(given | other)


def gone() -> int:
    """The number of a process that has ended."""
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    return ended.pid


def command(folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """Run saycheck in a folder."""
    program = 'import sys; sys.argv[0] = "saycheck"; from saycheck.cli import main; main()'
    return subprocess.run(
        [sys.executable, "-c", program, *words], capture_output=True, text=True, cwd=folder,
        env=os.environ | {"COLUMNS": "200"},
    )  # fmt: skip


def test_unfinished_walks_are_found_and_running_ones_are_not(tmp_path: Path) -> None:
    """Only a folder whose process has ended counts."""
    (walking, left) = (ListeningFolder.for_walk(tmp_path / name) for name in ("walking", "left"))
    walking.begin(session(os.getpid()))
    left.begin(session())
    assert [left.path] == [one.path for one in unfinished(tmp_path)]
    assert [] == unfinished(tmp_path / "nowhere")


def test_a_second_walk_of_the_same_name_has_a_folder_of_its_own(tmp_path: Path) -> None:
    """Nothing is recorded over anything."""
    first = ListeningFolder.for_walk(tmp_path / "seven")
    first.begin(session())
    assert ["seven.listening", "seven-2.listening"] == [
        first.path.name, ListeningFolder.for_walk(tmp_path / "seven").path.name
    ]  # fmt: skip


def test_events_outlive_a_torn_line(tmp_path: Path) -> None:
    """What was noted before a power cut is read, the half line after it left out."""
    folder = ListeningFolder.for_walk(tmp_path / "seven")
    folder.begin(session())
    event = Event(kind="gap", start_s=3.0, end_s=3.0, text="the microphone was gone")
    folder.note(event)
    with (folder.path / "events.jsonl").open("a") as file:
        file.write('{"kind": "gap", "sta')
    assert [event] == list(folder.events())


def test_what_is_not_ours_is_not_taken_away(tmp_path: Path) -> None:
    """A file that someone put there stays, and the folder with it."""
    folder = ListeningFolder.for_walk(tmp_path / "seven")
    folder.begin(session())
    (folder.path / "mine.txt").write_text("keep")
    folder.remove()
    assert ["mine.txt"] == [path.name for path in folder.path.iterdir()]


def test_a_damaged_session_says_how_to_go_on(tmp_path: Path) -> None:
    """The sound can be heard all the same."""
    folder = ListeningFolder.for_walk(tmp_path / "seven")
    folder.begin(session())
    (folder.path / "session.json").write_text("{")
    with pytest.raises(WalkError) as raised:
        folder.session()
    assert (
        f"'{folder.path / 'session.json'}' is damaged; run: saycheck hear '{folder.recording}' --machine KIND"
    ) == str(raised.value)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["listen"], "say which machine it is with --machine; `saycheck vocab kinds` lists them\n"),
        (["listen", "--resume"], "there is no unfinished walk in 'walks'; name its place with --out\n"),
        (
            ["listen", "-m", "wheel-loader", "--lead", "7"],
            "'7' cannot be a lead word; choose one or two words with three syllables\n",
        ),
    ],
)
def test_what_cannot_be_done_is_said(tmp_path: Path, words: list[str], sentence: str) -> None:
    """One sentence, status 2, and nothing left behind."""
    ended = command(tmp_path, *words)
    assert (2, sentence) == (ended.returncode, ended.stderr)
    assert [] == list(tmp_path.iterdir())


@pytest.mark.sound
def test_a_walk_killed_in_the_middle_is_written_up_later(tmp_path: Path) -> None:
    """SIGKILL to the whole of it while it listens; the next start tells, and --resume makes the walk."""
    wav = tmp_path / "said.wav"
    gap = np.zeros(round(1.2 * SAMPLE_RATE), np.float32)
    write_wav(wav, np.concatenate([piece for text in SAID for piece in (speak(text, "slt-hts"), gap)]))
    seconds = (wav.stat().st_size - 44) / 2 / SAMPLE_RATE
    (tmp_path / "listening.py").write_text(LISTENING)
    program = subprocess.Popen(
        [sys.executable, "listening.py", str(wav)], cwd=tmp_path, start_new_session=True,
        env=os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)},
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    folder = ListeningFolder(tmp_path / "walks" / "seven.listening")
    until = time.monotonic() + 120
    while folder.seconds < seconds and time.monotonic() < until:
        time.sleep(0.05)
    os.killpg(program.pid, signal.SIGKILL)
    program.wait()
    assert folder.seconds >= seconds
    again = command(tmp_path, "listen", "-m", "wheel-loader", "--microphone", "no such microphone")
    assert "of sound" not in again.stderr
    assert "was not finished; `saycheck listen --resume` writes it up" in again.stderr
    resumed = command(tmp_path, "listen", "--resume")
    assert 0 == resumed.returncode, resumed.stderr
    walk = Walk.model_validate_json((tmp_path / "walks" / "seven" / "walk.json").read_text(encoding="utf-8"))
    assert ("loader seven", 4812.0) == (walk.machine.unit, walk.machine.hours)
    assert {("front tyre", "writeup"), ("seat belt", "good")} <= {
        (one.line or one.part, one.state) for one in walk.findings
    }
    assert not any("bucket" in one.part for one in walk.findings)
    assert ["note"] == [one.kind for one in walk.events]
    assert not folder.path.exists()


def test_a_recording_without_a_word_stays_where_it_is(tmp_path: Path) -> None:
    """Nothing was said, so there is no walk; the sound is kept and the sentence says where."""
    folder = ListeningFolder.for_walk(tmp_path / "walks" / "seven")
    folder.begin(session())
    recording = Recording(folder.recording)
    recording.append(np.zeros(48_000, np.int16))
    recording.close()
    ended = command(tmp_path, "listen", "--resume")
    assert 2 == ended.returncode
    assert "no speech was heard; the sound stays in 'walks/seven.listening/recording.wav'" in ended.stderr
    assert 96_044 == folder.recording.stat().st_size
