"""The owner's decisions on the disk: ``decisions.jsonl`` in the walk folder, one a line, only ever added to.

A decision is on the disk (fsync) before anyone is told that it counts. Whoever remembers walks reads them
so, without loading anything else::

    from saycheck.decisions import read
    from saycheck.models.decisions import standing_decisions

    for finding_id, decision in standing_decisions(read(folder)).items():
        print(decision.at, decision.who, decision.choice, decision.part, decision.side)
"""

import os
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from pydantic import ValidationError

from saycheck.errors import WalkError
from saycheck.models.decisions import Choice, Decision
from saycheck.models.walk import Finding
from saycheck.review.edits import locked

DECISIONS = "decisions.jsonl"


def read(folder: Path) -> list[Decision]:
    """The decisions of a walk, oldest first; none where nobody has decided anything.

    A last line that a dying program left half written is left out; it was never told to count.

    Raises:
        WalkError: a line is damaged, or the file cannot be read.
    """
    path = folder / DECISIONS
    try:
        content = path.read_bytes() if path.exists() else b""
    except OSError as error:
        raise WalkError(f"'{path}' cannot be read ({error.strerror}); check who may read it") from error
    *whole, rest = content.split(b"\n")
    lines = [*whole, rest] if _whole(rest) else whole
    return [_decision(line, number, path) for number, line in enumerate(lines, 1) if line.strip()]


def decide(finding: Finding, choice: Choice | None, who: str, note: str = "") -> Decision:
    """A decision of now, not on the disk yet."""
    return Decision(
        at=datetime.now(UTC).isoformat(timespec="seconds").replace("+00:00", "Z"),
        who=who,
        finding=finding.id,
        choice=choice,
        note=note,
        zone=finding.zone,
        part=finding.part,
        side=finding.side,
        condition=finding.condition,
    )


def append(folder: Path, decisions: Sequence[Decision]) -> None:
    """Add decisions; they are on the disk when this returns.

    Raises:
        WalkError: another program holds the walk too long, or the folder cannot be written.
    """
    path = folder / DECISIONS
    lines = "".join(f"{one.model_dump_json()}\n" for one in decisions).encode()
    with locked(folder):
        try:
            lines = _mend(path) + lines
            is_new = not path.exists()
            _put(path, lines)
            if is_new and os.name != "nt":
                _sync(folder)
        except OSError as error:
            raise WalkError(
                f"'{path}' cannot be written ({error.strerror}); nothing was decided, "
                "look whether the disk is full and who may write there"
            ) from error


def _mend(path: Path) -> bytes:
    """What must be written before a new line; what a dying program left half written is put aside."""
    content = path.read_bytes() if path.exists() else b""
    rest = content.rsplit(b"\n", 1)[-1]
    if not rest:
        return b""
    if _whole(rest):
        return b"\n"
    aside, number = path.with_name("decisions-torn.txt"), 1
    while aside.exists():
        number += 1
        aside = path.with_name(f"decisions-torn-{number}.txt")
    _put(aside, rest)
    with path.open("r+b") as file:
        file.truncate(len(content) - len(rest))
        os.fsync(file.fileno())
    return b""


def _put(path: Path, content: bytes) -> None:
    with path.open("ab") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _whole(line: bytes) -> bool:
    try:
        Decision.model_validate_json(line)
    except ValidationError:
        return False
    return True


def _sync(folder: Path) -> None:
    number = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(number)
    finally:
        os.close(number)


def _decision(line: bytes, number: int, path: Path) -> Decision:
    try:
        return Decision.model_validate_json(line)
    except ValidationError as error:
        raise WalkError(
            f"line {number} of '{path}' is damaged; put it right or take it out, the other lines are whole"
        ) from error
