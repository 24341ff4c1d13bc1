"""Whole walks as people spoke them, from ``vocab/shared/talk/*.txt``: one breath a line.

Made-up lines teach the ear which parts and faults there are; walks teach it how talk goes on.
"""

import random
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from saycheck.hearing.language.sentences import SEED, Spelling
from saycheck.vocabulary.load import roots_of

GO_ON = 0.5
"""How often the next breath follows before a pause; an ear hears what stands between two pauses."""
ROUNDS = 2
_RARE = 0.5
_EVENED = 0.6

Walk = list[list[str]]


def walk_files(folders: Sequence[Path] = ()) -> list[Path]:
    """The files of walks, the shipped ones first."""
    roots = roots_of(folders)
    return [path for root in roots for path in sorted((root / "shared" / "talk").glob("*.txt"))]


def read_walks(files: Sequence[Path], spelling: Spelling) -> list[Walk]:
    """The breaths of each walk as words."""
    walks: list[Walk] = [[]]
    for path in files:
        for line in [*path.read_text(encoding="utf-8").splitlines(), ""]:
            words = [] if line.startswith("#") else spelling.folded(line.lower().split())
            if words:
                walks[-1].append(words)
            elif walks[-1] and not line:
                walks.append([])
    return [walk for walk in walks if walk]


def stretches(walks: Sequence[Walk], seed: int = SEED) -> Iterator[list[str]]:
    """What stands between two pauses, drawn anew each round: one breath or several on end."""
    rng = random.Random(seed)
    for _ in range(ROUNDS):
        for walk in walks:
            said: list[str] = []
            for breath in walk:
                said = said + breath
                if rng.random() > GO_ON:
                    yield said
                    said = []
            if said:
                yield said


def commonness(walks: Sequence[Walk], spelling: Spelling) -> Callable[[str], float]:
    """How common a saying is in the walks: its count, evened out, and a little for what never came up."""
    counts = Counter(
        tuple(breath[at : at + length])
        for walk in walks
        for breath in walk
        for length in (1, 2, 3)
        for at in range(len(breath) - length + 1)
    )
    return lambda saying: float((_RARE + counts[tuple(spelling.folded(saying.split()))]) ** _EVENED)
