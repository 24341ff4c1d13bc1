"""Score what saycheck understands of labelled narrations.

    python bench/score_walks.py [--raw] [--heard FOLDER] [--only NAME] [--detail] [--json]
    python bench/score_walks.py --aside [--raw]

Prints a table: all narrations together, by writer, by machine kind, one by one. ``--raw`` turns texts and
quotes into a recogniser's style first; ``--heard`` takes the transcripts NAME.txt of a folder instead of
the written texts. ``--aside`` scores the narrations that no rule is tuned to, all together and by
writer only: nobody who works on the rules should see more of them.
"""

import argparse
import dataclasses
import json
import sys
import time
from collections.abc import Callable, Iterable, Sequence
from itertools import groupby
from pathlib import Path
from typing import Any

from narrations import ASIDE, SEEN, TUNE, Narration, known, narrations, raw
from saycheck.models.walk import Walk
from saycheck.scoring import Counts, Detail, figures, score
from saycheck.scoring.figures import total

Understand = Callable[[str, str], Walk]
"""Text and machine kind in, walk out."""

COLUMNS = {
    "F1": "F1",
    "precision": "prec",
    "recall": "rec",
    "side": "side",
    "measure": "meas",
    "denial": "deny",
    "talk_taken_for_finding": "talk",
    "lost_silently": "lost",
    "called_good": "good",
    "invented": "inv",
    "wrong_numbers": "num",
    "wrong_flagged": "wflag",
    "correct_flagged": "rflag",
    "unsaid_recall": "unsaid",
    "false_unsaid": "false",
    "accounted": "acc",
}


@dataclasses.dataclass(frozen=True)
class Scored:
    """One narration with its counts, its detail and the processor seconds that understanding took."""

    narration: Narration
    counts: Counts
    detail: Detail
    seconds: float


def ours() -> Understand:
    """Saycheck's own understanding, vocabulary loaded."""
    from text_walk import read_walk

    return read_walk


def score_all(given: Iterable[Narration], understand: Understand, heard: Path | None = None) -> list[Scored]:
    """Understand and score each narration; ``heard`` holds transcripts to be understood in their stead.

    Machine by machine, each with a word said beforehand, so that loading does not count as reading.
    """
    scored = []
    for machine, group in groupby(sorted(given, key=_machine), key=_machine):
        understand("The bucket is fine.", machine)
        for narration in group:
            text = narration.labels.text
            if heard is not None:
                text = (heard / f"{narration.name}.txt").read_text(encoding="utf-8").strip()
            begin = time.process_time()
            walk = understand(text, machine)
            seconds = time.process_time() - begin
            scored.append(Scored(narration, *score(narration.labels, walk), seconds))
    return sorted(scored, key=lambda one: one.narration.name)


def _machine(narration: Narration) -> str:
    return narration.labels.machine


def groups(scored: Sequence[Scored], closed: bool = False) -> dict[str, list[Scored]]:
    """Rows of the table by name; ``closed`` leaves out machines and single narrations."""
    rows: dict[str, list[Scored]] = {"all": list(scored)}
    for one in scored:
        rows.setdefault(one.narration.writer, []).append(one)
    for one in [] if closed else scored:
        rows.setdefault(one.narration.labels.machine, []).append(one)
    for one in [] if closed else scored:
        rows[one.narration.name] = [one]
    return rows


def table(rows: dict[str, list[Scored]]) -> str:
    """The figures of each row in columns, a short dash where there is nothing to share."""
    width = max(len(name) for name in rows)
    lines = [" " * width + "  walks" + "".join(f"{head:>7}" for head in COLUMNS.values())]
    for name, scored in rows.items():
        values = figures(total(one.counts for one in scored))
        cells = "".join(f"{_cell(values[key]):>7}" for key in COLUMNS)
        lines.append(f"{name:<{width}}{len(scored):>7}{cells}")
    return "\n".join(lines)


def _cell(value: object) -> str:
    if value is None:
        return "-"
    return f"{value:.3f}" if isinstance(value, float) else str(value)


def words_per_second(scored: Sequence[Scored]) -> float:
    """Speed of understanding over all narrations, in words per processor second."""
    return sum(one.narration.words for one in scored) / max(sum(one.seconds for one in scored), 1e-9)


def as_json(rows: dict[str, list[Scored]], detail: bool) -> dict[str, Any]:
    """The same figures for other programs, with the detail of each narration where asked for."""
    out: dict[str, Any] = {
        name: figures(total(one.counts for one in scored)) for name, scored in rows.items()
    }
    out["words_per_second"] = round(words_per_second(rows["all"]))
    if detail:
        out["detail"] = {one.narration.name: dataclasses.asdict(one.detail) for one in rows["all"]}
    return out


def print_detail(scored: Iterable[Scored]) -> None:
    """What stands behind the counts, narration by narration."""
    for one in scored:
        print(f"\n== {one.narration.name} ({one.narration.labels.machine})")
        for name, rows in dataclasses.asdict(one.detail).items():
            for row in rows:
                print(f"{name:>18}: {row if isinstance(row, str) else ' | '.join(map(str, row))}")


def arguments(argv: Sequence[str]) -> argparse.Namespace:
    """Parse the command line."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folder", nargs="?", type=Path, default=TUNE, help="labelled narrations")
    parser.add_argument("--aside", action="store_true", help="score the narrations kept aside")
    parser.add_argument("--raw", action="store_true", help="no capitals, no marks, numbers in words")
    parser.add_argument("--heard", type=Path, help="folder of transcripts NAME.txt to understand instead")
    parser.add_argument("--only", metavar="NAME", help="only narrations whose name begins so")
    parser.add_argument("--detail", action="store_true", help="show the words behind the counts")
    parser.add_argument("--json", action="store_true", help="print JSON")
    asked = parser.parse_args(argv)
    if asked.aside and (asked.detail or asked.only):
        parser.error("narrations kept aside are scored as a whole; leave out --detail and --only")
    return asked


def main(argv: Sequence[str]) -> int:
    """Score and print; exit status 1 where there is nothing to score."""
    asked = arguments(argv)
    given = known(narrations(ASIDE if asked.aside else asked.folder, asked.only))
    if not given:
        print("there is no labelled narration of that name", file=sys.stderr)
        return 1
    if asked.raw:
        given = [Narration(one.name, raw(one.labels)) for one in given]
    scored = score_all(given, ours(), asked.heard)
    rows = groups(scored, closed=asked.aside)
    if asked.json:
        print(json.dumps(as_json(rows, asked.detail), indent=1))
        return 0
    print(table(rows))
    print(f"\n{words_per_second(scored):,.0f} words per processor second")
    if not asked.aside and asked.folder == TUNE:
        print(SEEN)
    if asked.detail:
        print_detail(scored)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
