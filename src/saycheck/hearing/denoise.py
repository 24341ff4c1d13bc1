"""RNNoise before the trade ear: engine noise down, speech left.

RNNoise (Valin 2018, "A Hybrid DSP/Deep Learning Approach to Real-Time Full-Band Speech Enhancement") is
a small recurrent network for 48 kHz sound in frames of 10 ms. The package ``pyrnnoise`` carries its
library for Linux, macOS and Windows; only that library is loaded, since importing the package itself
brings in a plotting library and a sound library that are not needed here.
"""

import ctypes
import importlib.util
from functools import cache
from pathlib import Path

import numpy as np

from saycheck.errors import EarError
from saycheck.hearing.ear import SAMPLE_RATE, Samples

_RATE = 48_000
_FRAME = 480
_DELAY = 2 * _FRAME
"""How much later the network gives sound back than it got it (measured by correlation)."""
_WARM_UP_S = 0.5
_FULL_SCALE = 32768.0

_LIBRARIES = ("librnnoise.so", "librnnoise.dylib", "rnnoise.dll", "librnnoise.dll")


def denoised(samples: Samples) -> Samples:
    """The samples (mono, 16 kHz, -1..1) with noise taken down; as many as came in, none shifted in time.

    The network is first given the opening half second backwards, so that it knows the noise when the
    first word comes. Raises EarError where the library is missing.
    """
    import soxr

    if len(samples) < SAMPLE_RATE // 50:
        return samples
    warm_up = samples[: int(_WARM_UP_S * SAMPLE_RATE)][::-1]
    lead = len(warm_up) * _RATE // SAMPLE_RATE
    wide = soxr.resample(np.concatenate([warm_up, samples]), SAMPLE_RATE, _RATE)
    cleaned = _through(np.ascontiguousarray(wide, np.float32))[lead:]
    narrow = np.asarray(soxr.resample(cleaned, _RATE, SAMPLE_RATE), np.float32)
    return np.pad(narrow, (0, max(len(samples) - len(narrow), 0)))[: len(samples)]


def _through(sound: Samples) -> Samples:
    """Run 48 kHz sound through a fresh state of the network; its delay is taken out."""
    library = _library()
    frames = len(sound) // _FRAME + 3
    given = np.zeros(frames * _FRAME, np.float32)
    given[: len(sound)] = sound * _FULL_SCALE
    taken = np.zeros_like(given)
    state = library.rnnoise_create(None)
    try:
        for at in range(0, len(given), _FRAME):
            library.rnnoise_process_frame(
                state, taken.ctypes.data + at * taken.itemsize, given.ctypes.data + at * given.itemsize
            )
    finally:
        library.rnnoise_destroy(state)
    return taken[_DELAY : _DELAY + len(sound)] / np.float32(_FULL_SCALE)


@cache
def _library() -> ctypes.CDLL:
    found = importlib.util.find_spec("pyrnnoise")
    folders = [Path(place) for place in (found.submodule_search_locations or [])] if found else []
    paths = [folder / name for folder in folders for name in _LIBRARIES if (folder / name).is_file()]
    if not paths:
        raise EarError(
            "the trade ear needs RNNoise, whose library is not installed; run: pip install pyrnnoise"
        )
    try:
        library = ctypes.CDLL(str(paths[0]))
    except OSError as error:
        raise EarError(
            f"the RNNoise library '{paths[0]}' cannot be loaded ({error}); install pyrnnoise again"
        ) from error
    library.rnnoise_create.restype = ctypes.c_void_p
    library.rnnoise_create.argtypes = [ctypes.c_void_p]
    library.rnnoise_destroy.argtypes = [ctypes.c_void_p]
    library.rnnoise_process_frame.restype = ctypes.c_float
    library.rnnoise_process_frame.argtypes = [ctypes.c_void_p] * 3
    return library
