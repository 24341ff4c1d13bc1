"""Whatever a phone or recorder makes is read as the same sound, block by block."""

import hashlib
import wave
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from saycheck.capture.files import BLOCK, Blocks, SoundInfo, blocks, probe, sha256
from saycheck.hearing.ear import SAMPLE_RATE

Sound = NDArray[np.float32]
Encode = Callable[..., Path]
Likeness = Callable[[Sound, Sound], float]


def read(path: Path) -> Sound:
    """All blocks of a recording, joined."""
    return np.concatenate(list(blocks(path)))


@pytest.mark.parametrize(
    ("name", "codec", "settings"),
    [
        ("phone.m4a", "aac", {"rate": 44_100}),
        ("phone stereo.m4a", "aac", {"rate": 48_000, "channels": 2}),
        ("phone.3gp", "libopencore_amrnb", {"rate": 8_000}),
        ("phone aac.3gp", "aac", {"rate": 16_000}),
        ("old phone.amr", "libopencore_amrnb", {"rate": 8_000}),
        ("recorder.mp3", "libmp3lame", {"rate": 44_100}),
        ("recorder.flac", "flac", {}),
        ("recorder 24.flac", "flac", {"rate": 48_000, "form": "s32"}),
        ("message.ogg", "libopus", {"rate": 48_000}),
        ("message.opus", "libopus", {"rate": 48_000}),
        ("browser.webm", "libopus", {"rate": 48_000}),
        ("lowest.wav", "pcm_s16le", {"rate": 8_000}),
        ("odd.wav", "pcm_s16le", {"rate": 11_025}),
        ("cd.wav", "pcm_s16le", {"rate": 44_100, "channels": 2}),
        ("highest.wav", "pcm_s16le", {"rate": 96_000}),
        ("bytes.wav", "pcm_u8", {}),
        ("24 bit.wav", "pcm_s24le", {"rate": 48_000}),
        ("32 bit.wav", "pcm_s32le", {"rate": 48_000}),
        ("float.wav", "pcm_f32le", {"rate": 48_000}),
        ("double.wav", "pcm_f64le", {}),
        ("telephone.wav", "pcm_mulaw", {"rate": 8_000}),
        ("film.mp4", "aac", {"rate": 44_100, "pictures": True}),
        ("film.mov", "aac", {"rate": 48_000, "channels": 2, "pictures": True}),
        ("surround.m4a", "aac", {"rate": 48_000, "channels": 4}),
    ],
)
def test_every_format_holds_the_same_sound(
    name: str, codec: str, settings: dict[str, object], encode: Encode, bursts: Sound, likeness: Likeness
) -> None:
    """Length within 0.1 s, outline as given and level within 2.5 dB (AMR is the coarsest)."""
    path = encode(name, bursts, codec, **settings)
    sound = read(path)
    assert pytest.approx(len(bursts) / SAMPLE_RATE, abs=0.1) == len(sound) / SAMPLE_RATE
    assert likeness(bursts, sound) > 0.9
    assert pytest.approx(0, abs=2.5) == 20 * np.log10(sound.std() / bursts.std())
    assert np.float32 == sound.dtype


