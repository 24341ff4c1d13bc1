"""The microphone: which one, and its sound by way of PortAudio into a ring.

The callback runs in PortAudio's own thread. It copies into memory that was set aside before and counts;
it never waits, prints or asks for memory of size.
"""

import time
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

import numpy as np

from saycheck.capture.channels import OneChannel
from saycheck.capture.ring import Frames, Ring
from saycheck.errors import SoundError
from saycheck.hearing.ear import SAMPLE_RATE

HELD_S = 30.0
"""Sound that fits into the ring: so long may the disk keep us waiting, seconds."""

SILENT_S = 1.5
"""No sound for so long, not even silence, means that the microphone is gone, seconds."""

FIRST_S = 6.0
"""So long may the first sound take: a sound server fills its own buffer first."""

LATENCY_S = 0.1
"""What is asked of PortAudio: nobody waits for an echo here, and fewer callbacks are fewer overruns."""


@dataclass(frozen=True)
class Device:
    """One input of this computer as PortAudio lists it."""

    number: int
    name: str
    channels: int
    rate: float


class Microphone:
    """An open microphone; ``take`` gives what came in since the last time, mono at 16 kHz.

    Raises:
        SoundError: there is no microphone, none of that name, or it cannot be opened.
    """

    def __init__(self, name: str | None = None) -> None:
        self._library = portaudio()
        self.device = chosen(inputs(self._library), self._default(), name)
        self.overruns = 0
        self._last = time.monotonic()
        self._stream, self.rate, channels = self._open()
        self._ring = Ring(round(HELD_S * self.rate), channels)
        self._one_channel = OneChannel()
        self._resampler: Any = None
        if self.rate != SAMPLE_RATE:
            import soxr

            self._resampler = soxr.ResampleStream(self.rate, SAMPLE_RATE, 1, dtype="float32", quality="HQ")
        self._stream.start()

    @property
    def name(self) -> str:
        return self.device.name

    @property
    def frames_in(self) -> int:
        """Frames that the sound card has delivered, at ``rate``."""
        return self._ring.put_so_far

    @property
    def lost_s(self) -> float:
        """Sound that found no room in the ring, seconds."""
        return self._ring.lost / self.rate

    @property
    def gone(self) -> bool:
        """Whether it has been unplugged."""
        patience = SILENT_S if self._ring.put_so_far else FIRST_S
        return not self._stream.active or time.monotonic() - self._last > patience

    def take(self) -> Frames:
        """Return the new sound as 16-bit samples, mono at 16 kHz."""
        frames = self._ring.take()
        if frames.shape[1] == 1 and self._resampler is None:
            return frames[:, 0]
        sound = self._one_channel.mix((frames / 32768).astype(np.float32))
        if self._resampler is not None:
            sound = self._resampler.resample_chunk(sound)
        return np.clip(np.rint(sound * 32768), -32768, 32767).astype(np.int16)

    def close(self) -> None:
        """Let go of it; an unplugged one may complain, and nobody needs to hear that."""
        with suppress(Exception):
            self._stream.abort()
        with suppress(Exception):
            self._stream.close()

    def _called(self, frames: Frames, _count: int, _times: object, status: Any) -> None:
        """What PortAudio calls with new sound."""
        self._last = time.monotonic()
        if status.input_overflow:
            self.overruns += 1
        self._ring.put(frames)

    def _default(self) -> int:
        try:
            return int(self._library.default.device[0])
        except (TypeError, ValueError):
            return -1

    def _open(self) -> tuple[Any, int, int]:
        """The stream, its rate and channels: 16 kHz mono where the device can, else what it has."""
        own = round(self.device.rate)
        refused = ""
        for rate, channels in (
            (SAMPLE_RATE, 1), (own, 1), (SAMPLE_RATE, self.device.channels), (own, self.device.channels)
        ):  # fmt: skip
            try:
                stream = self._library.InputStream(
                    samplerate=rate,
                    channels=min(channels, 8),
                    device=self.device.number,
                    dtype="int16",
                    latency=LATENCY_S,
                    callback=self._called,
                )
                return stream, rate, min(channels, 8)
            except self._library.PortAudioError as error:
                refused = str(error)
        raise SoundError(
            f"the microphone '{self.device.name}' cannot be opened ({refused}); "
            "close other programs that use it, or name another with --microphone"
        )


def portaudio() -> Any:
    """The sounddevice module.

    Raises:
        SoundError: PortAudio is not on this computer.
    """
    try:
        import sounddevice

        return sounddevice
    except OSError as error:
        raise SoundError("PortAudio is missing; on Debian run: apt install libportaudio2") from error


def look_again() -> None:
    """Let PortAudio list the devices anew; it does so only when it starts. No stream may be open."""
    library = portaudio()
    with suppress(Exception):
        library._terminate()
    with suppress(Exception):
        library._initialize()


def inputs(library: Any) -> list[Device]:
    """All devices that can record."""
    return [
        Device(number, str(one["name"]), int(one["max_input_channels"]), float(one["default_samplerate"]))
        for number, one in enumerate(library.query_devices())
        if one["max_input_channels"] > 0
    ]


def chosen(devices: Sequence[Device], default: int, name: str | None = None) -> Device:
    """The device called ``name`` (its number, or words of its name), else the default one, else the first.

    Raises:
        SoundError: there is none, or none of that name.
    """
    if not devices:
        raise SoundError("no microphone was found; plug one in, and look with `saycheck doctor`")
    if name is None:
        return next((one for one in devices if one.number == default), devices[0])
    wanted = name.lower()
    for one in devices:
        if wanted == str(one.number) or wanted == one.name.lower():
            return one
    fitting = [one for one in devices if wanted in one.name.lower()]
    if fitting:
        return fitting[0]
    names = ", ".join(f"{one.number} {one.name}" for one in devices)
    raise SoundError(f"there is no microphone '{name}'; there are {names}")


def opened(name: str | None = None) -> Microphone:
    """The microphone of that name, or the default one, looked for among what is plugged in now.

    Raises:
        SoundError: as for ``Microphone``.
    """
    look_again()
    return Microphone(name)
