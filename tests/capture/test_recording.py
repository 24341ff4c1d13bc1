"""The growing recording: valid at every moment, whatever happens to it."""

import resource
import subprocess
import sys
import wave
from pathlib import Path

import numpy as np
import pytest

from saycheck.capture.files import blocks
from saycheck.capture.recording import HEADER, Recording, following, length_s
from saycheck.errors import SoundError


def ramp(count: int, start: int = 0) -> np.ndarray:
    """Samples that tell where they belong."""
    return np.asarray(np.arange(start, start + count) * 7 % 30_000 - 15_000, np.int16)


def whole(path: Path) -> np.ndarray:
    """The sound of a file by way of the reader that ``hear`` uses, as 16-bit samples."""
    return np.asarray(np.rint(np.concatenate(list(blocks(path))) * 32768), np.int16)


@pytest.mark.parametrize("count", [1, 1_000, 16_000, 50_001])
def test_what_was_appended_can_be_read_before_it_is_closed(tmp_path: Path, count: int) -> None:
    """An open recording reads like any other, and is not taken for one that breaks off."""
    recording = Recording(tmp_path / "r.wav")
    assert recording.append(ramp(count)) is None
    heard = blocks(tmp_path / "r.wav")
    assert count == sum(len(block) for block in heard)
    assert (0, False) == (heard.damaged, heard.truncated)
    recording.close()


@pytest.mark.parametrize("torn", [0, 1, 2, 3, 1_001])
def test_a_file_cut_anywhere_gives_all_whole_samples(tmp_path: Path, torn: int) -> None:
    """Power that fails in the middle of a write loses no more than the last sample."""
    path = tmp_path / "r.wav"
    recording = Recording(path)
    recording.append(ramp(20_000))
    path.write_bytes(path.read_bytes()[: HEADER + 40_000 - torn])
    kept = (40_000 - torn) // 2
    assert ramp(kept).tolist() == whole(path).tolist()
    assert kept / 16_000 == length_s(path)


def test_a_closed_recording_is_a_plain_wav(tmp_path: Path) -> None:
    """Python's own reader, which knows no streamed wav, takes it (outside check: module wave)."""
    recording = Recording(tmp_path / "r.wav")
    recording.append(ramp(5_000))
    recording.close()
    with wave.open(str(tmp_path / "r.wav")) as sound:
        assert (1, 2, 16_000, 5_000) == (
            sound.getnchannels(), sound.getsampwidth(), sound.getframerate(), sound.getnframes()
        )  # fmt: skip
        assert ramp(5_000).astype("<i2").tobytes() == sound.readframes(5_000)


def test_whoever_follows_gets_all_of_it_once(tmp_path: Path) -> None:
    """Sound that is appended while it is followed comes through in order, to the last sample."""
    path = tmp_path / "r.wav"
    recording = Recording(path)
    pieces = iter([ramp(3_000), ramp(40_000, 3_000), ramp(1, 43_000)])

    def ended() -> bool:
        piece = next(pieces, None)
        if piece is not None:
            recording.append(piece)
        return piece is None

    got = np.rint(np.concatenate(list(following(path, ended, pause_s=0))) * 32768).astype(np.int16)
    assert ramp(43_001).tolist() == got.tolist()


def test_there_is_never_a_recording_over_a_recording(tmp_path: Path) -> None:
    """What is there already stays as it is."""
    (tmp_path / "r.wav").write_bytes(b"earlier")
    with pytest.raises(SoundError) as raised:
        Recording(tmp_path / "r.wav")
    assert (f"there is a recording '{tmp_path / 'r.wav'}' already; name another folder with --out") == str(
        raised.value
    )
    assert b"earlier" == (tmp_path / "r.wav").read_bytes()


FILLING = """
import resource, sys, numpy as np
from pathlib import Path
from saycheck.capture.recording import Recording
resource.setrlimit(resource.RLIMIT_FSIZE, (44 + 30_001, resource.RLIM_INFINITY))
recording = Recording(Path(sys.argv[1]))
ramp = ((np.arange(40_000) * 7) % 30_000 - 15_000).astype(np.int16)
first = recording.append(ramp[:10_000])
second = recording.append(ramp[10_000:])
print(first, "|", second, "|", recording.samples)
resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
recording.append(ramp[recording.samples:])
recording.close()
"""


def test_a_full_disk_is_said_and_keeps_what_there_is(tmp_path: Path) -> None:
    """The write that meets the limit keeps whole samples, tells so, and goes on when there is room again.

    The limit of file size that the system sets for a process stands in for the end of the disk.
    """
    path = tmp_path / "r.wav"
    told = subprocess.run(
        [sys.executable, "-c", FILLING, str(path)], capture_output=True, text=True, check=True
    ).stdout.strip()
    assert (
        f"None | the disk is full: nothing more of the sound goes to '{path}'; make room at once | 15000"
    ) == told
    assert ramp(40_000).tolist() == whole(path).tolist()


def test_a_disk_that_really_is_full(small_disk: Path) -> None:
    """On a full file system the recording says so and stays readable."""
    recording = Recording(small_disk / "r.wav")
    told = [recording.append(ramp(16_000, 16_000 * second)) for second in range(110)]
    assert None is told[0]
    assert f"the disk is full: nothing more of the sound goes to '{recording.path}'" in str(told[-1])
    assert recording.samples > 1_500_000
    assert ramp(recording.samples).tolist() == whole(recording.path).tolist()
    recording.close()


def test_nothing_of_this_needs_more_than_a_file(tmp_path: Path) -> None:
    """A following reader holds no more than a second of sound, however far behind it is."""
    path = tmp_path / "r.wav"
    recording = Recording(path)
    for minute in range(10):
        recording.append(ramp(960_000, minute))
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    longest = max(len(block) for block in following(path, lambda: True))
    assert 16_000 == longest
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 8_000  # kB
