"""Text made sound by the voice that is on this computer, in a process of its own that cannot hold us up.

pyttsx3 speaks through espeak-ng on Linux, through the system's own voices on macOS and Windows. Its driver
for espeak-ng (2.99) gives up on some longer texts without a word, so a text is made piece by piece, and a
piece that is missing is asked of espeak-ng itself. Where there is no voice, what would be said is shown.
"""

import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

import numpy as np

from saycheck.hearing.ear import SAMPLE_RATE, Samples

WORDS_A_MINUTE = 165

_PATIENCE_S = 20.0
_PAUSE_S = {".": 0.35, "?": 0.35, ":": 0.2}
_OTHER_PAUSE_S = 0.1
_QUIET = 0.005
_PROGRAM = """
import sys, pyttsx3
engine = pyttsx3.init()
engine.setProperty("rate", int(sys.argv[1]))
for path, piece in zip(sys.argv[2::2], sys.argv[3::2]):
    engine.save_to_file(piece, path)
    engine.runAndWait()
"""


def spoken(text: str) -> Samples | None:
    """The text as sound, mono at 16 kHz, or None where this computer cannot say all of it."""
    pieces = [piece for piece in re.split(r"(?<=[.,:;?!])\s+", text.strip()) if piece]
    with tempfile.TemporaryDirectory(prefix="saycheck-") as folder:
        paths = [Path(folder) / f"{number}.wav" for number in range(len(pieces))]
        words = [word for path, piece in zip(paths, pieces, strict=True) for word in (str(path), piece)]
        _run([sys.executable, "-c", _PROGRAM, str(WORDS_A_MINUTE), *words])
        sounds: list[Samples] = []
        for path, piece in zip(paths, pieces, strict=True):
            sound = _read(path)
            if sound is None and (program := shutil.which("espeak-ng")):
                _run([program, "-s", str(WORDS_A_MINUTE), "-w", str(path), piece])
                sound = _read(path)
            if sound is None:
                return None
            sounds += [sound, _silence(_PAUSE_S.get(piece[-1], _OTHER_PAUSE_S))]
    return np.concatenate(sounds) if sounds else None


def _run(command: Sequence[str]) -> None:
    with suppress(OSError, subprocess.SubprocessError):
        subprocess.run(
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            timeout=_PATIENCE_S,
            check=False,
        )


def _read(path: Path) -> Samples | None:
    """The sound of a file without the silence at its ends; None where there is none."""
    from saycheck.capture.files import blocks
    from saycheck.errors import SoundError

    try:
        sound = np.concatenate(list(blocks(path)))
    except (SoundError, ValueError):
        return None
    loud = np.flatnonzero(np.abs(sound) > _QUIET)
    return sound[loud[0] : loud[-1] + 1] if len(loud) > SAMPLE_RATE // 50 else None


def _silence(seconds: float) -> Samples:
    return np.zeros(round(seconds * SAMPLE_RATE), np.float32)
