"""What ``saycheck doctor`` says of the microphone, its level and the speed, in plain words."""

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

import yard as yards
from saycheck.cli.checkup import SparedError, judged, paced
from saycheck.errors import SoundError


def noise(level: float) -> np.ndarray:
    """Two seconds of noise of this root mean square."""
    return np.random.default_rng(0).normal(0, level, 32_000).clip(-1, 1).astype(np.float32)


@pytest.mark.parametrize(
    ("level", "said"),
    [
        (0.002, "-54 dB of full scale while nobody need speak; that is fine"),
        (0.1, "it is loud here (-20 dB of full scale); hold the microphone close to the mouth"),
    ],
)
def test_a_level_that_can_be_worked_with(level: float, said: str) -> None:
    """Held against the definition: 20 times the logarithm of the root mean square."""
    assert said == judged(noise(level))


@pytest.mark.parametrize(
    ("sound", "sentence"),
    [
        (noise(0.0), "the microphone is mute (not even noise comes in); switch it on, or turn it up"),
        (noise(0.6), "the microphone is turned up too far (the sound is clipped); turn it down"),
        (noise(0.1)[:0], "no sound comes from the microphone; plug it in again, or choose another"),
    ],
)
def test_a_level_that_must_be_changed(sound: np.ndarray, sentence: str) -> None:
    """One sentence that says what to do."""
    with pytest.raises(SoundError) as raised:
        judged(sound)
    assert sentence == str(raised.value)


@pytest.mark.parametrize(
    ("work", "said"),
    [
        (0.2, "0.20 s of work for a second of speech: fast enough to listen live"),
        (
            0.5,
            "0.50 s of work for a second of speech: hearing will lag while someone speaks, nothing is lost; "
            "close other programs",
        ),
    ],
)
def test_the_speed_in_plain_words(work: float, said: str) -> None:
    """What it means for who listens."""
    assert said == paced(work)


def test_a_computer_that_is_too_slow() -> None:
    """It can still hear recordings, so it is not wrong."""
    with pytest.raises(SparedError) as raised:
        paced(1.5)
    assert (
        "1.50 s of work for a second of speech: too slow to listen live; record first, and use `saycheck hear`"
    ) == str(raised.value)


@pytest.fixture(scope="module")
def yard(tmp_path_factory: pytest.TempPathFactory) -> Iterator[yards.Yard]:
    """A microphone without hardware."""
    lacking = yards.missing()
    if lacking:
        pytest.skip(f"no microphone can be made without {lacking}")
    with yards.Yard(tmp_path_factory.mktemp("doctor") / "pulse") as made:
        yield made


LOOKING = """
from saycheck.cli import checkup
from saycheck.errors import SoundError
print(checkup.microphone())
try:
    print(checkup.level())
except SoundError as error:
    print(error)
"""


@pytest.mark.sound
def test_a_real_microphone_is_found_and_listened_to(yard: yards.Yard, tmp_path: Path) -> None:
    """By way of PortAudio: the one that is used is named, and dead silence from it is told."""
    told = subprocess.run(
        [sys.executable, "-c", LOOKING], env=yard.environment, capture_output=True, text=True, check=True
    ).stdout.splitlines()
    assert "1 default is used; others: 0 pulse" == told[0]
    assert "the microphone is mute (not even noise comes in); switch it on, or turn it up" == told[1]
