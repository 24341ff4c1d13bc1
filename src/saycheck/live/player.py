"""Plays tones and speech, one after another, and never while someone speaks."""

import queue
import threading
import time
from collections.abc import Callable
from typing import Any

from saycheck.hearing.ear import SAMPLE_RATE, Samples
from saycheck.live import voice
from saycheck.live.tones import tone

TONE_WAITS_S = 2.0
"""A tone that finds no gap for so long is left out, seconds."""

VOICE_WAITS_S = 8.0
"""An answer that finds no gap for so long, or takes so long to be made, comes too late and is only shown."""

_LOOK_S = 0.03


class Player:
    """A thread with the loudspeaker. ``speaking`` tells whether someone speaks right now.

    ``playing`` is called with True when a text begins to sound and with False when it has ended, so that our
    own voice is not taken for the walker's. Where there is no loudspeaker or no voice, ``unheard`` is
    given the text.
    """

    def __init__(
        self,
        speaking: Callable[[], bool],
        playing: Callable[[bool, str], None],
        unheard: Callable[[str], None],
        tones: bool = True,
        aloud: bool = True,
    ) -> None:
        self._speaking = speaking
        self._playing = playing
        self._unheard = unheard
        self._tones = tones
        self._aloud = aloud
        self._waiting: queue.SimpleQueue[tuple[str, str, float] | None] = queue.SimpleQueue()
        self._thread = threading.Thread(target=self._work, name="player", daemon=True)
        self._thread.start()

    def tone(self, name: str) -> None:
        """Sound a tone as soon as nobody speaks."""
        if self._tones:
            self._waiting.put(("tone", name, time.monotonic()))

    def say(self, text: str) -> None:
        """Say a text as soon as nobody speaks."""
        if self._aloud:
            self._waiting.put(("say", text, time.monotonic()))

    def close(self) -> None:
        """Play what waits, for a few seconds at most, and end."""
        self._waiting.put(None)
        self._thread.join(6.0)

    def _work(self) -> None:
        while (given := self._waiting.get()) is not None:
            kind, what, asked = given
            sound = tone(what) if kind == "tone" else voice.spoken(what)
            if sound is None:
                self._unheard(what)
                continue
            patience_s = TONE_WAITS_S if kind == "tone" else VOICE_WAITS_S
            if not self._gap(asked + patience_s):
                if kind == "say":
                    self._unheard(what)
                continue
            if kind == "say":
                self._playing(True, what)
            try:
                self._play(sound)
            except Exception:  # whatever PortAudio throws where there is no loudspeaker
                if kind == "say":
                    self._unheard(what)
            finally:
                if kind == "say":
                    self._playing(False, what)

    def _gap(self, until: float) -> bool:
        """Wait until nobody speaks; False where that is not before a moment of the clock."""
        while self._speaking() and time.monotonic() < until:
            time.sleep(_LOOK_S)
        return time.monotonic() < until

    def _play(self, sound: Samples) -> None:
        import sounddevice

        stream: Any = sounddevice.OutputStream(samplerate=SAMPLE_RATE, channels=1, dtype="float32")
        with stream:
            stream.write(sound.reshape(-1, 1))
            time.sleep(float(stream.latency))
