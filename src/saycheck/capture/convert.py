"""Turn decoded frames of any layout, rate and number format into mono at 16 kHz.

soxr was chosen by measurement (soxr 1.1.0 "HQ", swresample 6.3 as PyAV 18.1 carries it, 44.1 and
48 kHz down to 16): a tone at 8.3 kHz, which must not come back as one at 7.7 kHz, is held down by
134 to 140 dB, by FFmpeg's swresample at its usual settings by 18 dB only, and soxr takes half the time.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import numpy as np

from saycheck.capture.channels import OneChannel
from saycheck.hearing.ear import SAMPLE_RATE, Samples

if TYPE_CHECKING:
    from av.audio.frame import AudioFrame

_FULL_SCALE = {"u1": 2.0**7, "i2": 2.0**15, "i4": 2.0**31, "i8": 2.0**63}


class Converter:
    """Takes frames in, gives 16 kHz mono out; layout, rate and number format may change on the way.

    Frames are short (a fiftieth of a second), so about half a second of them is worked on at a time.
    """

    def __init__(self) -> None:
        self._setup: tuple[int, int] | None = None
        self._waiting: list[Samples] = []
        self._count = 0
        self._resampler: Any = None
        self._one_channel = OneChannel()

    def convert(self, frame: "AudioFrame") -> Iterator[Samples]:
        """Take one frame in and yield what is ready."""
        import soxr

        sound = _as_float(frame)
        setup = (frame.sample_rate, sound.shape[1])
        if setup != self._setup:  # streams do change: AAC finds its second channel after the first frame
            yield from self.finish()
            self._setup = setup
            self._one_channel = OneChannel()
            self._resampler = soxr.ResampleStream(
                setup[0], SAMPLE_RATE, setup[1], dtype="float32", quality="HQ"
            )
        self._waiting.append(sound)
        self._count += len(sound)
        if self._count >= setup[0] // 2:
            yield self._mixed(last=False)

    def finish(self) -> Iterator[Samples]:
        """Yield what is still waiting or inside the resampler."""
        if self._setup is not None:
            yield self._mixed(last=True)

    def _mixed(self, last: bool) -> Samples:
        channels = self._setup[1] if self._setup else 1
        waiting = np.concatenate(self._waiting) if self._waiting else np.empty((0, channels), np.float32)
        self._waiting, self._count = [], 0
        sound = self._resampler.resample_chunk(waiting, last=last).reshape(-1, channels)
        return np.clip(self._one_channel.mix(sound), -1, 1)


def _as_float(frame: "AudioFrame") -> Samples:
    """Samples of a frame as (samples, channels), full scale 1."""
    values = frame.to_ndarray()
    sound = values.T if frame.format.is_planar else values.reshape(frame.samples, -1)
    if sound.dtype.kind == "f":
        finite: Samples = np.nan_to_num(np.clip(sound, -4, 4)).astype(np.float32)
        return finite
    scale = _FULL_SCALE[sound.dtype.str[1:]]
    middle = scale if sound.dtype.kind == "u" else 0.0
    return ((sound.astype(np.float64) - middle) / scale).astype(np.float32)
