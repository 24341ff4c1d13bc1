"""Text made sound by the voice that is on this computer, in a process of its own that cannot hold us up.

pyttsx3 speaks through espeak-ng on Linux, through the system's own voices on macOS and Windows. Where there
is none, what would be said is shown.
"""

import subprocess
import sys
import tempfile
from contextlib import suppress
from pathlib import Path

import numpy as np

from saycheck.hearing.ear import SAMPLE_RATE, Samples

WORDS_A_MINUTE = 165

_PATIENCE_S = 10.0
_PROGRAM = """
import sys, pyttsx3
engine = pyttsx3.init()
engine.setProperty("rate", int(sys.argv[3]))
engine.save_to_file(sys.argv[1], sys.argv[2])
engine.runAndWait()
"""


def spoken(text: str) -> Samples | None:
    """The text as sound, mono at 16 kHz, or None where this computer has no voice."""
    with tempfile.TemporaryDirectory(prefix="saycheck-") as folder:
        path = Path(folder) / "said.wav"
        with suppress(OSError, subprocess.SubprocessError):
            subprocess.run(
                [sys.executable, "-c", _PROGRAM, text, str(path), str(WORDS_A_MINUTE)],
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                timeout=_PATIENCE_S,
                check=False,
            )
        return _read(path)


def _read(path: Path) -> Samples | None:
    from saycheck.capture.files import blocks
    from saycheck.errors import SoundError

    try:
        sound = np.concatenate(list(blocks(path)))
    except (SoundError, ValueError):
        return None
    return sound if len(sound) > SAMPLE_RATE // 20 else None
