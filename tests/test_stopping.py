"""Hearing that is stopped halfway: nothing half-written, no ear left running."""

import os
import signal
import subprocess
import sys
import time
import wave
from pathlib import Path

import pytest

WAIT_S = 60


@pytest.fixture(scope="module")
def recording(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two minutes of human voices from the Debian package pocketsphinx-testdata."""
    found = sorted(Path("/usr/share/pocketsphinx/test/data").rglob("*.wav"))
    if not found:
        pytest.skip("the Debian package pocketsphinx-testdata is not installed")
    path = tmp_path_factory.mktemp("sound") / "long.wav"
    with wave.open(str(path), "wb") as joined:
        joined.setparams((1, 2, 16_000, 0, "NONE", ""))
        while joined.tell() < 120 * 16_000:
            for one in found:
                with wave.open(str(one)) as file:
                    joined.writeframes(file.readframes(file.getnframes()))
    return path


def heed_ctrl_c() -> None:
    """What a shell starts in the background does not heed Ctrl-C, nor does what that starts."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def begin(recording: Path, folder: Path) -> subprocess.Popen[str]:
    """Start hearing in a session of its own; returns once the ear has been started."""
    command = [
        sys.executable,
        "-m",
        "saycheck",
        "hear",
        str(recording),
        "-m",
        "wheel-loader",
        "--ear",
        "plain",
    ]
    started = subprocess.Popen(
        command,
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
        preexec_fn=heed_ctrl_c,
    )
    until(lambda: len(session(started.pid)) > 1 or started.poll() is not None)
    assert started.poll() is None, started.communicate()
    return started


def session(leader: int) -> set[int]:
    """The living processes of a session."""
    found = set()
    for place in Path("/proc").glob("[0-9]*"):
        try:
            fields = (place / "stat").read_text().rpartition(")")[2].split()
        except OSError:  # it ended meanwhile
            continue
        if int(fields[3]) == leader and fields[0] != "Z":
            found.add(int(place.name))
    return found


def until(done: object) -> None:
    """Wait for something, but not for ever."""
    end = time.monotonic() + WAIT_S
    while not done():  # type: ignore[operator]
        assert time.monotonic() < end, "waited too long"
        time.sleep(0.05)


@pytest.mark.sound
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
@pytest.mark.parametrize("after_s", [0.0, 4.0])
def test_a_signal_stops_it_cleanly(recording: Path, tmp_path: Path, number: int, after_s: float) -> None:
    """Ctrl-C, a request to end and a closed terminal leave no file, no traceback and no process."""
    started = begin(recording, tmp_path)
    time.sleep(after_s)
    os.killpg(started.pid, number) if number == signal.SIGINT else started.send_signal(number)
    shown, told = started.communicate(timeout=WAIT_S)
    assert ("", "stopped; nothing was written\n", 130) == (shown, told, started.returncode)
    assert [] == list(tmp_path.iterdir())
    until(lambda: not session(started.pid))


@pytest.mark.sound
def test_a_killed_run_leaves_no_walk_and_no_ear(recording: Path, tmp_path: Path) -> None:
    """kill -9 leaves at most a hidden draft beside the walk's place, and the ear ends by itself."""
    started = begin(recording, tmp_path)
    started.kill()
    started.communicate(timeout=WAIT_S)
    until(lambda: not session(started.pid))
    assert all(path.name.startswith(".") for path in (tmp_path / "walks").iterdir())
