"""Read any recording a phone or recorder makes, block by block, as 16 kHz mono.

PyAV (FFmpeg's libraries) takes the file apart and decodes it, ``convert`` brings it to one channel at
16 kHz. Nothing but about a second of sound is held in memory.
"""

import hashlib
from collections.abc import Generator, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from saycheck.capture.completeness import stops_early
from saycheck.capture.convert import Converter
from saycheck.errors import SoundError
from saycheck.hearing.ear import SAMPLE_RATE, Samples

if TYPE_CHECKING:
    from av.audio.frame import AudioFrame
    from av.audio.stream import AudioStream
    from av.container import InputContainer

BLOCK = SAMPLE_RATE
"""Samples in a block (the last one may be shorter)."""

GAP_S = 0.5
"""A jump in the track's own times beyond this is lost sound; sparing coders leave gaps up to 0.4 s."""


@dataclass(frozen=True)
class SoundInfo:
    """What a recording says of itself; ``duration_s`` is None where the file does not tell."""

    duration_s: float | None
    codec: str
    rate: int
    channels: int


class Blocks(Iterator[Samples]):
    """The sound of one recording, a second at a time: float32 in -1..1, mono, 16 kHz.

    After the last block ``truncated`` tells whether the recording stops before its own end (copied
    halfway, battery empty); what could be read has been given by then. ``seconds`` is how much sound
    has been given so far, and ``damaged`` in how many places inside it sound was lost.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.seconds = 0.0
        self.damaged = 0
        self.truncated = False
        self._blocks = self._read()

    def __next__(self) -> Samples:
        block = next(self._blocks)
        self.seconds += len(block) / SAMPLE_RATE
        return block

    def close(self) -> None:
        """Let go of the file before its end."""
        self._blocks.close()

    def _read(self) -> Generator[Samples, None, None]:
        held: list[Samples] = []
        count = 0
        for piece in self._mono():
            held.append(piece)
            count += len(piece)
            if count >= BLOCK:
                joined = np.concatenate(held)
                whole = count // BLOCK * BLOCK
                yield from joined[:whole].reshape(-1, BLOCK)
                held, count = [joined[whole:]], count - whole
        if count:
            yield np.concatenate(held)

    def _mono(self) -> Iterator[Samples]:
        """The decoded sound as one channel at 16 kHz, in pieces of any length."""
        converter = Converter()
        with _opened(self.path) as container:
            stream = _sound_track(container, self.path)
            end_s = 0.0
            for frame in self._frames(container, stream):
                start_s = _start_s(frame, stream, end_s)
                self.damaged += start_s > end_s + GAP_S
                end_s = start_s + frame.samples / frame.sample_rate
                yield from converter.convert(frame)
            if end_s == 0:
                why = (
                    "is damaged: none of its sound can be decoded"
                    if self.damaged
                    else "has an empty sound track"
                )
                raise SoundError(f"'{self.path}' {why}; copy it from the recorder again")
            yield from converter.finish()
            self.truncated = self.truncated or stops_early(
                self.path, container.format.name, _length_s(container, stream), end_s
            )

    def _frames(self, container: "InputContainer", stream: "AudioStream") -> Iterator["AudioFrame"]:
        """Decode packet by packet, so that one damaged packet does not lose what comes after."""
        from av.error import FFmpegError

        packets = container.demux(stream)
        failed = False
        while True:
            try:
                packet = next(packets)
                if packet.size:
                    failed = False
                yield from (frame for frame in packet.decode() if frame.samples)
            except StopIteration:
                break
            except FFmpegError:
                failed = True
                self.damaged += 1
        if failed:  # the last piece is not whole: the file ends inside it
            self.damaged -= 1
            self.truncated = True


def blocks(path: Path) -> Blocks:
    """Return the sound of a recording, streamed; see ``Blocks``.

    Raises:
        SoundError: while iterating; the file is missing, a folder, empty, not to be read, holds no
            sound, or nothing of its sound can be decoded.
    """
    return Blocks(path)


def probe(path: Path) -> SoundInfo:
    """Return what a recording says of itself without decoding it.

    Raises:
        SoundError: as for ``blocks``.
    """
    with _opened(path) as container:
        stream = _sound_track(container, path)
        return SoundInfo(
            _length_s(container, stream), stream.codec_context.name, stream.rate, stream.channels
        )


def sha256(path: Path) -> str:
    """Return the SHA-256 of the file's bytes as 64 hexadecimal digits.

    Raises:
        SoundError: the file is missing, a folder or not to be read.
    """
    _look(path)
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _look(path: Path) -> bytes:
    """Return the first bytes of the file, so that every plain reason for not reading it has its sentence."""
    try:
        with path.open("rb") as file:
            return file.read(64)
    except FileNotFoundError:
        raise SoundError(f"there is no file '{path}'; check its name and folder") from None
    except IsADirectoryError:
        raise SoundError(f"'{path}' is a folder; name the recording in it") from None
    except PermissionError:
        raise SoundError(
            f"'{path}' may not be read; change its permissions or copy it to a folder of yours"
        ) from None
    except OSError as error:
        raise SoundError(
            f"'{path}' cannot be read ({error.strerror}); copy it to this computer's disk first"
        ) from error


@contextmanager
def _opened(path: Path) -> Iterator["InputContainer"]:
    import av
    from av.error import FFmpegError

    head = _look(path)
    if not head:
        raise SoundError(f"'{path}' is empty (0 bytes); copy it from the recorder again")
    try:
        # "file:" keeps a colon in the name from being taken for a network address, and the list
        # keeps a playlist from fetching anything.
        container = av.open(f"file:{path}", options={"protocol_whitelist": "file"}, metadata_errors="replace")
    except (FFmpegError, ValueError) as error:
        if head[4:8] == b"ftyp":  # the table of contents of m4a, mp4 and 3gp is written last
            raise SoundError(
                f"'{path}' breaks off before its end and cannot be opened; copy it from the recorder again"
            ) from error
        raise SoundError(
            f"'{path}' is not a recording (or a damaged one); save the sound as m4a, wav, flac, mp3 or ogg"
        ) from error
    with container:
        yield container


def _sound_track(container: "InputContainer", path: Path) -> "AudioStream":
    stream = container.streams.best("audio")
    if stream is None:
        raise SoundError(
            f"there is no sound in '{path}' (a picture, a text or a silent video); choose a recording"
        )
    if stream.codec_context is None:
        raise SoundError(
            f"'{path}' holds sound in a coding that is not known here; save it as m4a, wav, flac, mp3 or ogg"
        )
    return stream  # type: ignore[return-value]


def _length_s(container: "InputContainer", stream: "AudioStream") -> float | None:
    """Length in seconds by the track's own word, else by the file's."""
    if stream.duration is not None and stream.time_base is not None:
        return float(stream.duration * stream.time_base)
    return container.duration / 1_000_000 if container.duration is not None else None


def _start_s(frame: "AudioFrame", stream: "AudioStream", end_s: float) -> float:
    """Where a frame starts, in seconds from the start of the track; ``end_s`` is where the last one ended."""
    if frame.pts is None or frame.time_base is None:
        return end_s
    return max(end_s, float((frame.pts - (stream.start_time or 0)) * frame.time_base))
