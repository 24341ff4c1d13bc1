"""The walk folder: a plain folder that is the record of one walk, read and written whole.

It holds ``walk.json``, ``sound.flac`` where there was sound, the original beside it, and what the reviewer
changed in ``edits.jsonl``. Nothing appears in it under its name before it is whole and on the disk: a draft
is written beside it and moved into place at the end, ``walk.json`` last.
"""

import json
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from errno import EDQUOT, EEXIST, EFBIG, ENOSPC, ENOTEMPTY
from pathlib import Path
from tempfile import mkdtemp

from pydantic import ValidationError

from saycheck.errors import WalkError
from saycheck.lasting import sync
from saycheck.models.walk import SCHEMA, Walk

WALK = "walk.json"
SOUND = "sound.flac"
EDITS = "edits.jsonl"
WRITE_UP = "write-up.pdf"
WALKS_VARIABLE = "SAYCHECK_WALKS"
"""The environment variable that names the folder of all walks."""

_OURS = (WALK, SOUND, EDITS, WRITE_UP)
_FULL = {ENOSPC, EDQUOT, EFBIG}


def as_json(walk: Walk) -> str:
    """The text of ``walk.json``: keys in the order of the models, one space of indent, UTF-8."""
    return json.dumps(walk.model_dump(mode="json", by_alias=True), ensure_ascii=False, indent=1) + "\n"


def read(folder: Path) -> Walk:
    """The walk of a folder (or of its ``walk.json`` named directly).

    Raises:
        WalkError: there is none, it cannot be read, or another version of the program wrote it.
    """
    path = folder / WALK if folder.is_dir() else folder
    if not path.exists() or path.name != WALK:
        raise WalkError(f"there is no walk in '{folder}'; name a folder that holds {WALK}")
    return _parsed(path)


def earlier(folder: Path) -> list[Walk]:
    """Earlier hearings of a walk, which were moved aside, newest first; those that cannot be read left out."""
    found = []
    for path in sorted(folder.glob("walk-*.json"), key=lambda path: path.stat().st_mtime, reverse=True):
        with suppress(WalkError):
            found.append(_parsed(path))
    return found


def _parsed(path: Path) -> Walk:
    """The walk in a file, as ``read`` gives it."""
    try:
        given = json.loads(path.read_text(encoding="utf-8"))
    except OSError as error:
        raise WalkError(f"'{path}' cannot be read ({error.strerror}); check who may read it") from error
    except ValueError as error:
        raise WalkError(f"'{path}' is damaged ({_brief(error)}); hear the recording again") from error
    schema = given.get("schema") if isinstance(given, dict) else None
    if schema != SCHEMA:
        raise WalkError(
            f"'{path}' is of version '{schema}' and this program reads '{SCHEMA}'; "
            "use the program that wrote it"
        )
    try:
        return Walk.model_validate(given)
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(str(step) for step in first["loc"])
        raise WalkError(
            f"'{path}' is not as it should be: {where}: {first['msg'].lower()}; hear the recording again"
        ) from error


def original(folder: Path, walk: Walk) -> Path | None:
    """The recording or text as it was given, kept in the folder; None where it has been taken away."""
    path = folder / kept_name(walk.source.name)
    return path if path.is_file() else None


def kept_name(source: str) -> str:
    """The name under which an original is kept: its own, unless the folder uses that itself."""
    name = Path(source).name
    taken = name in _OURS or name.startswith((".", "walk-", "sound-")) or not name
    return f"original-{name}" if taken else name


def holds_walk(folder: Path) -> bool:
    """Whether something in the folder would be lost by writing a walk there."""
    return any((folder / name).exists() for name in _OURS)


def walks_folder(given: Path | None = None) -> Path:
    """The folder that holds the walks: the one named, else the environment's, else ``walks`` here."""
    return given or Path(os.environ.get(WALKS_VARIABLE) or "walks")


def free_folder(stem: str, date: str, base: Path | None = None) -> Path:
    """A folder for a walk that is not there yet: ``walks/2025-03-09-stem``, with a number where taken."""
    words = "".join(letter if letter.isalnum() else " " for letter in stem.lower()).split()
    name = "-".join([date, *words])[:80]
    base = walks_folder(base)
    folder, number = base / name, 1
    while folder.exists():
        number += 1
        folder = base / f"{name}-{number}"
    return folder


