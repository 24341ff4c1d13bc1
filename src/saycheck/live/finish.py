"""The walk folder of a walk that was listened to.

The careful ears have heard every phrase of the recording already, in the same order and with the same cuts
as ``saycheck hear`` would. So the walk is made from what they heard, and nobody waits for it to be heard
again; hearing ``recording.wav`` gives the same words.
"""

import os
import shutil
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from saycheck.capture.files import sha256
from saycheck.capture.keep import KeptSound
from saycheck.capture.noise import passages
from saycheck.capture.recording import following
from saycheck.errors import SoundError
from saycheck.live.commands import lead_words
from saycheck.live.folder import ListeningFolder
from saycheck.live.listener import Listener
from saycheck.live.marked import marked
from saycheck.models.walk import Event, Source, Walk
from saycheck.run import Asked, Heard, walk_of
from saycheck.unclear import with_unclear
from saycheck.walkfolder import kept_name, writing


def finish(
    listener: Listener, folder: ListeningFolder, asked: Asked, lead: str, ears: Sequence[str], out: Path
) -> Walk:
    """Make the walk and write it to ``out``; the listening folder is taken away when it is there.

    Raises:
        SaycheckError: nothing was said, or the walk cannot be written; the sound stays where it is.
    """
    listener.close()
    transcript = listener.transcript()
    if not transcript.words:
        raise SoundError(f"no speech was heard; the sound stays in '{folder.recording}'")
    made = marked(transcript, listener.commands, lead_words(lead), listener.stretches)
    source = Source(
        name=folder.recording.name, sha256=sha256(folder.recording), duration_s=round(folder.seconds, 3)
    )
    heard = Heard(made.transcript, source, list(ears), passages(listener.meter.measures()))
    walk = walk_of(heard, listener.vocabulary, asked)
    spans = with_unclear(walk.transcript.spans, made.after, made.transcript.text)
    walk = walk.model_copy(
        update={
            "transcript": walk.transcript.model_copy(update={"spans": spans}),
            "events": sorted(listener.events, key=_start_s),
        }
    )
    with writing(out) as draft:
        with KeptSound(draft.sound) as kept:
            for block in following(folder.recording, lambda: True):
                kept.write(block)
        _keep(folder.recording, draft.folder / kept_name(source.name))
        draft.write(walk)
    listener.forget()
    folder.remove()
    return walk


def _start_s(event: Event) -> float:
    return event.start_s


def _keep(recording: Path, place: Path) -> None:
    """The recording under a second name, where the disk can do that; else a copy."""
    with suppress(OSError):
        os.link(recording, place)
        return
    shutil.copyfile(recording, place)
