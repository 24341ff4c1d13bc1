"""Recording in a process of its own, so that nothing else the program does can hold up the sound.

The recorder takes sound from a source and puts it into a ``Recording``; ``Recorder`` is its handle. The two
share a few numbers and sentences in memory, which neither side ever waits for. Whoever wants the sound
follows the file. When the program is gone, however it went, the recorder closes the file and leaves.
"""

import ctypes
import multiprocessing
import os
import signal
import time
from collections.abc import Callable
from contextlib import suppress
from multiprocessing.sharedctypes import RawValue
from pathlib import Path
from types import TracebackType
from typing import Any, Protocol, Self

import numpy as np

from saycheck.capture.recording import Recording
from saycheck.capture.ring import Frames
from saycheck.errors import SaycheckError, SoundError

TURN_S = 0.05
"""Between two looks at the ring, seconds."""

SYNC_S = 0.2
"""What is in the file is on the disk this much later at the latest, seconds (and what the disk needs)."""

AGAIN_S = 1.0
"""Between two tries to find a microphone that is gone, or room on a full disk, seconds."""


class Source(Protocol):
    """Where sound comes from; a ``Microphone`` is one."""

    @property
    def name(self) -> str: ...

    @property
    def overruns(self) -> int: ...

    @property
    def lost_s(self) -> float: ...

    @property
    def gone(self) -> bool: ...

    @property
    def frames_in(self) -> int: ...

    def take(self) -> Frames: ...

    def close(self) -> None: ...


OpenSource = Callable[[], Source]
"""Opens the source, anew after it was gone; picklable, for it is called in the recorder's process."""


class Told(ctypes.Structure):
    """What the two processes share."""

    _fields_ = (
        ("stop", ctypes.c_int),
        ("ready", ctypes.c_int),
        ("here", ctypes.c_int),
        ("frames_in", ctypes.c_longlong),
        ("kept", ctypes.c_longlong),
        ("overruns", ctypes.c_longlong),
        ("times_gone", ctypes.c_longlong),
        ("lost_s", ctypes.c_double),
        ("device", ctypes.c_char * 128),
        ("trouble", ctypes.c_char * 400),
    )


class Recorder:
    """Starts recording into ``path`` and tells how it goes; used as a context.

    Raises:
        SoundError: on entering; no sound can be had at all, or the file cannot be made.
    """

    def __init__(self, path: Path, open_source: OpenSource) -> None:
        self.path = path
        self._told: Any = RawValue(Told)
        context = multiprocessing.get_context("spawn")
        self._process = context.Process(
            target=_record, args=(path, open_source, self._told, os.getpid()), name="saycheck-recorder"
        )

    def __enter__(self) -> Self:
        self._process.start()
        while not self._told.ready and self._process.is_alive():
            time.sleep(0.01)
        if not self._told.ready:
            self._process.join()
            raise SoundError(self.trouble or "recording could not be started; look with `saycheck doctor`")
        return self

    @property
    def pid(self) -> int | None:
        return self._process.pid

    @property
    def ended(self) -> bool:
        """Whether nothing more will come into the file."""
        return not self._process.is_alive()

    @property
    def device(self) -> str:
        """The name of the microphone in use."""
        return str(self._told.device.decode("utf-8", "replace"))

    @property
    def trouble(self) -> str:
        """What is wrong right now, one sentence; empty while all is well."""
        return str(self._told.trouble.decode("utf-8", "replace"))

    @property
    def here(self) -> bool:
        """Whether sound comes in."""
        return bool(self._told.here)

    @property
    def frames_in(self) -> int:
        """Frames that came out of the source, at its own rate."""
        return int(self._told.frames_in)

    @property
    def kept(self) -> int:
        """Samples in the file."""
        return int(self._told.kept)

    @property
    def overruns(self) -> int:
        """How often the sound card had to throw sound away, as it says."""
        return int(self._told.overruns)

    @property
    def times_gone(self) -> int:
        """How often the microphone was gone."""
        return int(self._told.times_gone)

    @property
    def lost_s(self) -> float:
        """Sound that came in and could not be kept, seconds."""
        return float(self._told.lost_s)

    def stop(self) -> None:
        """Ask it to write what it holds, close the file and leave; returns at once."""
        self._told.stop = 1

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.stop()
        self._process.join(5.0)
        if self._process.is_alive():  # PortAudio hangs now and then on a device that is gone
            self._process.kill()
            self._process.join()


