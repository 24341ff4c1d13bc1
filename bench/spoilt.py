"""What recorders and rooms do to speech: low-bitrate codecs, the telephone, a steel shed, too much gain.

    python bench/spoilt.py IN.wav OUT.wav amr|opus|telephone|shed|clipped

Each way takes samples (float32, mono, 16 kHz) and gives as many back, some 10 to 20 ms later where a codec delays.
``bench/hearings.py --levels clean,amr,shed`` hears narrations so.
"""

import argparse
import io
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import av
import numpy as np
import soxr
from numpy.typing import NDArray
from scipy.signal import fftconvolve

from noises import SAMPLE_RATE, Samples

AMR_RATE = 8_000
"""AMR narrow band is sampled so, in Hz (3GPP TS 26.071, from memory)."""
RT60_S = 0.9
"""Reverberation time of a shed of a few hundred cubic metres with steel walls; common practice, no source."""
DIRECT = 0.5
"""Share of the energy that comes straight to a recorder held at arm's length."""
TOO_LOUD = 0.02
"""Share of the samples that are clipped."""


def through(sound: Samples, codec: str, rate: int, bits: int, container: str) -> Samples:
    """The sound encoded at ``bits`` a second and decoded again."""
    kept = io.BytesIO()
    with av.open(kept, "w", format=container) as out:
        stream: Any = out.add_stream(codec, rate=rate, layout="mono")
        stream.bit_rate = bits
        whole = np.round(np.clip(at_rate(sound, SAMPLE_RATE, rate), -1, 1) * 32767).astype(np.int16)
        for start in range(0, len(whole), rate // 50):
            frame = av.AudioFrame.from_ndarray(
                whole[None, start : start + rate // 50], format="s16", layout="mono"
            )
            frame.sample_rate = rate
            frame.pts = start
            out.mux(stream.encode(frame))
        out.mux(stream.encode(None))
    kept.seek(0)
    with av.open(kept) as back:
        resampler = av.AudioResampler("flt", "mono", SAMPLE_RATE)
        frames = [f for frame in back.decode(audio=0) for f in resampler.resample(frame)]
        pieces = [frame.to_ndarray()[0] for frame in [*frames, *resampler.resample(None)]]
    return fitted(np.concatenate(pieces), len(sound))


def at_rate(sound: NDArray[np.floating], rate: int, wanted: int) -> NDArray[np.floating]:
    """The sound at another sample rate."""
    return np.asarray(soxr.resample(sound, rate, wanted))


def fitted(sound: NDArray[np.floating], count: int) -> Samples:
    """The sound cut or filled with silence to ``count`` samples."""
    return np.pad(sound, (0, max(count - len(sound), 0)))[:count].astype(np.float32)


def amr(sound: Samples) -> Samples:
    """A voice memo of an old telephone: AMR narrow band at 7.95 kbit/s."""
    return through(sound, "libopencore_amrnb", AMR_RATE, 7_950, "amr")


def opus(sound: Samples) -> Samples:
    """A voice message in poor reception: Opus at 8 kbit/s."""
    return through(sound, "libopus", SAMPLE_RATE, 8_000, "ogg")


def telephone(sound: Samples) -> Samples:
    """A call: 300 to 3,400 Hz, in G.711 mu-law (ITU-T G.711 and G.712, from memory)."""
    spectrum = np.fft.rfft(sound)
    hertz = np.fft.rfftfreq(len(sound), 1 / SAMPLE_RATE)
    narrow = np.fft.irfft(spectrum * ((hertz >= 300) & (hertz <= 3_400)), len(sound))
    return through(narrow.astype(np.float32), "pcm_mulaw", AMR_RATE, 64_000, "wav")


def shed(sound: Samples) -> Samples:
    """Spoken in a steel shed: the sound and what comes back, noise that falls by 60 dB in ``RT60_S``."""
    time = np.arange(int(RT60_S * SAMPLE_RATE)) / SAMPLE_RATE
    tail = np.random.default_rng(7).normal(size=len(time)) * 10 ** (-3 * time / RT60_S) * (time > 0.005)
    tail *= np.sqrt((1 - DIRECT) / DIRECT / np.sum(tail**2))
    tail[0] = 1.0
    wet = fftconvolve(sound, tail)[: len(sound)]
    return (wet * np.std(sound) / np.std(wet)).astype(np.float32)


def clipped(sound: Samples) -> Samples:
    """Recorded with so much gain that ``TOO_LOUD`` of the samples are cut off."""
    return np.clip(sound / np.quantile(np.abs(sound), 1 - TOO_LOUD), -1, 1).astype(np.float32)


WAYS: dict[str, Callable[[Samples], Samples]] = {
    "amr": amr,
    "opus": opus,
    "telephone": telephone,
    "shed": shed,
    "clipped": clipped,
}


def main() -> int:
    """Run the command described at the top of this file."""
    from scipy.io import wavfile

    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("sound", type=Path)
    parser.add_argument("out", type=Path)
    parser.add_argument("way", choices=WAYS)
    asked = parser.parse_args()
    rate, samples = wavfile.read(asked.sound)
    sound = samples.astype(np.float32) / 32768 if samples.dtype == np.int16 else samples
    wavfile.write(
        asked.out, SAMPLE_RATE, WAYS[asked.way](at_rate(sound, rate, SAMPLE_RATE).astype(np.float32))
    )
    return 0


if __name__ == "__main__":
    sys.exit(main())
