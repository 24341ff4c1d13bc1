"""Phrases: no word lost, none heard twice, cut at pauses."""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray

import saycheck.capture.phrases as module
from saycheck.capture.phrases import LONGEST_S, phrases
from saycheck.capture.voice import WINDOW
from saycheck.hearing.ear import SAMPLE_RATE, Phrase
from speak import with_noise

Sound = NDArray[np.float32]
Spoken = Callable[..., Sound]

TEXT = (
    "Left front tyre is down to three point one bar. The rim is straight. Wheel nuts are all there.\n\n"
    "Lift cylinder on this side is weeping at the gland, just damp, so watch it. Bottom step is bent."
)


def active(clean: Sound) -> NDArray[np.bool_]:
    """Which samples belong to speech: 10 ms frames above -48 dB of full scale in the sound without noise."""
    frames = clean[: len(clean) // 160 * 160].reshape(-1, 160)
    return np.repeat(np.sqrt(np.mean(frames**2, axis=1)) > 10 ** (-48 / 20), 160)


def covered(found: Sequence[Phrase], count: int) -> NDArray[np.bool_]:
    """Which samples lie in a phrase."""
    inside = np.zeros(count, bool)
    for phrase in found:
        start = round(phrase.start_s * SAMPLE_RATE)
        inside[start : start + len(phrase.samples)] = True
    return inside


def missed(found: Sequence[Phrase], clean: Sound) -> float:
    """The share of speech that lies in no phrase."""
    speech = active(clean)
    return float(np.mean(~covered(found, len(speech))[speech]))


@pytest.mark.sound
@pytest.mark.parametrize("voice", ["slt-hts", "rms", "awb", "kal16", "espeak-gb"])
def test_clean_speech(voice: str, spoken: Spoken) -> None:
    """All speech lies in phrases, with a quarter second of air round it, and the samples are the recording's."""
    sound = spoken(TEXT, voice)
    found = list(phrases([sound]))
    assert 0 == missed(found, sound)
    places = np.flatnonzero(active(sound))
    assert found[0].start_s <= places[0] / SAMPLE_RATE - 0.2
    assert found[-1].end_s >= places[-1] / SAMPLE_RATE + 0.2
    for phrase in found:
        start = round(phrase.start_s * SAMPLE_RATE)
        assert np.array_equal(sound[start : start + len(phrase.samples)], phrase.samples)
    assert all(one.end_s <= other.start_s for one, other in pairwise(found))


@pytest.mark.sound
@pytest.mark.parametrize("voice", ["slt-hts", "rms", "espeak-us"])
@pytest.mark.parametrize(
    ("noise", "snr_db", "most"),
    [("engine", 15, 0.002), ("engine", 10, 0.005), ("engine", 5, 0.04), ("pink", 10, 0.005)],
)
def test_speech_in_noise(voice: str, noise: str, snr_db: float, most: float, spoken: Spoken) -> None:
    """Beside a running engine the words are still found, and the waiting before and after them is not.

    What may be missed is what was measured of the network when it was chosen (table in ``voice.py``).
    """
    room = np.random.default_rng(8).normal(0, 0.0005, 6 * SAMPLE_RATE).astype(np.float32)
    clean = np.concatenate([room, spoken(TEXT, voice), room])
    found = list(phrases([with_noise(clean, snr_db, noise, seed=2)]))
    assert missed(found, clean) <= most
    assert covered(found, len(clean)).sum() < len(clean) - 10 * SAMPLE_RATE


@pytest.mark.sound
@pytest.mark.parametrize("gain_db", [-40, -20, 6])
def test_quiet_and_loud_recordings(gain_db: float, spoken: Spoken) -> None:
    """A recorder in a pocket gives a hundredth of the level; the phrases are the same to a few frames."""
    sound = spoken(TEXT)
    quiet = np.clip(np.rint(sound * 10 ** (gain_db / 20) * 32768) / 32768, -1, 1).astype(np.float32)
    assert missed(list(phrases([quiet])), sound) <= 0.002


@pytest.mark.sound
def test_first_and_last_word_at_the_very_ends(spoken: Spoken) -> None:
    """A recording that starts and stops in the middle of talk loses neither end."""
    sound = spoken("Bucket pins are greased and tight.")
    places = np.flatnonzero(active(sound))
    sound = sound[places[0] : places[-1] + 1]
    found = list(phrases([sound]))
    assert 0 == found[0].start_s
    assert pytest.approx(len(sound) / SAMPLE_RATE, abs=0.1) == found[-1].end_s


@pytest.mark.sound
def test_single_words(spoken: Spoken) -> None:
    """One word between long silences is a phrase of its own, with its air."""
    silence = np.zeros(3 * SAMPLE_RATE, np.float32)
    words = [spoken(word)[6000:-6000] for word in ("Good.", "Ditto.", "Horn.")]
    sound = np.concatenate([silence, words[0], silence, words[1], silence, words[2], silence])
    found = list(phrases([sound]))
    assert 3 == len(found)
    assert 0 == missed(found, sound)
    assert max(phrase.end_s - phrase.start_s for phrase in found) < 1.8


@pytest.mark.sound
def test_talk_without_a_pause(spoken: Spoken) -> None:
    """Nobody breathes for a minute: no phrase is over the limit, none is lost, cuts are at quiet places."""
    sound = spoken(" ".join([TEXT] * 4), "rms")
    speech = active(sound)
    breathless = sound[: len(speech)][np.convolve(speech, np.ones(1600), "same") > 0]  # pauses of 0.1 s stay
    found = list(phrases([breathless]))
    assert len(found) >= 2
    assert max(phrase.end_s - phrase.start_s for phrase in found) <= LONGEST_S
    assert missed(found, breathless) < 0.001
    loud = float(np.sqrt(np.mean(breathless**2)))
    for phrase in found[1:]:
        place = round(phrase.start_s * SAMPLE_RATE)
        assert np.sqrt(np.mean(breathless[place - 320 : place + 320] ** 2)) < 0.1 * loud


@pytest.mark.sound
@pytest.mark.parametrize("size", [160, 1000, 40_000])
def test_blocks_of_any_size(size: int, spoken: Spoken) -> None:
    """A microphone gives small blocks, a file large ones; the phrases are the same."""
    sound = spoken(TEXT)
    whole = [(phrase.start_s, phrase.end_s) for phrase in phrases([sound])]
    parts = phrases(sound[start : start + size] for start in range(0, len(sound), size))
    assert whole == [(phrase.start_s, phrase.end_s) for phrase in parts]


# Below, the chances of speech are made up, so that only the cutting is looked at. A window is 32 ms.


@pytest.fixture
def cut(monkeypatch: pytest.MonkeyPatch) -> Callable[[str], list[tuple[int, int]]]:
    """Cuts a row of seconds, each ``s`` speech or ``.`` pause, and gives the phrases in windows."""

    def made(chances: str) -> list[tuple[int, int]]:
        def windows(_: object) -> Iterator[tuple[Sound, float]]:
            for letter in chances:
                chance = {"s": 0.9, "w": 0.3, ".": 0.0}[letter]
                yield np.full(WINDOW, chance, np.float32), chance

        monkeypatch.setattr(module, "windows", windows)
        return [
            (round(phrase.start_s * SAMPLE_RATE / WINDOW), round(phrase.end_s * SAMPLE_RATE / WINDOW))
            for phrase in phrases([])
        ]

    return made


@pytest.mark.parametrize(
    ("chances", "expected"),
    [
        ("." * 500, []),
        ("." * 50 + "s" * 30 + "." * 60, [(41, 89)]),  # 0.3 s are 9 windows
        ("s" * 30, [(0, 30)]),
        ("." * 50 + "s" * 30 + "." * 3, [(41, 83)]),  # the end of the sound comes first
        ("." * 50 + "s" * 30 + "." * 40 + "s" * 30 + "." * 60, [(41, 159)]),  # 1.3 s, soon after the start
        ("." * 50 + "s" * 30 + "." * 50 + "s" * 30 + "." * 60, [(41, 89), (121, 169)]),  # 1.6 s
        ("s" * 400 + "." * 20 + "s" * 30 + "." * 60, [(0, 409), (411, 459)]),  # 0.6 s after 12.8 s
        (
            "s" * 600 + "." * 13 + "s" * 30 + "." * 60,
            [(0, 609), (609, 652)],
        ),  # 0.4 s after 19 s; air is shared
        ("." * 50 + "w" * 20 + "s" * 30 + "." * 60, [(41, 109)]),  # it starts softly
        ("." * 50 + "w" * 30 + "." * 60, []),
    ],
)
def test_where_phrases_end(
    chances: str, expected: list[tuple[int, int]], cut: Callable[[str], list[tuple[int, int]]]
) -> None:
    """The longer the phrase, the shorter the pause that ends it."""
    assert expected == cut(chances)


def test_endless_speech_is_cut_where_it_is_least_like_speech(
    cut: Callable[[str], list[tuple[int, int]]],
) -> None:
    """A dip too short to be a pause is where 25 s of speech are cut."""
    found = cut("s" * 600 + "www" + "s" * 400)
    assert [(0, 601), (601, 1003)] == found


def test_measure_is_given_every_window() -> None:
    """Whoever measures sees all the sound once, in order, silence too."""
    sound = np.random.default_rng(1).normal(0, 0.001, 40_000).astype(np.float32)
    seen: list[Sound] = []
    assert [] == list(phrases([sound], lambda window, chance: seen.append(window)))
    assert np.array_equal(sound, np.concatenate(seen))
