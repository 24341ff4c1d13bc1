"""Walk folders in a tree, with a stamp that changes when anything in them does."""

import os
from collections.abc import Iterator
from pathlib import Path

from saycheck.errors import HistoryError
from saycheck.history.decisions import DECISIONS
from saycheck.walkfolder import EDITS, WALK

WATCHED = (WALK, EDITS, DECISIONS)
"""The files of a walk folder that the history reads."""


def walk_folders(root: Path) -> Iterator[tuple[str, str]]:
    """Each walk folder below ``root``: its path from there, and a stamp of the files that matter in it.

    Folders whose names begin with a dot (drafts) are left out, as is what lies inside a walk.

    Raises:
        HistoryError: there is no such folder.
    """
    if not root.is_dir():
        raise HistoryError(f"there is no folder '{root}'; name the folder that holds your walks with --walks")
    waiting = [""]
    while waiting:
        inside = waiting.pop()
        try:
            entries = sorted(os.scandir(root / inside), key=lambda entry: entry.name)
        except OSError:
            continue  # nobody may look in there
        for entry in entries:
            if entry.name.startswith(".") or not entry.is_dir():
                continue
            name = f"{inside}/{entry.name}" if inside else entry.name
            stamp = _stamp(entry.path)
            if stamp:
                yield name, stamp
            elif not entry.is_symlink():
                waiting.append(name)


def _stamp(folder: str) -> str:
    """Time and size of each watched file, empty where there is no walk."""
    stamps = []
    for name in WATCHED:
        try:
            stat = os.stat(f"{folder}/{name}")  # noqa: PTH116 a Path costs five times as much
        except OSError:
            if name == WALK:
                return ""
            continue
        stamps.append(f"{stat.st_mtime_ns}.{stat.st_size}")
    return " ".join(stamps)
