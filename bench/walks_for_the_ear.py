"""Put walks into the form in which the ears learn from them: one breath a line, numbers in words.

    python bench/walks_for_the_ear.py FOLDER OUT.txt

FOLDER holds plain texts (``*.txt``; a first line beginning with ``#`` is left out) or labelled narrations
(``*.json``). Made ``vocab/shared/talk/walks.txt`` from ``bench/material`` and ``vocab/shared/talk/narrated.txt``
from ``tests/narrations/tune``. Of narrations the words are kept that two of them say, others are mostly names; a
breath ends where one is left out. Those of ``HEARD`` are not read: never give it narrations that hearing is
measured on. A shop does the same with its own walks and puts the file into ``shared/talk/`` of its own folder.
"""

import re
import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from narrations import narrations
from speak import chunks, spoken

HEAD = "# Walks, one breath a line, for the ears to learn from; made by bench/walks_for_the_ear.py\n"
HEARD = frozenset(f"w{n}" for n in range(1, 10))
"""Writers whose narrations hearing is tuned on: what the ears are given must not hold them."""
FEWEST = 2
"""In so many narrations a word is said, at least."""


def lines(text: str) -> list[str]:
    """The breaths of a text in lower case, without punctuation, numbers in words."""
    breaths = (
        re.sub(r"[^a-z' ]", " ", breath.lower().replace("’", "'")) for breath, _ in chunks(spoken(text))
    )
    return [" ".join(breath.split()) for breath in breaths if breath.strip()]


def told(folder: Path) -> list[list[str]]:
    """The breaths of the labelled narrations in a folder, without words that hardly anybody says."""
    walks = [lines(one.labels.text) for one in narrations(folder) if one.writer not in HEARD]
    said_in = Counter(word for walk in walks for word in {w for line in walk for w in line.split()})
    usual = {word for word, count in said_in.items() if count >= FEWEST}
    return [[run for line in walk for run in runs(line.split(), usual)] for walk in walks]


def runs(words: Sequence[str], usual: set[str]) -> Iterator[str]:
    """The words of a breath, cut at each that is not usual."""
    run: list[str] = []
    for word in [*words, ""]:
        if word in usual:
            run.append(word)
            continue
        if run:
            yield " ".join(run)
        run = []


def written(walks: Iterable[Sequence[str]]) -> str:
    """Walks as a file, an empty line behind each."""
    return HEAD + "\n".join(line for walk in walks for line in (*walk, ""))


def main() -> int:
    """Run the command described at the top of this file."""
    if len(sys.argv) != 3:
        print((__doc__ or "").strip(), file=sys.stderr)
        return 2
    folder = Path(sys.argv[1])
    texts = [path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.txt"))]
    walks = [lines(re.sub(r"\A#.*\n", "", text)) for text in texts] or told(folder)
    Path(sys.argv[2]).write_text(written(walks), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
