"""Passages: what can be trusted, what cannot, and why; and the one sentence about the whole recording."""

from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray

from noises import NOISES
from saycheck.capture.measures import Measures, Meter
from saycheck.capture.noise import CLIPPED, NOISY, UNTRUSTED_SNR_DB, WINDY, passages, verdict
from saycheck.capture.phrases import phrases
from saycheck.capture.voice import WINDOW
from saycheck.hearing.ear import SAMPLE_RATE
from saycheck.models.hearing import Passage
from speak import speech_power, with_noise

Sound = NDArray[np.float32]
Spoken = Callable[..., Sound]

TEXT = (
    "Left front tyre is down to three point one bar. The rim is straight. Wheel nuts are all there.\n\n"
    "Lift cylinder on this side is weeping at the gland, just damp, so watch it. Bottom step is bent."
)


def measured(sound: Sound) -> list[Passage]:
    """The passages of some sound, the way a recording goes."""
    meter = Meter()
    for _ in phrases([sound], meter.add):
        pass
    return passages(meter.measures())


def row(seconds: float, value: float) -> NDArray[np.float64]:
    """The same value for every window of so many seconds."""
    return np.full(round(seconds * SAMPLE_RATE / WINDOW), value)


def made_up(*parts: tuple[float, float, float, float, float]) -> Measures:
    """Measures from parts of (seconds, chance, power, rumble, near full)."""
    columns = [np.concatenate([row(part[0], part[which]) for part in parts]) for which in range(1, 5)]
    chance, power, rumble, near_full = columns
    return Measures(chance, power, rumble, near_full, len(chance) * WINDOW / SAMPLE_RATE)


SPEECH, PAUSE = 1e-2, 5e-6


@pytest.mark.parametrize(
    ("middle", "trouble"),
    [
        ((6, 0.9, SPEECH, 1e-6, 0.0), None),
        ((6, 0.9, SPEECH, 1e-6, 0.10), None),
        ((6, 0.9, SPEECH, 1e-6, 0.30), CLIPPED),
        ((6, 0.9, SPEECH, 0.1, 0.0), None),  # rumble that the ears do not mind
    ],
)
def test_trouble_of_a_passage(middle: tuple[float, ...], trouble: str | None) -> None:
    """Silence, six seconds of speech, silence: one passage each, the middle one with its trouble."""
    pause = (4.0, 0.0, PAUSE, 1e-6, 0.0)
    found = passages(made_up(pause, middle, pause))  # type: ignore[arg-type]
    assert ["silence", "speech", "silence"] == [one.kind for one in found]
    assert [None, trouble, None] == [one.trouble for one in found]
    assert pytest.approx(33, abs=0.5) == found[1].snr_db


@pytest.mark.parametrize(("above", "trouble"), [(-2, NOISY), (2, None)])
def test_the_threshold(above: float, trouble: str | None) -> None:
    """Speech two decibels below what can be trusted is not; two above, it is."""
    floor = SPEECH / 10 ** ((UNTRUSTED_SNR_DB + above) / 10)
    pause = (4.0, 0.0, floor, 1e-6, 0.0)
    found = passages(made_up(pause, (6.0, 0.9, SPEECH + floor, 1e-6, 0.0), pause))
    assert ["noise", "speech", "noise"] == [one.kind for one in found]
    assert trouble == found[1].trouble
    assert pytest.approx(UNTRUSTED_SNR_DB + above, abs=0.3) == found[1].snr_db


def test_a_gust_takes_only_its_own_words() -> None:
    """A second of wind in ten of speech parts the passage in three."""
    speech, gust = (5.0, 0.9, SPEECH, 1e-6, 0.0), (1.0, 0.9, SPEECH, 100.0, 0.0)
    pause = (2.0, 0.0, PAUSE, 1e-6, 0.0)
    found = passages(made_up(pause, speech, gust, speech, pause))
    assert [None, None, WINDY, None, None] == [one.trouble for one in found]
    assert 1.0 <= found[2].end_s - found[2].start_s <= 2.1


