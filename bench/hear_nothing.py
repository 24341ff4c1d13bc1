"""Words heard where nobody says any, or none in English: on noise, hammering, music, babble, other languages.

    python bench/hear_nothing.py                      a line for each kind of sound; half a minute of each
    python bench/hear_nothing.py --only engine,wind --seconds 60

Sound goes the whole way of a recording: voice activity, phrases, both ears, the fused reading, passages. Counted
for each minute: words in the transcript, those outside unclear passages (which is what is understood), and
findings made of them. Babble is six synthetic voices at once; the languages are espeak-ng's.
"""

import argparse
import sys
from collections.abc import Callable, Iterator

import numpy as np
from numpy.typing import NDArray

from hearings import opened
from narrations import TUNE, narrations
from noises import NOISES, SAMPLE_RATE, Samples
from saycheck.capture.measures import Meter
from saycheck.capture.noise import passages
from saycheck.capture.phrases import phrases
from saycheck.hearing.hear import Page
from saycheck.hearing.joining import fuse_for
from saycheck.unclear import held_back
from saycheck.understanding.pipeline import understand
from saycheck.vocabulary.load import load
from speak import Voice, speak, speak_as

KIND = "wheel-loader"

LANGUAGES = {
    "german": ("de", "Der Motor läuft und die Hydraulik ist dicht, aber der linke Reifen hat einen Schnitt."),
    "spanish": (
        "es",
        "El motor funciona bien, pero la manguera izquierda pierde aceite y falta un tornillo.",
    ),
    "french": ("fr", "Le moteur tourne bien, mais le pneu avant gauche est coupé et il manque un boulon."),
    "polish": ("pl", "Silnik pracuje dobrze, ale lewa opona jest przecięta i brakuje jednej śruby."),
}


def wind(count: int, rng: np.random.Generator) -> Samples:
    """Gusts in a microphone: noise that falls by 12 dB an octave above 60 Hz, swelling every few seconds."""
    hertz = np.fft.rfftfreq(count, 1 / SAMPLE_RATE)
    sound = np.fft.irfft(np.fft.rfft(rng.normal(size=count)) * (hertz > 10) / (1 + (hertz / 60) ** 2), count)
    return _at(sound * (1 + np.sin(2 * np.pi * np.arange(count) / SAMPLE_RATE / 4)), 0.2)


def hammering(count: int, rng: np.random.Generator) -> Samples:
    """Blows on steel about twice a second, each ringing at a few resonances."""
    sound = np.zeros(count)
    ring = np.arange(SAMPLE_RATE // 3) / SAMPLE_RATE
    for at in np.cumsum(rng.uniform(0.35, 0.8, count // 4000) * SAMPLE_RATE).astype(int):
        blow = sum(
            np.exp(-ring * rng.uniform(12, 40)) * np.sin(2 * np.pi * hz * ring)
            for hz in (640, 1530, 2710, 4100)
        )
        room = max(min(len(ring), count - at), 0)
        sound[at : at + room] += np.asarray(blow)[:room]
    return _at(sound + rng.normal(0, 0.01, count), 0.08)


def beacon(count: int, _: np.random.Generator) -> Samples:
    """A reversing alarm: 1.2 kHz, on for half of each second."""
    time = np.arange(count) / SAMPLE_RATE
    return _at(np.sin(2 * np.pi * 1200 * time) * (time % 1 < 0.5), 0.1)


def music(count: int, rng: np.random.Generator) -> Samples:
    """Like a radio: chords of a plucked sound, a melody, a beat."""
    time = np.arange(count) / SAMPLE_RATE
    sound = np.zeros(count)
    for beat in range(int(count / SAMPLE_RATE * 2)):
        start = beat * SAMPLE_RATE // 2
        length = min(SAMPLE_RATE, count - start)
        tone = time[:length]
        for step in rng.choice([0, 2, 4, 5, 7, 9, 11, 12], 3, replace=False):
            hertz = 220 * 2 ** (step / 12)
            sound[start : start + length] += sum(
                np.exp(-3 * tone) * np.sin(2 * np.pi * n * hertz * tone) / n for n in range(1, 8)
            )
        sound[start : start + length] += rng.normal(0, 1, length) * np.exp(-40 * tone)
    return _at(sound, 0.1)


def babble(count: int, _: np.random.Generator) -> Samples:
    """Six synthetic voices at once, none louder than the others."""
    texts = [one.labels.text for one in narrations(TUNE)[:6]]
    voices = ("rms", "slt", "awb", "kal16", "espeak-us", "espeak-gb")
    sounds = [speak(text[:600], voice) for text, voice in zip(texts, voices, strict=True)]
    return _at(np.sum([np.resize(one, count) for one in sounds], axis=0), 0.1)


def language(name: str) -> Callable[[int, np.random.Generator], Samples]:
    """Speech in another language."""
    code, text = LANGUAGES[name]

    def made(count: int, _: np.random.Generator) -> Samples:
        return np.resize(speak_as([text], Voice("espeak", code)), count)

    return made


SOUNDS: dict[str, Callable[[int, np.random.Generator], Samples]] = {
    "silence": lambda count, rng: rng.normal(0, 5e-4, count).astype(np.float32),
    **{name: (lambda count, rng, make=make: _at(make(count, rng), 0.1)) for name, make in NOISES.items()},
    "wind": wind,
    "hammering": hammering,
    "beacon": beacon,
    "music": music,
    "babble": babble,
    **{name: language(name) for name in LANGUAGES},
}


def _at(sound: NDArray[np.floating], level: float) -> Samples:
    """The sound at a root mean square level."""
    return np.asarray(np.clip(sound * level / np.sqrt(np.mean(np.square(sound))), -1, 1), np.float32)


def measure(names: list[str], seconds: float) -> Iterator[tuple[str, float, float, float, str]]:
    """Yield name, words, words taken for clear and findings, each a minute, and the clear words."""
    vocabulary = load(KIND)
    fuse, ears = fuse_for(vocabulary), opened(KIND, plain=False)
    for name in names:
        sound = SOUNDS[name](int(seconds * SAMPLE_RATE), np.random.default_rng(5))
        meter, page = Meter(), Page(fuse)
        for phrase in phrases([sound], meter.add):
            page.add([ear.hear(phrase) for ear in ears.values()])
        transcript = page.transcript(passages(meter.measures()))
        text, clear = held_back(transcript)
        findings = understand(text, KIND, clear).findings if clear else []
        minutes = seconds / 60
        rates = (len(transcript.words) / minutes, len(clear) / minutes, len(findings) / minutes)
        yield name, *rates, " ".join(word.text for word in clear)


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--only", help=f"of {', '.join(SOUNDS)}")
    parser.add_argument("--seconds", type=float, default=30.0)
    asked = parser.parse_args()
    print(f"{'a minute of':12}{'words':>7}{'clear':>7}{'findings':>10}")
    for name, words, clear, findings, text in measure(
        (asked.only or ",".join(SOUNDS)).split(","), asked.seconds
    ):
        print(f"{name:12}{words:7.0f}{clear:7.0f}{findings:10.0f}  {text[:150]}", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