@pytest.mark.parametrize("rate", [8_000, 16_000, 22_050, 44_100, 48_000, 96_000])
def test_a_tone_keeps_its_pitch(rate: int, encode: Encode) -> None:
    """A kilohertz stays one at every sampling rate, and nothing else is heard."""
    tone = (0.5 * np.sin(2 * np.pi * 1000 * np.arange(2 * SAMPLE_RATE) / SAMPLE_RATE)).astype(np.float32)
    sound = read(encode("tone.wav", tone, "pcm_f32le", rate=rate))[SAMPLE_RATE // 2 :][:SAMPLE_RATE]
    spectrum = np.abs(np.fft.rfft(sound * np.hanning(len(sound))))
    assert 1000 == int(spectrum.argmax())
    assert spectrum[1010:].max() < spectrum.max() / 1000


def test_what_lies_above_8_khz_does_not_come_back_below(tmp_path: Path) -> None:
    """A tone of 9 kHz at 48 kHz must not be heard as one of 7 kHz: 80 dB down at least."""
    tone = 0.5 * np.sin(2 * np.pi * 9000 * np.arange(48_000) / 48_000)
    path = tmp_path / "whistle.wav"
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(48_000)
        file.writeframes((tone * 32767).astype("<i2").tobytes())
    assert np.sqrt(np.mean(np.square(read(path)[2000:-2000]))) < 0.5 / np.sqrt(2) / 10_000


@pytest.mark.parametrize("name", ["music.mp3", "walk", "walk.txt", "a:b.m4a", "Hof – Süd.amr"])
def test_the_name_does_not_matter(
    name: str, encode: Encode, bursts: Sound, tmp_path: Path, likeness: Likeness
) -> None:
    """A wrong or missing extension, a colon or an umlaut: what is in the file counts."""
    path = encode("right.flac", bursts, "flac").rename(tmp_path / name)
    assert likeness(bursts, read(path)) > 0.999


def test_float_beyond_full_scale_and_not_a_number(tmp_path: Path, encode: Encode) -> None:
    """A 32-bit float recorder may write anything; what comes out is a number from -1 to 1."""
    odd = np.full(SAMPLE_RATE, 0.25, np.float32)
    odd[100:200] = np.nan
    odd[300:400] = 20
    odd[500:600] = -np.inf
    sound = read(encode("odd.wav", odd, "pcm_f32le"))
    assert np.isfinite(sound).all()
    assert (1.0, -1.0) == (sound.max(), sound.min())
    assert 0.25 == sound[SAMPLE_RATE // 2]


def test_blocks_last_a_second(encode: Encode, bursts: Sound) -> None:
    """All blocks but the last hold a second, and the time given is counted."""
    heard = blocks(encode("four and a half.wav", np.append(bursts, bursts[:8000]), "pcm_s16le"))
    assert [BLOCK, BLOCK, BLOCK, BLOCK, BLOCK // 2] == [len(block) for block in heard]
    assert 4.5 == heard.seconds
    assert (False, 0) == (heard.truncated, heard.damaged)


def test_blocks_can_be_let_go(encode: Encode, bursts: Sound) -> None:
    """Whoever stops early closes the file, and gets no more of it."""
    heard = blocks(encode("long.wav", bursts, "pcm_s16le"))
    next(heard)
    heard.close()
    assert [] == list(heard)


@pytest.mark.parametrize(
    ("name", "codec", "settings", "info"),
    [
        ("a.m4a", "aac", {"rate": 44_100, "channels": 2}, SoundInfo(4.0, "aac", 44_100, 2)),
        ("a.wav", "pcm_s24le", {"rate": 96_000}, SoundInfo(4.0, "pcm_s24le", 96_000, 1)),
        ("a.flac", "flac", {}, SoundInfo(4.0, "flac", 16_000, 1)),
    ],
)
def test_probe(
    name: str, codec: str, settings: dict[str, object], info: SoundInfo, encode: Encode, bursts: Sound
) -> None:
    """Length, coding, rate and channels come from the file's own word."""
    found = probe(encode(name, bursts, codec, **settings))
    assert info == replace(found, duration_s=info.duration_s)
    assert pytest.approx(info.duration_s, abs=0.03) == found.duration_s  # encoders pad


def test_a_file_that_does_not_tell_its_length(encode: Encode, bursts: Sound) -> None:
    """A browser's recording has no length in it: the probe says so, reading works."""
    path = encode("live.webm", bursts, "libopus", rate=48_000, options={"live": "1"})
    assert probe(path).duration_s is None
    heard = blocks(path)
    assert pytest.approx(4.0, abs=0.1) == sum(len(block) for block in heard) / SAMPLE_RATE
    assert not heard.truncated


def test_sha256(tmp_path: Path) -> None:
    """The digest is that of the file's bytes; the one of "abc" is from FIPS 180-2, appendix B.1."""
    path = tmp_path / "abc.wav"
    path.write_bytes(b"abc")
    assert "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" == sha256(path)
    path.write_bytes(b"a" * 3_000_000)
    assert hashlib.sha256(b"a" * 3_000_000).hexdigest() == sha256(path)


def test_memory_does_not_grow_with_length(encode: Encode) -> None:
    """Two minutes are read while no more than a few blocks are held at once."""
    import tracemalloc

    path = encode("two minutes.flac", np.zeros(120 * SAMPLE_RATE, np.float32), "flac")
    tracemalloc.start()
    heard: Blocks = blocks(path)
    assert 120 * SAMPLE_RATE == sum(len(block) for block in heard)
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert most < 2_000_000  # two minutes of float32 are 7.7 MB
