"""``saycheck hear MORE --into WALK``: a second recording is joined to a walk that is there."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from saycheck import walkfolder
from saycheck.capture.files import sha256
from saycheck.errors import WalkError
from saycheck.joined import joined, lengthened
from saycheck.models.walk import Walk
from saycheck.review.edits import locked
from saycheck.review.hearing import fingerprint
from saycheck.run import Asked, hear_file
from saycheck.vocabulary.load import load

SECOND = ".second.flac"


def into(folder: Path, source: Path, name: str, asked: Asked, look: Callable[[], None]) -> Walk:
    """Hear ``source`` and join it to the walk of ``folder``; leaving with an error leaves that as it was.

    ``look`` is called before anything is put in place, to stop if that has been asked for.

    Raises:
        SaycheckError: there is no walk, the recording cannot be heard, or another program has changed the walk.
    """
    before = walkfolder.read(folder)
    if sha256(source) in {before.source.sha256, *(one.source.sha256 for one in before.joined)}:
        raise WalkError(f"'{name}' is in the walk of '{folder}' already; name the recording made after it")
    vocabulary = load(before.machine.kind, unit=before.machine.unit)
    asked = replace(asked, machine=before.machine.kind, unit=before.machine.unit)
    with walkfolder.writing(folder, replace=True) as draft:
        second = draft.folder / SECOND
        more = hear_file(source, asked, name, second)
        start_s = 0.0
        if second.is_file():
            start_s = lengthened(folder / walkfolder.SOUND, second, draft.sound)
            second.unlink()
        draft.keep(source, free_name(folder, name))
        look()
        with locked(folder):
            if fingerprint(walkfolder.read(folder)) != fingerprint(before):
                raise WalkError(
                    f"another program has heard '{folder}' anew meanwhile; join '{name}' once more"
                )
            walk = joined(before, more, start_s, vocabulary)
            draft.write(walk)
    return walk


def free_name(folder: Path, name: str) -> str:
    """A name for another original that no file in the folder has: "walk.m4a", "2-walk.m4a"."""
    path, number = Path(name), 1
    found = path.name
    while (folder / walkfolder.kept_name(found)).exists():
        number += 1
        found = f"{number}-{path.name}"
    return found


def joined_before(folder: Path) -> int:
    """How many recordings have been joined to the walk of a folder; 0 where there is none to be read."""
    try:
        return len(walkfolder.read(folder).joined)
    except WalkError:
        return 0
