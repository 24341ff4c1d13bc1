"""The file that sound is recorded into while it is spoken: a wav that is valid at any moment.

Until it is closed its header says "as long as it goes on" (the largest sizes, as a streamed wav has them);
every reader then takes what is there. Closing writes the true sizes. Nothing is ever held back: what is
appended can be read by another process at once, and ``sync`` waits until it is on the disk.
"""

import os
import struct
import time
from collections.abc import Callable, Iterator
from errno import EDQUOT, EFBIG, ENOSPC
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from saycheck.errors import SoundError
from saycheck.hearing.ear import SAMPLE_RATE, Samples
from saycheck.lasting import sync

Whole = NDArray[np.int16]

HEADER = 44
"""Bytes before the sound."""

ENDLESS = 2**32 - 1
"""The size that a streamed wav claims."""

BLOCK_S = 1.0
"""Most that ``following`` yields at once, seconds."""

_FULL = {ENOSPC, EDQUOT, EFBIG}
_WIDTH = 2


class Recording:
    """A new wav, mono, 16 kHz, 16 bits, that grows; ``samples`` is how many are in it.

    Raises:
        SoundError: there is such a file already, or it cannot be made.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.samples = 0
        try:
            self._file = path.open("xb", buffering=0)
            self._file.write(_header(ENDLESS))
            self.sync()
            sync(path.parent)
        except OSError as error:
            raise SoundError(why_refused(path, error)) from error

    def append(self, sound: Whole) -> str | None:
        """Add samples; None where all are in the file, else one sentence on why not.

        What could be written before the disk refused stays; ``samples`` tells how much that was.
        """
        left = memoryview(sound.astype("<i2").tobytes())
        try:
            while left:
                left = left[self._file.write(left) :]
        except OSError as error:
            self._drop_half_a_sample()
            return why_refused(self.path, error)
        finally:
            self.samples += (sound.size * _WIDTH - len(left)) // _WIDTH
        return None

    def sync(self) -> None:
        """Wait until all of it is on the disk."""
        os.fsync(self._file.fileno())

    def close(self) -> None:
        """Write the true sizes and let go of the file; a disk that refuses leaves it a streamed one."""
        try:
            self._file.seek(0)
            self._file.write(_header(self.samples * _WIDTH))
            self.sync()
        except OSError:
            pass  # it can be read all the same
        finally:
            self._file.close()

    def _drop_half_a_sample(self) -> None:
        size = os.fstat(self._file.fileno()).st_size
        if (size - HEADER) % _WIDTH:
            os.ftruncate(self._file.fileno(), size - 1)
            self._file.seek(0, os.SEEK_END)


def following(path: Path, ended: Callable[[], bool], pause_s: float = 0.03) -> Iterator[Samples]:
    """Yield the sound of a growing recording as it comes, -1..1 at 16 kHz, up to ``BLOCK_S`` at a time.

    The end is where nothing more comes and ``ended`` says so. The file is what holds the sound until it is
    taken: whoever follows slowly loses nothing and needs no memory.

    Raises:
        SoundError: the file cannot be read.
    """
    try:
        with path.open("rb") as file:
            file.seek(HEADER)
            half = b""
            while True:
                over = ended()  # asked before reading, so that what came before the end is read
                data = half + file.read(int(BLOCK_S * SAMPLE_RATE) * _WIDTH)
                whole = len(data) // _WIDTH * _WIDTH
                half = data[whole:]
                if whole:
                    yield np.frombuffer(data[:whole], "<i2").astype(np.float32) / np.float32(32768)
                elif over:
                    return
                else:
                    time.sleep(pause_s)
    except OSError as error:
        raise SoundError(f"'{path}' cannot be read ({error.strerror}); check who may read it") from error


def length_s(path: Path) -> float:
    """How much sound is in a recording, seconds, whether it was closed or not; 0 where there is no file."""
    try:
        return max(path.stat().st_size - HEADER, 0) // _WIDTH / SAMPLE_RATE
    except OSError:
        return 0.0


def why_refused(path: Path, error: OSError) -> str:
    """One sentence on why a recording was not written."""
    if error.errno in _FULL:
        return f"the disk is full: nothing more of the sound goes to '{path}'; make room at once"
    if isinstance(error, FileExistsError):
        return f"there is a recording '{path}' already; name another folder with --out"
    return f"'{path}' cannot be written ({error.strerror}); choose a folder that you may write to"


def _header(size: int) -> bytes:
    """RIFF WAVE, PCM, one channel (Multimedia Programming Interface and Data Specifications 1.0, 1991)."""
    whole = min(size + HEADER - 8, ENDLESS)
    rate = SAMPLE_RATE
    return struct.pack(
        "<4sI4s4sIHHIIHH4sI",
        b"RIFF", whole, b"WAVE", b"fmt ", 16, 1, 1, rate, rate * _WIDTH, _WIDTH, 8 * _WIDTH, b"data", size,
    )  # fmt: skip
