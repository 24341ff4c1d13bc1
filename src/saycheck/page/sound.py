"""The few seconds of sound that belong to an entry, cut out of ``sound.flac`` as a WAV file."""

import io
import wave
from pathlib import Path

import numpy as np

from saycheck.errors import ReviewError

LONGEST_S = 60.0
"""Seconds of the longest piece."""


def piece(path: Path, start_s: float, end_s: float) -> bytes:
    """A WAV file (16 bit, mono, at the rate of the recording) of the sound between two times in seconds.

    Raises:
        ReviewError: there is no sound, or none at that place.
    """
    import av

    if not path.is_file():
        raise ReviewError("this walk has no sound; it was read from a text")
    start_s, end_s = max(start_s, 0.0), min(end_s, start_s + LONGEST_S)
    samples: list[np.ndarray] = []
    with av.open(str(path)) as container:
        stream = container.streams.audio[0]
        rate = stream.rate or 16000
        if stream.time_base and start_s > 1:
            container.seek(int((start_s - 1) / stream.time_base), stream=stream)
        for frame in container.decode(stream):
            at = frame.time or 0.0
            if at >= end_s:
                break
            sound = frame.to_ndarray().reshape(-1)
            first, last = round((start_s - at) * rate), round((end_s - at) * rate)
            if last > 0 and first < len(sound):
                samples.append(sound[max(first, 0) : last])
    if not samples:
        raise ReviewError(f"there is no sound at {start_s:.0f} s; the recording is shorter")
    return _wav(np.concatenate(samples), rate)


def _wav(samples: np.ndarray, rate: int) -> bytes:
    if samples.dtype != np.int16:
        samples = (samples / np.iinfo(samples.dtype).max * 32767).astype(np.int16)
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(rate)
        file.writeframes(samples.tobytes())
    return out.getvalue()
