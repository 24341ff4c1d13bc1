"""The edits of a walk on the disk: ``edits.jsonl``, one JSON object a line, only ever added to.

An edit is on the disk (fsync) before anyone is told that it counts. Writers take turns by a lock on a file
beside it, which the system lets go of when a program dies. A last line that a dying program left half
written is put aside under a name of its own and never in the way of the next edit.
"""

import json
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from secrets import token_hex
from typing import TypeVar

from pydantic import BaseModel, ValidationError

from saycheck.errors import WalkError
from saycheck.lasting import add, end_whole, sync
from saycheck.models.review import Edit

Line = TypeVar("Line", bound=BaseModel)

EDITS = "edits.jsonl"
LOCK = ".edits.lock"
WAIT_S = 20
"""How long a writer waits for another one, in seconds."""


def new_id() -> str:
    """A name for an edit or for a finding made by hand that no other has."""
    return f"e{token_hex(6)}"


def now() -> str:
    """The time as edits tell it: ISO 8601 in UTC, thousandths of a second."""
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def read(folder: Path) -> list[Edit]:
    """The edits of a walk, oldest first; a last line that is not whole yet is left out.

    Raises:
        WalkError: a line that is not the last is damaged, or the file cannot be read.
    """
    whole, _ = lines_of(folder / EDITS)
    return [read_line(Edit, line, number, folder / EDITS) for number, line in enumerate(whole, 1)]


def append(
    folder: Path,
    make: Callable[[list[Edit]], Sequence[Edit]],
    reading: Callable[[Path], list[Edit]] = read,
) -> list[Edit]:
    """Add what ``make`` makes of the edits so far; returns the new ones once they are on the disk.

    ``make`` is called while no other writer can add anything, so that it sees all that went before.
    ``reading`` reads the edits of a folder; ``review.log.Log`` keeps what it read before.

    Raises:
        WalkError: another program holds the walk too long, or the folder cannot be written.
    """
    path = folder / EDITS
    with locked(folder), _to_disk(path):
        end_whole(path, _is_edit, f"edits-torn-{datetime.now(UTC):%Y%m%dT%H%M%S}")
        made = list(make(reading(folder)))
        if made:
            text = "".join(f"{edit.model_dump_json(exclude_defaults=True)}\n" for edit in made)
            is_new = not path.exists()
            add(path, text.encode())
            if is_new:
                sync(folder)
        return made


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """A context in which no other program edits this walk."""
    from filelock import FileLock, Timeout

    try:
        with FileLock(folder / LOCK, timeout=WAIT_S):
            yield
    except Timeout as error:
        raise WalkError(
            f"another program has held '{folder}' for {WAIT_S} s; close it and do that again"
        ) from error


def lines_of(path: Path) -> tuple[list[bytes], bytes]:
    """The whole lines of a file, and what stands after the last of them."""
    if not path.exists():
        return [], b""
    with _to_disk(path):
        *whole, rest = path.read_bytes().split(b"\n")
    if rest and _is_edit(rest):  # written in full but for its end
        return [*whole, rest], b""
    return whole, rest


def read_line(model: type[Line], line: bytes, number: int, path: Path) -> Line:
    """A line of the log ``path``; ``number`` counts from 1.

    Raises:
        WalkError: the line is damaged.
    """
    try:
        return model.model_validate_json(line)
    except ValidationError as error:
        raise WalkError(
            f"line {number} of '{path}' is damaged; put it right or take it out, the other lines are whole"
        ) from error


def _is_edit(line: bytes) -> bool:
    try:
        json.loads(line)
    except ValueError:
        return False
    return True


@contextmanager
def _to_disk(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise WalkError(
            f"'{path}' cannot be read or written ({error.strerror}); nothing was changed, "
            "look whether the disk is full and who may write there"
        ) from error
