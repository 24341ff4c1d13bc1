"""The microphone by way of PortAudio: choice of device, real sound, unplugging."""

import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

import yard as yards
from saycheck.capture.microphone import Device, chosen
from saycheck.errors import SoundError
from speak import read_wav, write_wav

DEVICES = [
    Device(0, "built-in audio", 2, 44_100.0),
    Device(3, "Lapel recorder: USB Audio", 1, 48_000.0),
    Device(5, "default", 32, 44_100.0),
]


@pytest.mark.parametrize(
    ("name", "default", "number"),
    [
        (None, 5, 5),
        (None, -1, 0),  # no default: the first
        ("3", 5, 3),
        ("lapel", 5, 3),
        ("usb audio", 5, 3),
        ("default", 0, 5),
    ],
)
def test_the_device_that_was_asked_for(name: str | None, default: int, number: int) -> None:
    """By number, by words of its name, else the default one."""
    assert number == chosen(DEVICES, default, name).number


@pytest.mark.parametrize(
    ("devices", "name", "sentence"),
    [
        ([], None, "no microphone was found; plug one in, and look with `saycheck doctor`"),
        (
            DEVICES, "headset",
            "there is no microphone 'headset'; there are 0 built-in audio, 3 Lapel recorder: USB Audio, 5 default",
        ),
    ],
)  # fmt: skip
def test_no_such_device(devices: list[Device], name: str | None, sentence: str) -> None:
    """One sentence that names what there is."""
    with pytest.raises(SoundError) as raised:
        chosen(devices, -1, name)
    assert sentence == str(raised.value)


@pytest.fixture(scope="module")
def yard(tmp_path_factory: pytest.TempPathFactory) -> Iterator[yards.Yard]:
    """A microphone without hardware."""
    lacking = yards.missing()
    if lacking:
        pytest.skip(f"no microphone can be made without {lacking}")
    with yards.Yard(tmp_path_factory.mktemp("yard") / "pulse") as made:
        yield made


RECORDING = """
import sys, time, json
from functools import partial
from pathlib import Path
from saycheck.capture.microphone import opened
from saycheck.capture.recorder import Recorder

if __name__ == "__main__":
    with Recorder(Path(sys.argv[1]), partial(opened, None)) as recorder:
        print(json.dumps([recorder.device, ""]), flush=True)
        for line in sys.stdin:
            if line.strip() == "end":
                break
            wanted, until = line.split()[0] == "here", time.monotonic() + 30
            while recorder.here != wanted and time.monotonic() < until:
                time.sleep(0.05)
            print(json.dumps([recorder.here, recorder.trouble]), flush=True)
    print(json.dumps([recorder.kept, recorder.times_gone, recorder.lost_s, recorder.overruns]), flush=True)
"""


class Recording:
    """A program that records from the yard's microphone; told what to wait for line by line."""

    def __init__(self, yard: yards.Yard, folder: Path) -> None:
        script = folder / "recording.py"
        script.write_text(RECORDING)
        self.path = folder / "r.wav"
        self._program = subprocess.Popen(
            [sys.executable, str(script), str(self.path)], env=yard.environment, text=True,
            stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        )  # fmt: skip
        self.device = self.answer()[0]

    def answer(self) -> list[object]:
        """Its next line."""
        assert self._program.stdout is not None
        answer: list[object] = json.loads(self._program.stdout.readline())
        return answer

    def tell(self, line: str) -> list[object]:
        """Say a line and return what it answers."""
        assert self._program.stdin is not None
        self._program.stdin.write(line + "\n")
        self._program.stdin.flush()
        return self.answer()


@pytest.mark.sound
def test_sound_from_the_microphone_is_on_the_disk_as_it_was_played(yard: yards.Yard, tmp_path: Path) -> None:
    """What is played into the microphone is found in the recording, sample for sample but for the level of
    the resampler's noise, none of it lost."""
    rate = 16_000
    time = np.arange(4 * rate) / rate
    rng = np.random.default_rng(3)
    sound = (
        0.2 * np.sin(2 * np.pi * (300 + 200 * time) * time) * rng.uniform(0.2, 1, 80).repeat(800)
    ).astype(np.float32)
    write_wav(tmp_path / "played.wav", sound)
    recording = Recording(yard, tmp_path)
    assert "default" == recording.device
    assert 0 == yard.play(tmp_path / "played.wav").wait(30)
    assert [True, ""] == recording.tell("here")
    subprocess.run(["sleep", "2"], check=True)  # sound servers hold a second or two
    kept, times_gone, lost_s, overruns = recording.tell("end")
    heard = read_wav(recording.path)
    assert (len(heard), 0, 0.0, 0) == (kept, times_gone, lost_s, overruns)
    lag = int(np.argmax(np.correlate(heard, sound[8_000:24_000], "valid"))) - 8_000
    found = heard[lag + 8_000 : lag + 56_000]
    assert np.corrcoef(sound[8_000:56_000], found)[0, 1] > 0.98


@pytest.mark.sound
def test_a_microphone_that_is_unplugged_comes_back(yard: yards.Yard, tmp_path: Path) -> None:
    """Without the sound server nothing is there; started again, recording goes on in the same file."""
    recording = Recording(yard, tmp_path)
    write_wav(tmp_path / "beep.wav", np.full(16_000, 0.1, np.float32))
    yard.play(tmp_path / "beep.wav").wait(30)
    assert [True, ""] == recording.tell("here")
    yard.unplug()
    try:
        assert [False, "the microphone 'default' is gone; plug it in again"] == recording.tell("gone")
        before = recording.path.stat().st_size
    finally:
        yard.plug_in()
    assert [True, ""] == recording.tell("here")
    subprocess.run(["sleep", "3"], check=True)
    kept, times_gone, *_ = recording.tell("end")
    assert 1 == times_gone
    assert recording.path.stat().st_size > before + 16_000
    assert kept == recording.path.stat().st_size // 2 - 22
