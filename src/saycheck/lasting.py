"""What is on the disk before anyone is told that it counts: bytes, names in a folder, and a log's last line."""

import os
from collections.abc import Callable
from pathlib import Path


def add(path: Path, content: bytes) -> None:
    """Add to the end of a file, made where there is none."""
    with path.open("ab") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def sync(path: Path) -> None:
    """Wait until a file, or the names in a folder, are on the disk; Windows has no such wait for a folder."""
    if os.name == "nt" and path.is_dir():
        return
    number = os.open(path, os.O_RDONLY)
    try:
        os.fsync(number)
    finally:
        os.close(number)


def end_whole(path: Path, is_whole: Callable[[bytes], bool], aside: str) -> None:
    """Leave a log ending in a whole line; what a dying program left half written is kept beside it first.

    ``is_whole`` tells a line that lacks only its end; ``aside`` names the file beside it, without ending.
    """
    content = path.read_bytes() if path.exists() else b""
    rest = content.rsplit(b"\n", 1)[-1]
    if not rest:
        return
    if is_whole(rest):
        add(path, b"\n")
        return
    kept, number = path.with_name(f"{aside}.txt"), 1
    while kept.exists():
        number += 1
        kept = path.with_name(f"{aside}-{number}.txt")
    add(kept, rest)
    sync(path.parent)
    with path.open("r+b") as file:
        file.truncate(len(content) - len(rest))
        os.fsync(file.fileno())