class Draft:
    """A walk being written; ``folder`` is where its files lie until they are moved into place."""

    def __init__(self, folder: Path, target: Path) -> None:
        self.folder = folder
        self.target = target
        self.walk: Walk | None = None

    @property
    def sound(self) -> Path:
        """Where the sound as heard is to be written."""
        return self.folder / SOUND

    def keep(self, source: Path, name: str) -> None:
        """Copy the original beside the sound, under ``name`` as far as that is free."""
        with _to_disk(self.target):
            shutil.copyfile(source, self.folder / kept_name(name))
            sync(self.folder / kept_name(name))

    def write(self, walk: Walk) -> None:
        """Write ``walk.json``; it is what the folder is made for, and leaving without it leaves nothing."""
        with _to_disk(self.target):
            path = self.folder / WALK
            path.write_text(as_json(walk), encoding="utf-8", newline="\n")
            sync(path)
        self.walk = walk


@contextmanager
def writing(target: Path, replace: bool = False) -> Iterator[Draft]:
    """A context that gives a draft and makes it the walk of ``target`` at its end.

    Leaving with an error (Ctrl-C too) leaves ``target`` as it was. With ``replace`` an earlier walk is
    moved aside as ``walk-<date>.json``, an earlier sound or original of other content likewise, and
    ``edits.jsonl`` stays.

    Raises:
        WalkError: the folder already holds a walk and ``replace`` is not asked for, it cannot be written,
            or the disk is full.
    """
    with _to_disk(target):
        for path in (target, *target.parents):
            if path.is_file():
                raise WalkError(f"'{path}' is a file; name a folder to write the walk to with --out")
        if holds_walk(target) and not replace:
            raise WalkError(
                f"'{target}' already holds a walk; name another folder with --out, "
                "or say --replace, which keeps its edits"
            )
    made = [parent for parent in (target.parent, *target.parent.parents) if not parent.exists()]
    folder: Path | None = None
    done = False
    try:
        with _to_disk(target):
            target.parent.mkdir(parents=True, exist_ok=True)
            inside = target if target.is_dir() else target.parent
            folder = Path(mkdtemp(prefix=f".{target.name}-", suffix=".part", dir=inside))
        draft = Draft(folder, target)
        yield draft
        if draft.walk is not None:
            with _to_disk(target):
                _move_into_place(draft)
            done = True
    finally:
        if folder is not None:
            shutil.rmtree(folder, ignore_errors=True)
        for parent in [] if done else made:
            with suppress(OSError):  # never made, or someone else has put something there meanwhile
                parent.rmdir()


def _move_into_place(draft: Draft) -> None:
    folder, target = draft.folder, draft.target
    if folder.parent == target:
        for new in sorted(folder.iterdir(), key=lambda path: path.name == WALK):
            old = target / new.name
            if old.exists() and not _same(old, new):
                set_aside(old)
            new.replace(old)
        sync(target)
        return
    folder.chmod(0o777 & ~_umask())  # mkdtemp lets nobody else in
    try:
        folder.rename(target)
    except OSError as error:
        if error.errno not in (EEXIST, ENOTEMPTY):
            raise
        raise WalkError(
            f"'{target}' was made by another run meanwhile; name another folder with --out"
        ) from error
    sync(target.parent)


def set_aside(path: Path) -> None:
    """Keep a file under a dated name as well; it stays where it is until the new one takes its place."""
    from datetime import datetime

    date = datetime.fromtimestamp(path.stat().st_mtime).strftime("%Y-%m-%d")
    aside, number = path.with_name(f"{path.stem}-{date}{path.suffix}"), 1
    while aside.exists():
        number += 1
        aside = path.with_name(f"{path.stem}-{date}-{number}{path.suffix}")
    try:
        os.link(path, aside)
    except OSError:  # a file system without links (a memory stick)
        shutil.copy2(path, aside)
        sync(aside)


def _same(one: Path, other: Path) -> bool:
    import filecmp

    return filecmp.cmp(one, other, shallow=False)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


@contextmanager
def _to_disk(target: Path) -> Iterator[None]:
    """Turn what the disk refuses into its sentence."""
    try:
        yield
    except OSError as error:
        if error.errno in _FULL:
            raise WalkError(
                f"the disk is full: '{target}' was not written; make room and start again"
            ) from error
        raise WalkError(
            f"'{target}' cannot be written ({error.strerror}); choose a folder that you may write to"
        ) from error


def _brief(error: ValueError) -> str:
    if isinstance(error, json.JSONDecodeError):
        return f"line {error.lineno} is not JSON"
    return "it is not UTF-8"
