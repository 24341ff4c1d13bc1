"""Kill a program that edits a walk, at random moments, again and again: what was told to count must be there.

    python bench/kill_review.py 300

Prints how many edits were told to count, how many of those were found again, how many more were on the disk
(the one in flight, at most one a kill), and how many lines were torn. Status 1 where one was lost.
"""

import random
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path

from saycheck.models.review import Edit
from saycheck.review.edits import append, new_id, now, read

WRITER = """
import sys
from pathlib import Path
from saycheck.models.review import Edit
from saycheck.review.edits import append, new_id, now
print("ready", flush=True)
while True:
    edit = Edit(id=new_id(), at=now(), who="writer", action="settle", reason="x" * 20_000)
    append(Path(sys.argv[1]), lambda _: [edit])
    print(edit.id, flush=True)
"""
LONGEST_S = 0.25
"""A writer lives at most this long, in seconds, after it is ready."""


@dataclass
class Count:
    """What came out: ids told to count, ids lost, edits that nobody was told of, torn lines kept aside."""

    told: list[str] = field(default_factory=list)
    lost: list[str] = field(default_factory=list)
    more: int = 0
    torn: int = 0
    most_more: int = 0


def _only(edit: Edit, _: object) -> list[Edit]:
    return [edit]


def killed(folder: Path, rounds: int, dice: random.Random) -> Count:
    """Kill a writer ``rounds`` times; after each kill another edit must go through."""
    count = Count()
    known: set[str] = set()
    for _ in range(rounds):
        told = _round(folder, LONGEST_S * dice.random())
        mine = Edit(id=new_id(), at=now(), who="after", action="settle")
        append(folder, partial(_only, mine))
        there = {edit.id for edit in read(folder)}
        count.told += told
        count.lost += [one for one in [*told, mine.id] if one not in there]
        more = len(there - known - set(told) - {mine.id})
        count.more += more
        count.most_more = max(count.most_more, more)
        known = there
    count.torn = len(list(folder.glob("edits-torn-*")))
    return count


def _round(folder: Path, seconds: float) -> list[str]:
    """Let a writer write for so long, kill it, and return the ids that it said were on the disk."""
    command = [sys.executable, "-c", WRITER, str(folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as writer:
        assert writer.stdout is not None
        assert writer.stdout.readline() == "ready\n"
        time.sleep(seconds)
        writer.kill()
        return [line.strip() for line in writer.stdout if line.endswith("\n")]


def main() -> int:
    """Kill as often as is asked for, 200 times otherwise, and print what came out."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    with tempfile.TemporaryDirectory() as folder:
        count = killed(Path(folder), rounds, random.Random())
    print(f"killed {rounds} times: {len(count.told)} edits told to count, {len(count.lost)} of them lost, ")
    print(f"{count.more} more found (at most {count.most_more} a kill), {count.torn} torn lines kept aside")
    return 1 if count.lost or count.most_more > 1 else 0


if __name__ == "__main__":
    sys.exit(main())
