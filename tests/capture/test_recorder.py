"""Recording in a process of its own: whatever is killed, what was spoken is in the file."""

import random
import time
from functools import partial
from pathlib import Path

import numpy as np
import pytest

from kill import MOST_LOST_S, WHOM, killed, last_spoken_s
from saycheck.capture.recorder import Recorder
from saycheck.errors import SoundError
from sources import CYCLE, Absent, Steady, none

KILLS = 8
"""For each of the three who can be killed; ``bench/kill.py`` does it three hundred times."""


def until(seconds: float) -> None:
    """Wait."""
    time.sleep(seconds)


@pytest.mark.parametrize("whom", WHOM)
def test_no_more_than_half_a_second_is_lost_by_a_kill(tmp_path: Path, whom: str) -> None:
    """SIGKILL at any moment leaves a file that can be read and lacks at most the last half second."""
    chance = random.Random(whom)
    lost = [killed(tmp_path, whom, chance.uniform(0.02, 0.6)) for _ in range(KILLS)]
    assert max(lost) <= MOST_LOST_S, lost


def test_what_was_spoken_until_the_end_is_in_the_file(tmp_path: Path) -> None:
    """Stopping loses nothing, and the handle tells how much there is."""
    since = time.monotonic()
    with Recorder(tmp_path / "r.wav", partial(Steady, since)) as recorder:
        assert "steady source" == recorder.device
        until(0.5)
        recorder.stop()
        stopped = time.monotonic() - since
    assert last_spoken_s(tmp_path / "r.wav", stopped) >= stopped - 0.1
    assert recorder.kept == (tmp_path / "r.wav").stat().st_size // 2 - 22
    assert (True, 0, 0.0, "") == (recorder.ended, recorder.overruns, recorder.lost_s, recorder.trouble)


def test_a_source_that_is_gone_comes_back(tmp_path: Path) -> None:
    """Without a microphone recording waits, says so, and goes on by itself."""
    told = set()
    with Recorder(tmp_path / "r.wav", partial(Absent, time.monotonic())) as recorder:
        for _ in range(60):
            told.add((recorder.here, recorder.trouble))
            until(0.05)
            if recorder.times_gone and recorder.here:
                break
        before = recorder.kept
        until(0.4)
        assert recorder.kept > before
    assert (False, "the microphone 'steady source' is gone; plug it in again") in told
    assert ("", 1) == (recorder.trouble, recorder.times_gone)


def test_without_any_source_nothing_is_begun(tmp_path: Path) -> None:
    """The sentence of the source is that of the recorder, and there is no empty file."""
    with pytest.raises(SoundError) as raised, Recorder(tmp_path / "r.wav", none):
        pass
    assert "no microphone was found; plug one in, and look with `saycheck doctor`" == str(raised.value)
    assert not (tmp_path / "r.wav").exists()


def test_the_check_of_this_test_can_fail(tmp_path: Path) -> None:
    """A sample missing in the middle is found out."""
    from saycheck.capture.recording import Recording

    recording = Recording(tmp_path / "r.wav")
    recording.append((np.delete(np.arange(5_000), 2_500) % CYCLE - CYCLE // 2).astype(np.int16))
    with pytest.raises(ValueError, match="does not hold what was spoken"):
        last_spoken_s(tmp_path / "r.wav", 0.3)
