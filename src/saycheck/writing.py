"""Gathers what a write-up shows, has it made and puts it where it belongs."""

import hashlib
import os
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from saycheck import __version__, decisions, walkfolder
from saycheck.errors import WriteUpError
from saycheck.models.review import Standing
from saycheck.reporting.writeup.costs import Cost
from saycheck.reporting.writeup.given import Given
from saycheck.standing import standing
from saycheck.vocabulary.load import load
from saycheck.vocabulary.waiting import sentences

if TYPE_CHECKING:
    from saycheck.remembered import Remembered

PHOTOS = "photos"
NAME = Path(walkfolder.WRITE_UP).stem


@dataclass(frozen=True)
class Names:
    """What the walk does not hold: who walked, and who decides."""

    walker: str = ""
    owner: str = ""


def given_of(
    folder: Path,
    names: Names | None = None,
    walks: Path | None = None,
    waiting: Path | None = None,
    bare: bool = False,
) -> Given:
    """What a write-up of a walk folder may show.

    ``walks`` is where earlier walks of the unit lie; ``waiting`` a file of figures on what waiting costs.
    ``bare`` leaves out earlier walks and photographs, which deciding does not need.

    Raises:
        SaycheckError: there is no walk, its edits, decisions or the figures are damaged.
    """
    names = names or Names()
    there = standing(folder)
    folder = folder if folder.is_dir() else folder.parent
    earlier = None if bare else _earlier(there, folder, walks)
    return Given(
        standing=there,
        vocabulary=load(there.walk.machine.kind),
        waiting=sentences(),
        made=datetime.now().astimezone(),
        version=__version__,
        walk_sha256=hashlib.sha256((folder / walkfolder.WALK).read_bytes()).hexdigest(),
        decisions=decisions.read(folder),
        walker=names.walker,
        owner=names.owner,
        series=earlier.series if earlier else {},
        since=earlier.since if earlier else {},
        costs=_costs(waiting, there) if waiting else {},
        pictures={} if bare else _pictures(folder, there),
    )


def _earlier(there: Standing, folder: Path, walks: Path | None) -> "Remembered | None":
    """What earlier walks say; None where none can be there, so that no database is loaded for nothing."""
    if not there.walk.machine.unit or not walkfolder.walks_folder(walks).is_dir():
        return None
    from saycheck.remembered import remembered

    return remembered(there.walk, folder, walks)


def _costs(file: Path, there: Standing) -> Mapping[str, Cost]:
    from saycheck.reporting.writeup.costs import costs, figures

    try:
        text = file.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        why = error.strerror if isinstance(error, OSError) else "it is no UTF-8 text"
        raise WriteUpError(f"'{file}' cannot be read ({why}); name a TOML file with the figures") from error
    found = [one for one in there.walk.findings if one.state == "writeup"]
    return costs(figures(text, file.name), found, file.name)


def made(given: Given, form: str, paper: str = "a4") -> bytes:
    """The write-up as ``pdf``, ``html`` or ``csv``.

    Raises:
        WriteUpError: it cannot be set on paper.
    """
    if form == "csv":
        from saycheck.reporting.writeup.rows import as_csv

        return as_csv(given).encode()
    from saycheck.reporting.writeup.compose import compose

    document = compose(given)
    if form == "html":
        from saycheck.reporting.writeup.html import as_html

        return as_html(document, given.pictures).encode()
    from saycheck.reporting.writeup.pdf import as_pdf

    return as_pdf(document, given.made, given.pictures, "letter" if paper == "letter" else "a4")


def place(folder: Path, form: str) -> Path:
    """Where a write-up goes when nobody says: into the walk folder."""
    return (folder if folder.is_dir() else folder.parent) / f"{NAME}.{form}"


def put(path: Path, content: bytes, replace: bool = False) -> None:
    """Write a file whole or not at all.

    With ``replace`` a file of other content that is there already is kept under a dated name, since someone
    may have written on it.

    Raises:
        WriteUpError: a file is there and ``replace`` is not asked for, or it cannot be written.
    """
    if path.exists() and not replace:
        raise WriteUpError(f"'{path}' is there already; name another file with --out, or say --replace")
    draft = path.with_name(f".{path.name}.part")
    try:
        with draft.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if path.exists() and path.read_bytes() != content:
            walkfolder.set_aside(path)
        draft.replace(path)
    except OSError as error:
        draft.unlink(missing_ok=True)
        raise WriteUpError(
            f"'{path}' cannot be written ({error.strerror}); name a file in a folder that you may write to"
        ) from error


def _pictures(folder: Path, there: Standing) -> Mapping[str, bytes]:
    """The photographs of the walk that can be shown, by file name; one that is gone is left out."""
    names = dict.fromkeys(name for names in there.photos.values() for name in names)
    if not names:
        return {}
    from saycheck.reporting.writeup.pictures import shown

    paths = {name: folder / PHOTOS / Path(name).name for name in names}
    found = {name: shown(path.read_bytes()) for name, path in paths.items() if path.is_file()}
    return {name: content for name, content in found.items() if content}
