"""The owner's decisions on the disk: ``decisions.jsonl`` in the walk folder, one a line, only ever added to.

A decision is on the disk (fsync) before anyone is told that it counts. Whoever remembers walks reads them
so, without loading anything else::

    from saycheck.decisions import read
    from saycheck.models.decisions import standing_decisions

    for finding_id, decision in standing_decisions(read(folder)).items():
        print(decision.at, decision.who, decision.choice, decision.part, decision.side)
"""

from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from pydantic import ValidationError

from saycheck.errors import WalkError
from saycheck.lasting import add, end_whole, sync
from saycheck.models.decisions import Choice, Decision
from saycheck.models.walk import Finding
from saycheck.review.edits import locked, read_line

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
    return [read_line(Decision, line, number, path) for number, line in enumerate(lines, 1) if line.strip()]


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
            end_whole(path, _whole, "decisions-torn")
            is_new = not path.exists()
            add(path, lines)
            if is_new:
                sync(folder)
        except OSError as error:
            raise WalkError(
                f"'{path}' cannot be written ({error.strerror}); nothing was decided, "
                "look whether the disk is full and who may write there"
            ) from error


def _whole(line: bytes) -> bool:
    try:
        Decision.model_validate_json(line)
    except ValidationError:
        return False
    return True