@pytest.mark.parametrize(
    ("power", "rumble", "trouble"),
    [(1e-3, 1e-3, None), (6e-3, 1e-3, NOISY), (6e-3, 1.0, WINDY), (1e-3, 1.0, None)],
)
def test_noise_that_would_bury_speech(power: float, rumble: float, trouble: str | None) -> None:
    """Where nobody was found to speak, noise as loud as the speech elsewhere may have hidden some."""
    waiting = (5.0, 0.0, power, rumble, 0.0)
    found = passages(made_up((5.0, 0.9, SPEECH, 1e-6, 0.0), (1.0, 0.0, PAUSE, 1e-6, 0.0), waiting))
    assert ["speech", "noise"] == [one.kind for one in found]
    assert trouble == found[1].trouble


@pytest.mark.parametrize(
    ("measures", "kinds"),
    [
        (made_up((3.0, 0.0, 0.0, 0.0, 0.0)), ["silence"]),
        (made_up((3.0, 0.0, 1e-5, 0.0, 0.0)), ["noise"]),
        (made_up((0.1, 0.9, SPEECH, 0.0, 0.0)), ["speech"]),
        (made_up((0.0, 0.0, 0.0, 0.0, 0.0)), []),
        (
            made_up((2.0, 0.9, 1e-7, 0.0, 0.0), (3.0, 0.0, 1e-11, 0.0, 0.0)),
            ["speech", "silence"],
        ),  # very quiet
    ],
)
def test_kinds(measures: Measures, kinds: list[str]) -> None:
    """Silence is told from noise by the level of the speech, where there is any."""
    assert kinds == [one.kind for one in passages(measures)]


def of(*parts: tuple[float, str, str | None]) -> list[Passage]:
    """Passages one after the other from (seconds, kind, trouble)."""
    found: list[Passage] = []
    for seconds, kind, trouble in parts:
        start = found[-1].end_s if found else 0.0
        found.append(Passage(start_s=start, end_s=start + seconds, kind=kind, trouble=trouble))
    return found


@pytest.mark.parametrize(
    ("found", "says"),
    [
        (of((10, "speech", None)), None),
        (of((60, "noise", None), (10, "speech", None)), None),  # waiting beside an engine is no fault
        (of((6, "speech", None), (4, "speech", NOISY)), None),
        (
            of((2, "speech", None), (8, "speech", NOISY)),
            "80% of the speech cannot be made out (noise as loud as the speech); "
            "record again with the engine off, or the microphone close to the mouth",
        ),
        (
            of((2, "speech", NOISY), (8, "speech", WINDY)),
            "100% of the speech cannot be made out (wind in the microphone); "
            "record again with a wind cover on the microphone, or your back to the wind",
        ),
        (
            of((4, "speech", None), (6, "speech", CLIPPED)),
            "60% of the speech cannot be made out (too loud, clipped); "
            "record again with the microphone farther from the mouth, or its level turned down",
        ),
        (
            of((60, "noise", NOISY)),
            "no speech can be made out in the recording (noise as loud as the speech); "
            "record again with the engine off, or the microphone close to the mouth",
        ),
        (
            of((60, "silence", None)),
            "no speech was found in the recording; hold the microphone closer, and check that it was on",
        ),
    ],
)
def test_verdict(found: list[Passage], says: str | None) -> None:
    """One sentence, with what would help, when most of the speech is lost; none otherwise."""
    assert says == verdict(found)


def whole(found: list[Passage], seconds: float) -> None:
    """Assert that passages follow one another from the start to the end."""
    assert 0 == found[0].start_s
    assert all(one.end_s == other.start_s for one, other in pairwise(found))
    assert pytest.approx(seconds, abs=1e-6) == found[-1].end_s


def mean_snr_db(found: list[Passage]) -> float:
    """Speech over noise of all speech, weighted by length."""
    known = [(one.snr_db, one.end_s - one.start_s) for one in found if one.snr_db is not None]
    return float(np.average([snr for snr, _ in known], weights=[length for _, length in known]))


def voice_band(sound: Sound) -> Sound:
    """What of a sound lies above 300 Hz."""
    lines = np.fft.rfft(sound)
    lines[np.fft.rfftfreq(len(sound), 1 / SAMPLE_RATE) < 300] = 0
    return np.asarray(np.fft.irfft(lines, len(sound)), np.float32)


