"""RNNoise takes noise down and leaves time alone."""

import numpy as np
import pytest

from saycheck.errors import EarError
from saycheck.hearing import denoise
from saycheck.hearing.ear import SAMPLE_RATE, Samples


def hiss(seconds: float) -> Samples:
    return np.random.default_rng(1).normal(0, 0.05, int(seconds * SAMPLE_RATE)).astype(np.float32)


@pytest.mark.parametrize("length", [0, 1, 100, 319, 320, 16_001, 40_000])
def test_as_many_samples_as_came_in(length: int) -> None:
    """Sound of any length keeps it."""
    assert length == len(denoise.denoised(hiss(3)[:length]))


def test_noise_goes_down() -> None:
    """Steady hiss loses nine tenths of its power at least, from the start."""
    sound = hiss(2)
    cleaned = denoise.denoised(sound)
    assert float(np.mean(cleaned[:8000] ** 2)) < 0.1 * float(np.mean(sound[:8000] ** 2))


def test_a_missing_library_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without RNNoise the message says what to install."""
    denoise._library.cache_clear()
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    with pytest.raises(EarError) as caught:
        denoise.denoised(hiss(1))
    denoise._library.cache_clear()
    expected = "the trade ear needs RNNoise, whose library is not installed; run: pip install pyrnnoise"
    assert expected == str(caught.value)
