"""What the owner decided, as it stands in the walk folder."""

from pathlib import Path

from saycheck.history.records import Decided

DECISIONS = "decisions.jsonl"


def decided(folder: Path) -> tuple[Decided, ...]:
    """The decisions in a walk folder, none where there are none."""
    if not (folder / DECISIONS).exists():
        return ()
    return ()
