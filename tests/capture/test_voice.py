"""Where somebody speaks: runs of windows, and sounds that are not speech."""

from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray

from noises import engine_noise, pink_noise
from saycheck.capture.voice import WINDOW, runs, windows

Sound = NDArray[np.float32]

COUNT = 16_000 * 8
TIME = np.arange(COUNT) / 16_000


@pytest.mark.parametrize(
    ("chances", "expected"),
    [
        ([], []),
        ([0.0, 0.1, 0.1, 0.0], []),
        ([0.0, 0.9, 0.9, 0.9, 0.0], [(1, 4)]),
        ([0.0, 0.2, 0.9, 0.2, 0.0], [(1, 4)]),  # weak at both ends: they belong to the word
        ([0.0, 0.3, 0.4, 0.4, 0.0], []),  # never sure
        ([0.0, 0.9, 0.9, 0.0, 0.0], []),  # shorter than any word
        ([0.9, 0.9, 0.0, 0.0, 0.0, 0.9], [(0, 6)]),  # three windows of silence: a stop consonant
        ([0.9] * 3 + [0.0] * 4 + [0.9] * 3, [(0, 3), (7, 10)]),
        ([0.9] * 3, [(0, 3)]),
    ],
)
def test_runs(chances: list[float], expected: list[tuple[int, int]]) -> None:
    """A run is sure somewhere, likely all along, and at least three windows long."""
    assert expected == runs(np.array(chances))


def every(seconds: float, decay: float, level: float) -> Sound:
    """Blows, each a burst of noise that dies away after so many samples."""
    rng = np.random.default_rng(6)
    sound = np.zeros(COUNT)
    for start in range(4000, COUNT - 4000, int(seconds * 16_000)):
        sound[start : start + 4000] += level * np.exp(-np.arange(4000) / decay) * rng.normal(size=4000)
    return sound.astype(np.float32)


NOT_SPEECH: dict[str, Callable[[np.random.Generator], NDArray[np.floating]]] = {
    "digital silence": lambda rng: np.zeros(COUNT),
    "a constant offset": lambda rng: np.full(COUNT, 0.3),
    "room tone": lambda rng: rng.normal(0, 0.0005, COUNT),
    "a recorder's clicks": lambda rng: every(1.3, decay=20, level=0.5),
    "hammering": lambda rng: every(0.7, decay=400, level=0.8),
    "steps on gravel": lambda rng: every(0.55, decay=600, level=0.05),
    "an engine": lambda rng: 0.1 * engine_noise(COUNT, rng),
    "a revving engine": lambda rng: 0.1 * engine_noise(COUNT, rng) * (1 + 0.9 * np.sin(TIME)),
    "rushing water": lambda rng: pink_noise(COUNT, rng),
    "a reverse alarm": lambda rng: 0.3 * np.sign(np.sin(2 * np.pi * 1200 * TIME)) * (TIME % 1 < 0.5),
    "a horn": lambda rng: 0.2 * np.sign(np.sin(2 * np.pi * 420 * TIME)) * (TIME % 3 < 1.2),
    "compressed air": lambda rng: rng.normal(0, 0.2, COUNT) * (TIME % 4 < 0.7),
    "mains hum": lambda rng: 0.2 * np.sin(2 * np.pi * 50 * TIME),
}


@pytest.mark.parametrize("name", NOT_SPEECH)
@pytest.mark.parametrize("gain", [1.0, 0.02], ids=["loud", "quiet"])
def test_what_is_not_speech(name: str, gain: float) -> None:
    """The sounds of a yard, loud and quiet, make no run of speech."""
    sound = (gain * NOT_SPEECH[name](np.random.default_rng(3))).astype(np.float32)
    assert [] == runs(np.array([chance for _, chance in windows([sound])]))


@pytest.mark.parametrize("size", [1, 500, 512, 7000])
def test_windows_do_not_depend_on_blocks(size: int) -> None:
    """However the sound comes in, the windows are the same and hold all of it."""
    sound = np.random.default_rng(1).normal(0, 0.1, 5 * WINDOW + 100).astype(np.float32)
    whole = list(windows([sound]))
    parts = list(windows(sound[start : start + size] for start in range(0, len(sound), size)))
    assert [WINDOW] * 5 + [100] == [len(window) for window, _ in parts]
    assert np.array_equal(sound, np.concatenate([window for window, _ in parts]))
    assert [chance for _, chance in whole] == [chance for _, chance in parts]
