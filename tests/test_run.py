"""From a recording to a walk, with a real ear, and the recordings from which none can be made."""

import json
import wave
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from saycheck.errors import EarError, SoundError
from saycheck.run import Asked, hear_file
from saycheck.walkfolder import writing

HUMAN = Path("/usr/share/pocketsphinx/test/data/goforward.raw")
"""A man says "go forward ten meters": 16 kHz, 16 bits, from the Debian package pocketsphinx-testdata."""

RATE = 16_000


@pytest.fixture
def recorded(tmp_path: Path) -> Callable[..., Path]:
    """Writes samples (16 bits) as a WAV file."""

    def write(samples: np.ndarray, name: str = "given.wav") -> Path:
        path = tmp_path / name
        with wave.open(str(path), "wb") as file:
            file.setparams((1, 2, RATE, 0, "NONE", ""))
            file.writeframes(samples.astype("<i2").tobytes())
        return path

    return write


@pytest.fixture
def human() -> np.ndarray:
    """The samples of HUMAN."""
    if not HUMAN.is_file():
        pytest.skip("the Debian package pocketsphinx-testdata is not installed")
    return np.frombuffer(HUMAN.read_bytes(), "<i2")


@pytest.mark.parametrize(
    "samples",
    [
        np.zeros(RATE // 10),
        np.zeros(RATE),
        np.zeros(20 * RATE),
        np.random.default_rng(0).normal(0, 300, 5 * RATE),
        8000 * np.sin(2 * np.pi * 440 / RATE * np.arange(3 * RATE)),
    ],
    ids=["a tenth of a second", "one silent second", "silence", "hiss", "a whistle"],
)
def test_a_recording_without_speech_is_told(recorded: Callable[..., Path], samples: np.ndarray) -> None:
    """Where nobody speaks there is no walk, but one sentence."""
    with pytest.raises(SoundError) as caught:
        hear_file(recorded(samples), Asked("wheel-loader", ears="plain"))
    assert "no speech was heard in 'given.wav'; hold the microphone closer and speak up" == str(caught.value)


@pytest.mark.sound
def test_a_recording_becomes_a_walk(recorded: Callable[..., Path], human: np.ndarray, tmp_path: Path) -> None:
    """Words have their place in the text and in the sound; the sound is kept as heard."""
    given = recorded(np.concatenate([np.zeros(2 * RATE), human]))
    told: list[tuple[float, float | None]] = []
    with writing(tmp_path / "walk") as draft:
        walk = hear_file(
            given,
            Asked("wheel-loader", ears="plain", progress=lambda *heard: told.append(heard)),
            sound=draft.sound,
        )
        draft.keep(given, given.name)
        draft.write(walk)
    words = [word.text.lower().strip(".,") for word in walk.transcript.words]
    assert ["go", "forward"] == words[:2]
    assert all(word.start_s is not None and word.start_s > 1.9 for word in walk.transcript.words)
    assert walk.transcript.words == sorted(walk.transcript.words, key=lambda word: word.start_s or 0)
    length = 2 + len(human) / RATE
    assert length == pytest.approx(walk.source.duration_s, abs=0.01)
    assert length == pytest.approx(told[-1][1], abs=0.01)
    assert ["given.wav", "sound.flac", "walk.json"] == sorted(
        path.name for path in (tmp_path / "walk").iterdir()
    )
    assert json.loads((tmp_path / "walk" / "walk.json").read_text())["made_by"]["ears"] == ["plain"]


@pytest.mark.sound
def test_a_recording_that_breaks_off_is_heard_as_far_as_it_goes(
    recorded: Callable[..., Path], human: np.ndarray
) -> None:
    """What is missing at the end is told, what is there is heard."""
    given = recorded(np.concatenate([human, np.zeros(5 * RATE)]))
    given.write_bytes(given.read_bytes()[: len(human) * 2 + 2 * RATE])
    notes: list[str] = []
    walk = hear_file(given, Asked("wheel-loader", ears="plain", note=notes.append))
    assert "forward" in walk.transcript.text.lower()
    assert ["'given.wav' stops before its own end; what there is was heard"] == notes


@pytest.mark.parametrize(
    ("ears", "model", "sentence"),
    [
        ("nobody", None, "there is no ear 'nobody'; choose one of both, builtin, plain, trade, vosk"),
        ("trade", "x", "the trade ear takes no model folder; leave out --model, or say --ear vosk"),
        ("vosk", "x", "there is no Vosk model folder x; "),
        ("both", "x", "there is no Vosk model folder x; "),
    ],
)
def test_ears_that_cannot_be_had_are_told(
    recorded: Callable[..., Path], ears: str, model: str | None, sentence: str
) -> None:
    """A wrong ear or model folder is told before anything is heard."""
    asked = Asked("wheel-loader", ears=ears, model=Path(model) if model else None)
    with pytest.raises(EarError) as caught:
        hear_file(recorded(np.zeros(RATE)), asked)
    assert str(caught.value).startswith(sentence)


def test_a_named_model_goes_before_the_builtin_ear(
    recorded: Callable[..., Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The environment's Vosk model folder is the general ear of ``both``; one that is none is an error."""
    monkeypatch.setenv("SAYCHECK_VOSK_MODEL", "elsewhere")
    with pytest.raises(EarError) as caught:
        hear_file(recorded(np.zeros(RATE)), Asked("wheel-loader"))
    assert str(caught.value).startswith("there is no Vosk model folder elsewhere; ")
