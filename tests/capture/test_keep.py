"""The sound that is kept: whole and under its name, or not there at all."""

import errno
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from saycheck.capture.files import SoundInfo, blocks, probe
from saycheck.capture.keep import KeptSound
from saycheck.errors import SoundError

Sound = NDArray[np.float32]


def names(folder: Path) -> list[str]:
    """What a folder holds, hidden files too."""
    return sorted(path.name for path in folder.iterdir())


def test_what_is_kept_is_what_was_heard(tmp_path: Path, bursts: Sound) -> None:
    """Sixteen bits of every sample come back, and the blocks pass unchanged on the way."""
    given = [bursts[:1000], bursts[1000:1000], bursts[1000:20_000], bursts[20_000:]]
    with KeptSound(tmp_path / "sound.flac") as kept:
        passed = list(kept.passing(given))
    assert all(one is other for one, other in zip(given, passed, strict=True))
    back = np.concatenate(list(blocks(tmp_path / "sound.flac")))
    assert np.abs(back - bursts).max() <= 1 / 32767
    assert SoundInfo(4.0, "flac", 16_000, 1) == probe(tmp_path / "sound.flac")
    assert 4.0 == kept.seconds
    assert ["sound.flac"] == names(tmp_path)


def test_keeping_twice_changes_nothing(tmp_path: Path, bursts: Sound) -> None:
    """Sound that has been kept once and is heard again is the same to the last bit."""
    for before, after in (("", "first"), ("first", "second")):
        source = blocks(tmp_path / f"{before}.flac") if before else [bursts]
        with KeptSound(tmp_path / f"{after}.flac") as kept:
            for _ in kept.passing(source):
                pass
    first, second = (np.concatenate(list(blocks(tmp_path / f"{name}.flac"))) for name in ("first", "second"))
    assert np.array_equal(first, second)


def test_louder_than_full_scale(tmp_path: Path) -> None:
    """Too loud is cut off at full scale; it does not wrap round."""
    with KeptSound(tmp_path / "sound.flac") as kept:
        kept.write(np.array([2.0, -2.0, 1.0, -1.0] * 100, np.float32))
    back = np.concatenate(list(blocks(tmp_path / "sound.flac")))
    assert [1, -1, 1, -1] == np.sign(back[:4]).tolist()


@pytest.mark.parametrize("stop", [KeyboardInterrupt, SoundError("broken"), GeneratorExit])
def test_nothing_half_written(stop: Any, tmp_path: Path, bursts: Sound) -> None:
    """Ctrl-C or an error on the way leaves the folder as it was, an older sound included."""
    (tmp_path / "sound.flac").write_bytes(b"older")
    with (
        pytest.raises((KeyboardInterrupt, SoundError, GeneratorExit)),
        KeptSound(tmp_path / "sound.flac") as kept,
    ):
        kept.write(bursts)
        raise stop
    assert ["sound.flac"] == names(tmp_path)
    assert b"older" == (tmp_path / "sound.flac").read_bytes()


class FullDisk:
    """A file on a disk that takes so many bytes and no more."""

    def __init__(self, file: Any, room: int) -> None:
        self._file, self._room = file, room

    def write(self, data: bytes) -> int:
        self._room -= len(data)
        if self._room < 0:
            raise OSError(errno.ENOSPC, "No space left on device")
        return int(self._file.write(data))

    def __getattr__(self, name: str) -> Any:
        return getattr(self._file, name)


@pytest.mark.parametrize("room", [100, 20_000])
def test_full_disk(room: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, bursts: Sound) -> None:
    """Full at the header, or halfway: one sentence, and nothing left to fill the disk further."""
    real: Callable[..., Any] = Path.open
    monkeypatch.setattr(Path, "open", lambda self, *how, **more: FullDisk(real(self, *how, **more), room))
    path = tmp_path / "sound.flac"
    with pytest.raises(SoundError) as error, KeptSound(path) as kept:
        for _ in range(5):
            kept.write(bursts)
    assert f"the disk is full: '{path}' was not written; make room and start again" == str(error.value)
    assert [] == names(tmp_path)


def test_no_such_folder(tmp_path: Path) -> None:
    """A folder that is not there is named with the reason."""
    path = tmp_path / "gone" / "sound.flac"
    with pytest.raises(SoundError) as error, KeptSound(path):
        pass
    says = f"'{path}' cannot be written (No such file or directory); choose a folder that you may write to"
    assert says == str(error.value)


def test_read_only_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder one may not write to; tests may run as root, so opening is made to fail."""

    def refuse(self: Path, *_: object, **__: object) -> None:
        raise PermissionError(errno.EACCES, "Permission denied", str(self))

    monkeypatch.setattr(Path, "open", refuse)
    path = tmp_path / "sound.flac"
    with pytest.raises(SoundError) as error, KeptSound(path):
        pass
    says = f"'{path}' cannot be written (Permission denied); choose a folder that you may write to"
    assert says == str(error.value)