@pytest.mark.sound
@pytest.mark.parametrize("voice", ["slt-hts", "rms", "espeak-gb"])
@pytest.mark.parametrize("noise", ["engine", "pink"])
@pytest.mark.parametrize("snr_db", [0, 5, 10, 20])
def test_speech_over_noise(snr_db: float, noise: str, voice: str, spoken: Spoken) -> None:
    """What is measured is what was mixed in, above 300 Hz, within 2 dB; noise as loud as speech reads worse.

    There the speech is what is left of two near-equal powers, so what cannot be trusted anyway may be
    told as up to 4 dB worse than it is, but never as better.
    """
    clean = spoken(TEXT, voice)
    sound = with_noise(clean, snr_db, noise, seed=4)
    found = measured(sound)
    whole(found, len(sound) / SAMPLE_RATE)
    mixed_in = 10 * np.log10(speech_power(voice_band(clean)) / np.mean(voice_band(sound - clean) ** 2))
    off = mean_snr_db(found) - mixed_in
    assert (-4 if snr_db == 0 else -2) <= off <= 2


@pytest.mark.sound
def test_clean_speech_has_no_trouble(spoken: Spoken) -> None:
    """Nothing is held against a clean recording."""
    found = measured(spoken(TEXT))
    assert {None} == {one.trouble for one in found}
    assert mean_snr_db(found) > 25
    assert verdict(found) is None


@pytest.mark.sound
def test_an_engine_started_halfway(spoken: Spoken) -> None:
    """Only what was said beside the running engine is in trouble."""
    sound = spoken(TEXT)
    loud = with_noise(sound, -2, "engine", seed=4)
    speech = [one for one in measured(np.concatenate([sound, loud])) if one.kind == "speech"]
    half = len(sound) / SAMPLE_RATE
    assert {None} == {one.trouble for one in speech if one.start_s < half}
    # Levels are taken over two seconds to each side, so that long after the engine's start both may be said.
    assert {NOISY} == {one.trouble for one in speech if one.end_s > half + 2}


@pytest.mark.sound
@pytest.mark.parametrize(("gain", "trouble"), [(2.0, None), (24.0, CLIPPED)])
def test_clipped_speech(gain: float, trouble: str | None, spoken: Spoken) -> None:
    """Turned up far beyond full scale it is in trouble, turned up to full scale it is not."""
    found = measured(np.clip(gain * spoken(TEXT), -1, 1).astype(np.float32))
    assert {trouble} == {one.trouble for one in found if one.kind == "speech"}


def wind(count: int, over_db: float, speech: Sound) -> Sound:
    """Wind in a microphone: noise that falls by 12 dB an octave above 60 Hz, so far over the speech."""
    rng = np.random.default_rng(7)
    hertz = np.fft.rfftfreq(count, 1 / SAMPLE_RATE)
    sound = np.fft.irfft(np.fft.rfft(rng.normal(size=count)) * (hertz > 10) / (1 + (hertz / 60) ** 2), count)
    loud = np.sqrt(np.mean(speech**2) * 10 ** (over_db / 10))
    return np.asarray(loud * sound / sound.std(), np.float32)


@pytest.mark.sound
@pytest.mark.parametrize(("over_db", "trouble"), [(10, None), (24, WINDY)])
def test_wind(over_db: float, trouble: str | None, spoken: Spoken) -> None:
    """Rumble alone is no trouble; a gale is, and is called by its name."""
    sound = 0.02 * spoken(TEXT)
    found = measured(np.clip(sound + wind(len(sound), over_db, sound), -1, 1).astype(np.float32))
    assert {trouble} == {one.trouble for one in found if one.kind != "silence"}


@pytest.mark.sound
def test_noise_alone() -> None:
    """An engine and nobody near it: one passage of noise, and a sentence that says what would help."""
    found = measured((0.1 * NOISES["engine"](8 * SAMPLE_RATE, np.random.default_rng(1))).astype(np.float32))
    assert ["noise"] == [one.kind for one in found]
    assert str(verdict(found)).startswith(f"no speech can be made out in the recording ({NOISY})")
