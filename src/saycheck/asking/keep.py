"""An answer that was read back and found right: its sound into ``answers/`` of the walk, then its edit."""

import hashlib
import os
import shutil
from contextlib import suppress
from pathlib import Path

from saycheck import walkfolder
from saycheck.asking.given import Given
from saycheck.asking.matter import Matter
from saycheck.asking.numbers import asked_for
from saycheck.capture.keep import KeptSound
from saycheck.errors import WalkError
from saycheck.models.review import Edit, Spoken, Standing
from saycheck.models.walk import Finding
from saycheck.models.wishes import Wish
from saycheck.review.changes import edit_for
from saycheck.review.edits import append, new_id
from saycheck.standing import after

FOLDER = "answers"


def count(folder: Path, matter: Matter, wish: Wish, words: str, given: Given) -> Edit:
    """Make an answer count; sound first, so that no edit names a file that is not on the disk.

    Raises:
        SaycheckError: the question is not open any more, or the disk refuses; nothing has changed then.
    """
    heard = walkfolder.read(folder)
    sound = keep_sound(folder, given)
    spoken = Spoken(words=words, asked=matter.question.text)
    if sound:
        digest = hashlib.sha256(sound.read_bytes()).hexdigest()
        spoken = spoken.model_copy(update={"sound": sound.name, "sha256": digest})

    def make(edits: list[Edit]) -> list[Edit]:
        edit = made_of(wish, matter, after(heard, edits, matter.vocabulary))
        return [edit.model_copy(update={"spoken": spoken})]

    try:
        return append(folder, make)[0]
    except BaseException:
        if sound:
            with suppress(OSError):
                sound.unlink()
        raise


def made_of(wish: Wish, matter: Matter, standing: Standing) -> Edit:
    """The edit that an answer makes on the walk as it stands.

    Raises:
        ReviewError: it cannot be made.
    """
    edit = edit_for(wish, standing, matter.vocabulary)
    known = {(one.value, one.unit) for finding in edit.before for one in finding.measurements}
    after_it = [_told(finding, asked_for(matter), known) for finding in edit.after]
    return edit.model_copy(update={"after": after_it})


def _told(finding: Finding, attribute: str, known: set[tuple[float, str]]) -> Finding:
    """A finding whose new numbers say what was asked for ("thickness")."""
    numbers = []
    for one in finding.measurements:
        update: dict[str, object] = {}
        if attribute and one.unit != "count" and (one.value, one.unit) not in known:
            update["attribute"] = attribute
        numbers.append(one.model_copy(update=update))
    return finding.model_copy(update={"measurements": numbers})


def keep_sound(folder: Path, given: Given) -> Path | None:
    """The sound of an answer in the walk folder: a recording as it is, sound of a microphone as FLAC."""
    if given.file is None and given.samples is None:
        return None
    into = folder / FOLDER
    name = new_id()
    try:
        into.mkdir(exist_ok=True)
        if given.file is not None:
            path = into / f"{name}{given.file.suffix.lower()}"
            part = into / f".{path.name}.part"
            with part.open("wb") as out, given.file.open("rb") as source:
                shutil.copyfileobj(source, out)
                out.flush()
                os.fsync(out.fileno())
            part.replace(path)
            return path
    except OSError as error:
        raise WalkError(
            f"'{into}' cannot be written ({error.strerror}); the answer was not taken, "
            "look whether the disk is full and who may write there"
        ) from error
    assert given.samples is not None
    path = into / f"{name}.flac"
    with KeptSound(path) as kept:
        kept.write(given.samples)
    return path
