"""One channel of several, whatever is wrong with one of them."""

import numpy as np
import pytest
from numpy.typing import NDArray

from saycheck.capture.channels import OneChannel

Sound = NDArray[np.float32]

RNG = np.random.default_rng(4)


def mixed(channels: list[Sound]) -> Sound:
    """The mix of some channels, fed in pieces of a quarter second."""
    one = OneChannel()
    sound = np.stack(channels, axis=1).astype(np.float32)
    return np.concatenate([one.mix(sound[start : start + 4000]) for start in range(0, len(sound), 4000)])


def hiss(length: int, level: float) -> Sound:
    """White noise of a level (root mean square)."""
    return (level * RNG.normal(size=length)).astype(np.float32)


def hum(length: int, level: float) -> Sound:
    """Mains hum of 50 Hz."""
    return (level * np.sin(2 * np.pi * 50 * np.arange(length) / 16_000)).astype(np.float32)


@pytest.mark.parametrize(
    ("other", "why"),
    [
        (lambda sound: sound, "both the same"),
        (lambda sound: 0 * sound, "digital silence"),
        (lambda sound: hiss(len(sound), 0.002), "hiss"),
        (lambda sound: hum(len(sound), 0.1), "hum as loud as speech"),
        (lambda sound: 0 * sound + 0.3, "a constant offset"),
        (lambda sound: -sound, "opposite phase"),
        (lambda sound: -0.5 * sound, "opposite phase and weaker"),
    ],
    ids=lambda given: given if isinstance(given, str) else "",
)
@pytest.mark.parametrize("dead_first", [False, True])
def test_two_channels(other: object, why: str, dead_first: bool, bursts: Sound) -> None:
    """After a second, the mix is the sound of the good channel: as loud (3 dB) and as clean (20 dB)."""
    assert callable(other)
    pair = [bursts, other(bursts)]
    mix = mixed(pair[::-1] if dead_first else pair)[16_000:]
    wanted = bursts[16_000:]
    gain = float(mix @ wanted / (wanted @ wanted))
    assert pytest.approx(1.0, rel=0.3) == abs(gain)
    assert np.std(mix - gain * wanted) < 0.1 * np.std(gain * wanted)


def test_a_channel_that_dies(bursts: Sound) -> None:
    """When a plug comes loose, the other channel has taken over within six seconds, without a step."""
    sound = np.tile(bursts, 3)
    dies = sound.copy()
    dies[32_000:] = 0
    mix = mixed([sound, dies])
    assert pytest.approx(float(np.std(sound[-16_000:])), rel=0.15) == float(np.std(mix[-16_000:]))
    assert np.abs(np.diff(mix)).max() <= np.abs(np.diff(sound)).max() * 1.01


def test_bangs_on_a_dead_channel(bursts: Sound) -> None:
    """A loose plug that bangs at full scale now and then does not draw the mix to its side."""
    sound = np.tile(bursts, 3)
    loose = np.zeros_like(sound)
    loose[:: 16_000 * 2] = 1.0
    mix = mixed([sound, loose])[32_000:]
    assert pytest.approx(float(np.std(sound[32_000:])), rel=0.25) == float(np.std(mix))


def test_silence_and_nothing() -> None:
    """Silence stays silence, and no samples give none."""
    assert 0 == np.abs(mixed([np.zeros(8000, np.float32)] * 2)).max()
    assert 0 == len(OneChannel().mix(np.empty((0, 2), np.float32)))


def test_four_channels(bursts: Sound) -> None:
    """A film's surround sound with speech in front is as loud as the front."""
    quiet = [hiss(len(bursts), 0.001) for _ in range(2)]
    mix = mixed([bursts, bursts, *quiet])[16_000:]
    assert pytest.approx(float(np.std(bursts[16_000:])), rel=0.1) == float(np.std(mix))


def purity(mix: Sound, wanted: Sound) -> float:
    """Wanted sound over all else in the mix, in decibels."""
    gain = float(mix @ wanted / (wanted @ wanted))
    return float(20 * np.log10(np.std(gain * wanted) / np.std(mix - gain * wanted)))


@pytest.mark.parametrize(
    ("second", "least"),
    [
        (1.0, 2.5),  # maximal ratio combining of two alike gains 3 dB (Brennan 1959, from memory)
        (3.16, -0.5),  # ten times the noise: hardly worse than the good one alone
        (
            10.0,
            -3.5,
        ),  # a hundred times: still no more than 3 dB worse, for a channel that dies must be left soon
    ],
)
@pytest.mark.parametrize("noisy_first", [False, True])
def test_two_microphones(second: float, least: float, noisy_first: bool, bursts: Sound) -> None:
    """Of two microphones with noise of their own the mix is purer than one; one in the wind does next to no harm."""
    one = bursts + hiss(len(bursts), 0.01)
    other = bursts + hiss(len(bursts), 0.01 * second)
    mix = mixed([other, one] if noisy_first else [one, other])[16_000:]
    assert purity(mix, bursts[16_000:]) > purity(one[16_000:], bursts[16_000:]) + least
