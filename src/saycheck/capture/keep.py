"""Keep the sound of a walk as it was heard: ``sound.flac``, 16 kHz, mono, 16 bits.

The file appears under its name only when it is whole. Until then it has a temporary name beside it,
and whatever goes wrong takes that away.
"""

import os
from collections.abc import Iterable, Iterator
from contextlib import suppress
from errno import EDQUOT, EFBIG, ENOSPC
from pathlib import Path
from types import TracebackType
from typing import IO, TYPE_CHECKING, Self

import numpy as np

from saycheck.errors import SoundError
from saycheck.hearing.ear import SAMPLE_RATE, Samples

if TYPE_CHECKING:
    from av.audio.frame import AudioFrame
    from av.audio.stream import AudioStream
    from av.container import OutputContainer

_FULL = {ENOSPC, EDQUOT, EFBIG}


class KeptSound:
    """Writes the sound as it passes; used as a context.

        with KeptSound(folder / "sound.flac") as kept:
            for phrase in phrases(kept.passing(blocks(recording))):
                ...

    Leaving without an error puts the sound on the disk under its name, in place of an older file of
    that name; leaving with one (Ctrl-C too) leaves nothing. ``seconds`` is how much has been written.

    Raises:
        SoundError: the folder is missing or read-only, or the disk is full.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.seconds = 0.0
        self._part = path.with_name(f".{path.name}.{os.getpid()}.part")

    def __enter__(self) -> Self:
        import av

        # FFmpeg writes through a file of ours, so that a full disk is an ordinary OSError and the
        # file can be on the disk before it gets its name.
        try:
            self._file: IO[bytes] = self._part.open("w+b")
        except OSError as error:
            raise self._refused(error) from error
        self._container: OutputContainer = av.open(self._file, "w", format="flac")
        self._stream: AudioStream = self._container.add_stream("flac", rate=SAMPLE_RATE, layout="mono")
        self._stream.codec_context.format = "s16"
        return self

    def write(self, block: Samples) -> None:
        """Add mono samples in -1..1 at 16 kHz."""
        from av.audio.frame import AudioFrame

        if not len(block):
            return
        whole = np.clip(np.rint(block * 32768), -32768, 32767).astype(np.int16)
        frame = AudioFrame.from_ndarray(whole[None], format="s16", layout="mono")
        frame.sample_rate = SAMPLE_RATE
        self._encode(frame)
        self.seconds += len(block) / SAMPLE_RATE

    def passing(self, blocks: Iterable[Samples]) -> Iterator[Samples]:
        """Write each block and hand it on."""
        for block in blocks:
            self.write(block)
            yield block

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        try:
            if kind is None:
                self._finish()
        finally:
            with suppress(Exception):  # after a failed write, closing fails once more
                self._container.close()
            with suppress(OSError):
                self._file.close()
            self._part.unlink(missing_ok=True)

    def _finish(self) -> None:
        self._encode(None)
        try:
            self._container.close()
            self._file.flush()
            os.fsync(self._file.fileno())
            self._part.replace(self.path)
        except OSError as error:
            raise self._refused(error) from error

    def _encode(self, frame: "AudioFrame | None") -> None:
        try:
            self._container.mux(self._stream.encode(frame))
        except OSError as error:
            raise self._refused(error) from error

    def _refused(self, error: OSError) -> SoundError:
        if error.errno in _FULL:
            return SoundError(f"the disk is full: '{self.path}' was not written; make room and start again")
        return SoundError(
            f"'{self.path}' cannot be written ({error.strerror}); choose a folder that you may write to"
        )
