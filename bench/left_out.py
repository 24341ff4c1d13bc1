"""Score the narrations to tune on with every trained part as if their writers had not been learned from.

    python bench/left_out.py FOLDER [--raw] [--only NAME] [--half odd|even] [--detail]

FOLDER holds what the training scripts (``bench/train_*.py FOLDER``) learned without each writer; confidence alone is
that shipped. A rule is kept where both halves of the narrations rise by it, each second one of a writer.
"""

import argparse
import sys
from collections.abc import Iterable, Sequence
from itertools import groupby
from pathlib import Path

from narrations import TUNE, Narration, known, narrations, raw
from score_walks import Scored, groups, ours, print_detail, score_all, table
from train_statements import left_out


def scored(given: Iterable[Narration], folder: Path) -> list[Scored]:
    """Each narration understood as its writer's first; those of writers who were not left out are passed over."""
    out: list[Scored] = []
    for writer, group in groupby(given, key=lambda one: one.writer):
        with left_out(writer, folder) as done:
            if done:
                out += score_all(group, ours())
    return out


def half(given: Sequence[Narration], which: str | None) -> list[Narration]:
    """Every second narration; all of them where no half is asked for."""
    return list(given) if which is None else list(given[which == "odd" :: 2])


def main(argv: Sequence[str]) -> int:
    """Score and print; exit status 1 where there is nothing to score."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folder", type=Path, help="what was learned without each writer")
    parser.add_argument("--raw", action="store_true", help="no capitals, no marks, numbers in words")
    parser.add_argument("--only", metavar="NAME", help="only narrations whose name begins so")
    parser.add_argument("--half", choices=("odd", "even"), help="every second narration")
    parser.add_argument("--detail", action="store_true", help="show the words behind the counts")
    asked = parser.parse_args(argv)
    given = half(known(narrations(TUNE, asked.only)), asked.half)
    if asked.raw:
        given = [Narration(one.name, raw(one.labels)) for one in given]
    found = scored(given, asked.folder)
    if not found:
        print(f"{asked.folder} holds nothing learned without these writers", file=sys.stderr)
        return 1
    print(table(groups(found, closed=True)))
    if asked.detail:
        print_detail(found)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
