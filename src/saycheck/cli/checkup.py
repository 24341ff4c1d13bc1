"""What listening live needs, looked at by ``saycheck doctor``: microphone, level, voice, speed."""

import time
from typing import TYPE_CHECKING

from saycheck.errors import SoundError

if TYPE_CHECKING:
    from saycheck.capture.ring import Frames
    from saycheck.hearing.ear import Samples

LISTENED_S = 2.0
"""So long is the microphone listened to, seconds."""

SILENT_DB, LOUD_DB = -85.0, -30.0
"""Levels of a room, decibels of full scale: below the first no microphone that is on ever is, above the
second one has to shout. Common practice, no source."""

CLIPPED_SHARE = 0.001

MOST_WORK = 0.35
"""Seconds that hearing and looking for commands may take for a second of sound, so that two ears and all
else keep up on two cores."""

SPOKEN_S = 12.0


class SparedError(Exception):
    """Something that is missing and is only needed for what not everybody does."""


def microphone() -> str:
    """All microphones by number and name, the one that is used without ``--microphone`` first."""
    from saycheck.capture.microphone import chosen, inputs, portaudio

    try:
        library = portaudio()
    except SoundError as error:
        raise SparedError(f"{error}; recordings need none") from error
    devices = inputs(library)
    if not devices:
        raise SparedError("none was found; recordings need none")
    used = chosen(devices, _default(library))
    others = [f"{one.number} {one.name}" for one in devices if one is not used]
    others_too = f"; others: {', '.join(others)}" if others else ""
    return f"{used.number} {used.name} is used{others_too}"


def level() -> str:
    """Listens for a moment and says whether the level can be right."""
    import numpy as np

    from saycheck.capture.microphone import opened

    try:
        device = opened()
    except SoundError as error:
        raise SparedError("nothing to listen with") from error
    try:
        pieces: list[Frames] = []
        until = time.monotonic() + LISTENED_S + 4
        while sum(len(piece) for piece in pieces) < LISTENED_S * 16_000 and time.monotonic() < until:
            time.sleep(0.05)
            pieces.append(device.take())
    finally:
        device.close()
    return judged((np.concatenate(pieces) / 32768).astype(np.float32))


def judged(sound: "Samples") -> str:
    """What a moment of sound from the microphone says about its level, and what to change.

    Raises:
        SoundError: it cannot be used like this.
    """
    import numpy as np

    if not len(sound):
        raise SoundError("no sound comes from the microphone; plug it in again, or choose another")
    clipped = float(np.mean(np.abs(sound) > 0.985))
    decibels = 10 * float(np.log10(np.mean(np.square(sound)) + 1e-12))
    if decibels < SILENT_DB:
        raise SoundError("the microphone is mute (not even noise comes in); switch it on, or turn it up")
    if clipped > CLIPPED_SHARE:
        raise SoundError("the microphone is turned up too far (the sound is clipped); turn it down")
    if decibels > LOUD_DB:
        return f"it is loud here ({decibels:.0f} dB of full scale); hold the microphone close to the mouth"
    return f"{decibels:.0f} dB of full scale while nobody need speak; that is fine"


def voice() -> str:
    """Whether answers can be said aloud."""
    from saycheck.live.voice import spoken

    if spoken("ready") is None:
        raise SparedError("no voice was found (Debian: espeak-ng); answers are shown only")
    return "answers can be said aloud"


def speed() -> str:
    """How long the ears take for the beginning of the demo recording."""
    import numpy as np

    from saycheck.capture.files import blocks
    from saycheck.cli.demo import MACHINE, recording
    from saycheck.hearing.choose import open_ear
    from saycheck.hearing.command_ear import CommandEar, Saying
    from saycheck.hearing.ear import Phrase
    from saycheck.live.commands import LEAD, lead_words, sayings
    from saycheck.vocabulary.load import load

    sound = np.concatenate(
        [block for block, _ in zip(blocks(recording()), range(int(SPOKEN_S)), strict=False)]
    )
    known = [Saying(one.words, one.goes_on) for one in sayings(load(MACHINE))]
    ears = [open_ear("builtin", MACHINE), CommandEar(lead_words(LEAD), known)]
    began = time.monotonic()
    for start in range(0, len(sound), 64_000):
        for ear in ears:
            ear.hear(Phrase(sound[start : start + 64_000], start / 16_000))
    return paced((time.monotonic() - began) / (len(sound) / 16_000))


def paced(work: float) -> str:
    """What so many seconds of work for a second of sound mean for listening live.

    Raises:
        SparedError: the computer cannot keep up; recordings can be heard all the same.
    """
    took = f"{work:.2f} s of work for a second of speech"
    if work > 1:
        raise SparedError(f"{took}: too slow to listen live; record first, and use `saycheck hear`")
    if work > MOST_WORK:
        return f"{took}: hearing will lag while someone speaks, nothing is lost; close other programs"
    return f"{took}: fast enough to listen live"


def _default(library: object) -> int:
    try:
        return int(library.default.device[0])  # type: ignore[attr-defined]
    except (TypeError, ValueError):
        return -1
