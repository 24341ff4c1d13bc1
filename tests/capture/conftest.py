"""Sound made on the fly: no recording is kept in the repository for these tests."""

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

Sound = NDArray[np.float32]

RATE = 16_000


@pytest.fixture(scope="session")
def bursts() -> Sound:
    """Tones of 300 to 3000 Hz that come and go six times a second: sound with an outline of its own."""
    time = np.arange(4 * RATE) / RATE
    outline = np.repeat(np.random.default_rng(5).uniform(0.05, 1.0, 24), RATE // 6 + 1)[: len(time)]
    tones = sum(np.sin(2 * np.pi * hertz * time) for hertz in (300, 700, 1300, 2100, 3000))
    return (0.15 * outline * tones).astype(np.float32)


def _outline(sound: Sound) -> NDArray[np.float64]:
    """Level of each 20 ms at 16 kHz."""
    frames = sound[: len(sound) // 320 * 320].reshape(-1, 320).astype(np.float64)
    level: NDArray[np.float64] = np.sqrt(np.mean(frames**2, axis=1))
    return level


@pytest.fixture(scope="session")
def likeness() -> Callable[[Sound, Sound], float]:
    """Correlation of the outlines of two sounds, 1 where they are the same; up to 100 ms of delay pass."""

    def alike(one: Sound, other: Sound) -> float:
        first, second = _outline(one), _outline(other)
        count = min(len(first), len(second)) - 5
        return max(
            float(np.corrcoef(first[ahead : ahead + count], second[behind : behind + count])[0, 1])
            for ahead, behind in [(late, 0) for late in range(6)] + [(0, late) for late in range(1, 6)]
        )

    return alike


Spoken = Callable[..., Sound]


@pytest.fixture(scope="session")
def spoken(tmp_path_factory: pytest.TempPathFactory) -> Spoken:
    """Says a text with one of the synthetic voices; skips the test where its program is missing."""
    from speak import VOICES, speak

    cache = tmp_path_factory.mktemp("voices")

    def say(text: str, voice: str = "rms") -> Sound:
        program = {"festival": "festival", "flite": "flite", "espeak": "espeak-ng"}[VOICES[voice].engine]
        if shutil.which(program) is None:
            pytest.skip(f"{program} is not installed")
        return speak(text, voice, cache=cache)

    return say


Encode = Callable[..., Path]


@pytest.fixture
def encode(tmp_path: Path) -> Encode:
    """Writes a sound file with PyAV; skips the test where the encoder is missing."""
    import av
    import soxr
    from av.codec.codec import UnknownCodecError

    def write(
        name: str,
        sound: Sound,
        codec: str,
        rate: int = RATE,
        channels: int = 1,
        form: str | None = None,
        container: str | None = None,
        pictures: bool = False,
        options: dict[str, str] | None = None,
    ) -> Path:
        """``sound`` is mono or (samples, channels) at 16 kHz; ``form`` the encoder's number format."""
        path = tmp_path / name
        given = np.asarray(soxr.resample(sound, RATE, rate) if rate != RATE else sound, np.float32)
        given = given[:, None] if given.ndim == 1 else given
        given = np.repeat(given, channels, axis=1) if given.shape[1] == 1 else given
        layout = {1: "mono", 2: "stereo", 4: "4.0"}[channels]
        try:
            with av.open(str(path), "w", format=container, container_options=options or {}) as file:
                track: Any = file.add_stream(codec, rate=rate, layout=layout)
                if form:
                    track.codec_context.format = form
                if pictures:
                    film = file.add_stream("mpeg4", rate=5)
                    film.width = film.height = 32
                    film.pix_fmt = "yuv420p"
                    for _ in range(int(len(sound) / RATE * 5)):
                        picture = av.VideoFrame.from_ndarray(np.zeros((32, 32, 3), np.uint8), format="rgb24")
                        file.mux(film.encode(picture))
                    file.mux(film.encode(None))
                frame = av.AudioFrame.from_ndarray(
                    np.ascontiguousarray(given.reshape(1, -1)), format="flt", layout=layout
                )
                frame.sample_rate = rate
                file.mux(track.encode(frame))
                file.mux(track.encode(None))
        except UnknownCodecError:
            pytest.skip(f"this PyAV has no {codec} encoder")
        return path

    return write