def _record(path: Path, open_source: OpenSource, told: Any, parent: int) -> None:
    """What runs in the recorder's process."""
    for name in ("SIGINT", "SIGTERM", "SIGHUP"):  # the program decides when to stop, not the terminal
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), signal.SIG_IGN)
    _no_chatter()
    try:
        source = open_source()
        recording = Recording(path)
    except SaycheckError as error:
        told.trouble = _short(str(error), 399)
        return
    work = _Work(source, open_source, recording, told)
    told.ready = 1
    while not told.stop and os.getppid() == parent:
        work.turn()
        time.sleep(TURN_S)
    work.finish()


def _no_chatter() -> None:
    """PortAudio writes about a device that is gone to standard error, in the middle of the screen."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 2)
    os.close(nowhere)


class _Work:
    """One turn after another: sound from the source into the file, and what to do when either fails."""

    def __init__(self, source: Source, open_source: OpenSource, recording: Recording, told: Any) -> None:
        self._source: Source | None = source
        self._open_source = open_source
        self._recording = recording
        self._told = told
        self._waiting = np.empty(0, np.int16)
        self._unsynced_since: float | None = None
        self._again_at = 0.0
        self._frames_before = 0
        self._overruns_before = 0
        self._lost_before = 0.0
        self._dropped_s = 0.0
        self._gone = self._full = ""
        self._tell()

    def turn(self) -> None:
        """Take what has come, write it, and look after the source."""
        now = time.monotonic()
        if self._source is not None:
            self._keep(self._source.take(), now)
            if self._source.gone:
                self._let_go()
        elif now >= self._again_at:
            self._again_at = now + AGAIN_S
            self._try_again()
        if self._unsynced_since is not None and now - self._unsynced_since >= SYNC_S:
            self._sync()
        self._tell()

    def finish(self) -> None:
        """Write the rest and close."""
        if self._source is not None:
            self._keep(self._source.take(), float("inf"))
            self._source.close()
        self._recording.close()
        self._tell()

    def _keep(self, sound: Frames, now: float) -> None:
        if self._full and now < self._again_at:
            self._hold(sound)
            return
        waiting = np.concatenate([self._waiting, sound]) if len(self._waiting) else sound
        if not len(waiting):
            return
        before = self._recording.samples
        self._full = self._recording.append(waiting) or ""
        self._waiting = np.empty(0, np.int16)
        if self._full:
            self._again_at = now + AGAIN_S
            self._hold(waiting[self._recording.samples - before :])
        if self._recording.samples > before and self._unsynced_since is None:
            self._unsynced_since = time.monotonic()

    def _hold(self, sound: Frames) -> None:
        """Keep in memory what the disk has no room for, the newest half minute of it at most."""
        from saycheck.capture.microphone import HELD_S
        from saycheck.hearing.ear import SAMPLE_RATE

        held = np.concatenate([self._waiting, sound])
        most = round(HELD_S * SAMPLE_RATE)
        self._dropped_s += max(len(held) - most, 0) / SAMPLE_RATE
        self._waiting = held[-most:]

    def _sync(self) -> None:
        self._unsynced_since = None
        try:
            self._recording.sync()
        except OSError as error:
            from saycheck.capture.recording import why_refused

            self._full = why_refused(self._recording.path, error)

    def _let_go(self) -> None:
        assert self._source is not None
        self._frames_before += self._source.frames_in
        self._overruns_before += self._source.overruns
        self._lost_before += self._source.lost_s
        self._gone = f"the microphone '{self._source.name}' is gone; plug it in again"
        self._source.close()
        self._source = None
        self._told.times_gone += 1

    def _try_again(self) -> None:
        with suppress(SaycheckError):
            self._source = self._open_source()
            self._gone = ""

    def _tell(self) -> None:
        source, told = self._source, self._told
        told.here = source is not None
        told.kept = self._recording.samples
        told.frames_in = self._frames_before + (source.frames_in if source else 0)
        told.overruns = self._overruns_before + (source.overruns if source else 0)
        told.lost_s = self._lost_before + (source.lost_s if source else 0.0) + self._dropped_s
        if source is not None:
            told.device = _short(str(source.name), 127)
        told.trouble = _short(self._gone or self._full, 399)


def _short(text: str, most: int) -> bytes:
    return text.encode("utf-8")[:most]
