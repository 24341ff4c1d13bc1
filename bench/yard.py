"""A microphone without hardware: PulseAudio with a sink that nobody hears, whose monitor is the microphone.

From Python: ``with Yard(folder) as yard:`` starts it, ``yard.environment`` is what programs need to meet it,
``yard.play(wav)`` plays a recording into it in real time. PortAudio reads it by way of ALSA's default device.
The Debian packages are pulseaudio, pulseaudio-utils, libasound2-plugins and libportaudio2.
"""

import os
import shutil
import signal
import subprocess
import time
from pathlib import Path
from types import TracebackType
from typing import Self

NEEDED = ("pulseaudio", "pactl", "paplay")

ALSA = Path("/usr/share/alsa/alsa.conf")

ASOUND = "pcm.!default { type pulse }\nctl.!default { type pulse }\n"


def missing() -> str | None:
    """What a Yard needs and this computer has not, or None."""
    tools = [tool for tool in NEEDED if shutil.which(tool) is None]
    if tools:
        return f"{', '.join(tools)} (Debian: pulseaudio, pulseaudio-utils)"
    plugins = Path("/usr/lib").glob("*/alsa-lib/libasound_module_pcm_pulse.so")
    return (
        None if ALSA.is_file() and any(plugins) else "ALSA's way to PulseAudio (Debian: libasound2-plugins)"
    )


class Yard:
    """The sound server in a folder of its own; used as a context."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.environment = os.environ | {
            "HOME": str(folder),
            "XDG_CACHE_HOME": os.environ.get("XDG_CACHE_HOME", str(Path.home() / ".cache")),
            "XDG_RUNTIME_DIR": str(folder),
            "PULSE_RUNTIME_PATH": str(folder),
            "PULSE_SERVER": f"unix:{folder / 'native'}",
            "ALSA_CONFIG_PATH": f"{ALSA}:{folder / 'asound.conf'}",
        }
        self._server: subprocess.Popen[bytes] | None = None

    def __enter__(self) -> Self:
        self.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        (self.folder / "asound.conf").write_text(ASOUND)
        self.plug_in()
        return self

    def plug_in(self) -> None:
        """Start the server; the microphone is there from now on.

        Raises:
            RuntimeError: it does not start.
        """
        self._server = subprocess.Popen(
            ["pulseaudio", "--daemonize=no", "--exit-idle-time=-1", "-n",
             "-L", f"module-native-protocol-unix auth-anonymous=1 socket={self.folder / 'native'}",
             "-L", "module-null-sink sink_name=yard"],
            env=self.environment, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        for _ in range(100):
            chosen = subprocess.run(
                ["pactl", "set-default-source", "yard.monitor"], env=self.environment, capture_output=True
            )
            if chosen.returncode == 0:
                return
            time.sleep(0.1)
        raise RuntimeError("pulseaudio does not start")

    def unplug(self) -> None:
        """End the server without a word, as a cable is pulled."""
        if self._server is not None:
            self._server.send_signal(signal.SIGKILL)
            self._server.wait()
            (self.folder / "native").unlink(missing_ok=True)
            (self.folder / "pid").unlink(missing_ok=True)
            self._server = None

    def play(self, wav: Path) -> "subprocess.Popen[bytes]":
        """Play a recording into the microphone; ``wait`` on what is returned to hear it out."""
        return subprocess.Popen(
            ["paplay", "--device=yard", str(wav)], env=self.environment,
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.unplug()
