"""Files that hold no sound, or not all of it: one sentence each, and what can be read is read."""

import errno
import io
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from saycheck.capture.files import blocks, probe, sha256
from saycheck.errors import SoundError
from saycheck.hearing.ear import SAMPLE_RATE

Sound = NDArray[np.float32]
Encode = Callable[..., Path]

NOISE = np.random.default_rng(2).integers(0, 256, 20_000, dtype=np.uint8).tobytes()
SAVE = "save the sound as m4a, wav, flac, mp3 or ogg"


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("empty.m4a", b"", "is empty (0 bytes); copy it from the recorder again"),
        ("noise.mp3", NOISE, f"is not a recording (or a damaged one); {SAVE}"),
        ("page.wav", b"%PDF-1.4\n" + b"abc def\n" * 500, f"is not a recording (or a damaged one); {SAVE}"),
        ("archive.m4a", b"PK\3\4" + NOISE, f"is not a recording (or a damaged one); {SAVE}"),
        ("zeros.wav", bytes(5000), f"is not a recording (or a damaged one); {SAVE}"),
        ("one byte.ogg", b"x", f"is not a recording (or a damaged one); {SAVE}"),
        ("list.m3u8", b"#EXTM3U\n#EXTINF:9,\nhttp://localhost/a.ts\n",
         f"is not a recording (or a damaged one); {SAVE}"),
        ("cut.m4a", b"\0\0\0\x1cftypM4A \0\0\2\0" + NOISE,
         "breaks off before its end and cannot be opened; copy it from the recorder again"),
        ("header.wav",
         b"RIFF\x24\0\0\0WAVEfmt \x10\0\0\0\1\0\1\0\x80\x3e\0\0\0\x7d\0\0\2\0\x10\0data\0\0\0\0",
         "has an empty sound track; copy it from the recorder again"),
    ],
)  # fmt: skip
def test_not_a_recording(name: str, content: bytes, says: str, tmp_path: Path) -> None:
    """The message names the file, what is wrong with it and what to do."""
    path = tmp_path / name
    path.write_bytes(content)
    with pytest.raises(SoundError) as error:
        list(blocks(path))
    assert f"'{path}' {says}" == str(error.value)


@pytest.mark.parametrize(
    "ask", [lambda path: next(blocks(path)), probe, sha256], ids=["read", "probe", "sha256"]
)
def test_missing_and_folder(ask: Callable[[Path], object], tmp_path: Path) -> None:
    """A name that leads nowhere and a folder have their own sentences, whatever is asked."""
    with pytest.raises(SoundError) as error:
        ask(tmp_path / "walk.m4a")
    assert f"there is no file '{tmp_path / 'walk.m4a'}'; check its name and folder" == str(error.value)
    with pytest.raises(SoundError) as error:
        ask(tmp_path)
    assert f"'{tmp_path}' is a folder; name the recording in it" == str(error.value)


@pytest.mark.parametrize(
    ("code", "says"),
    [
        (errno.EACCES, "may not be read; change its permissions or copy it to a folder of yours"),
        (errno.EIO, "cannot be read (Input/output error); copy it to this computer's disk first"),
    ],
)
def test_unreadable(code: int, says: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Tests may run as root, who may read everything, so opening is made to fail."""

    def refuse(self: Path, *_: object, **__: object) -> io.BytesIO:
        raise OSError(code, os.strerror(code), str(self))

    path = tmp_path / "locked.m4a"
    path.touch()
    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(SoundError) as error:
        next(blocks(path))
    assert f"'{path}' {says}" == str(error.value)


def test_pictures_without_sound(tmp_path: Path) -> None:
    """A photograph or a silent film opens well but has nothing to hear."""
    import av

    path = tmp_path / "film.mp4"
    with av.open(str(path), "w") as file:
        film = file.add_stream("mpeg4", rate=5)
        film.width = film.height = 32
        film.pix_fmt = "yuv420p"
        file.mux(film.encode(av.VideoFrame.from_ndarray(np.zeros((32, 32, 3), np.uint8), format="rgb24")))
        file.mux(film.encode(None))
    with pytest.raises(SoundError) as error:
        probe(path)
    says = f"there is no sound in '{path}' (a picture, a text or a silent video); choose a recording"
    assert says == str(error.value)


@pytest.mark.parametrize(
    ("name", "codec", "settings"),
    [
        ("a.wav", "pcm_s16le", {}),
        ("a.flac", "flac", {}),
        ("a.mp3", "libmp3lame", {"rate": 44_100}),
        ("a.ogg", "libopus", {"rate": 48_000}),
        ("a.webm", "libopus", {"rate": 48_000}),
        ("a.amr", "libopencore_amrnb", {"rate": 8_000}),
        ("a.aac", "aac", {"rate": 44_100}),
        ("index first.m4a", "aac", {"rate": 44_100, "options": {"movflags": "+faststart"}}),
    ],
)
def test_truncated(name: str, codec: str, settings: dict[str, Any], encode: Encode, bursts: Sound) -> None:
    """Of a file cut at six tenths, that much is read and the end is said to be missing; whole, it is not."""
    path = encode(name, bursts, codec, **settings)
    whole = blocks(path)
    list(whole)
    assert not whole.truncated
    data = path.read_bytes()
    path.write_bytes(data[: len(data) * 6 // 10])
    cut = blocks(path)
    assert pytest.approx(2.4, abs=1.1) == sum(len(block) for block in cut) / SAMPLE_RATE
    assert cut.truncated


def test_truncated_before_its_index(encode: Encode, bursts: Sound) -> None:
    """An m4a whose recorder died has no index: nothing can be read, and the message says why."""
    path = encode("a.m4a", bursts, "aac", rate=44_100)
    path.write_bytes(path.read_bytes()[:20_000])
    with pytest.raises(SoundError) as error:
        probe(path)
    says = f"'{path}' breaks off before its end and cannot be opened; copy it from the recorder again"
    assert says == str(error.value)


@pytest.mark.parametrize(
    ("name", "codec"), [("a.mp3", "libmp3lame"), ("a.m4a", "aac"), ("a.webm", "libopus")]
)
def test_damaged_inside(name: str, codec: str, encode: Encode, bursts: Sound) -> None:
    """Scribbled over in the middle, a file still gives what comes after, and the damage is counted."""
    path = encode(name, np.tile(bursts, 3), codec, rate=48_000)
    data = bytearray(path.read_bytes())
    middle = len(data) // 2
    data[middle : middle + 400] = NOISE[:400]
    path.write_bytes(bytes(data))
    heard = blocks(path)
    assert sum(len(block) for block in heard) > 7 * SAMPLE_RATE
    assert heard.damaged > 0


@pytest.mark.parametrize("claimed", [0, 2**32 - 1])
def test_streamed_wav_is_whole(claimed: int, encode: Encode, bursts: Sound) -> None:
    """A recorder that cannot go back writes no length, or the largest; nothing is missing then."""
    path = encode("streamed.wav", bursts, "pcm_s16le")
    data = bytearray(path.read_bytes())
    data[4:8] = data[data.find(b"data") + 4 : data.find(b"data") + 8] = claimed.to_bytes(4, "little")
    path.write_bytes(bytes(data))
    heard = blocks(path)
    assert len(bursts) == sum(len(block) for block in heard)
    assert not heard.truncated
