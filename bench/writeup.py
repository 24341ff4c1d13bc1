"""How long the write-up of a walk takes, as PDF, HTML and CSV, from walk folder to file in a process of its own.

    python bench/writeup.py [--findings 100] [--runs 5] [--machine wheel-loader]

The PDF of a walk of 100 findings must take less than 2 s; status 1 where the middle run takes longer.
"""

import argparse
import hashlib
import os
import statistics
import subprocess
import sys
import tempfile
import time
from itertools import cycle, islice
from pathlib import Path

from saycheck import __version__
from saycheck.coverage.checklist import checklist
from saycheck.models.walk import (
    SCHEMA,
    Evidence,
    Finding,
    Machine,
    MadeBy,
    Measurement,
    Side,
    Source,
    Span,
    State,
    Transcript,
    Walk,
    Word,
)  # fmt: skip
from saycheck.vocabulary.load import load
from saycheck.walkfolder import writing

LIMIT_S = 2.0

_SAID: tuple[tuple[State, str, str], ...] = (
    (
        "writeup",
        "crack",
        "has a crack running out of the weld, about as long as my hand, so that one wants doing",
    ),
    ("watch", "worn", "is worn down to seventeen millimetres, it will do for now but keep an eye on it"),
    ("writeup", "leak", "is leaking, it is running down and there is a puddle under it"),
    ("hidden", "hidden", "I can't see for the mud, somebody has to wash it"),
    ("writeup", "loose", "is loose, I can move it by hand"),
    ("later", "later", "I will do when it is warm"),
)


def walk_of(findings: int, kind: str = "wheel-loader") -> Walk:
    """A walk of so many findings, one after the other along the checklist, as often round as it takes."""
    vocabulary = load(kind)
    text = ""
    found: list[Finding] = []
    spans: list[Span] = []
    lines = islice(cycle(vocabulary.lines), findings)
    for number, (line, (state, condition, words)) in enumerate(zip(lines, cycle(_SAID)), 1):
        side: Side = line.side
        start = len(text)
        text += f"The {line.part} {words}. "
        at = Evidence(char_start=start, char_end=len(text) - 2, start_s=5.0 * number, end_s=5.0 * number + 3)
        check = vocabulary.check_of(vocabulary.part(line.part), condition)
        size = Measurement(value=17, unit="mm", text="17 mm", value_si=0.017, unit_si="m", plus_minus=0.5)
        found.append(
            Finding(
                id=f"f{number:03}", zone=line.zone, part=line.part, side=side, state=state, condition=condition,
                check=check.name if check else condition, heard_as=words, confidence=0.9, evidence=[at],
                measurements=[size] if condition == "worn" else [], line=line.part,
                caution=vocabulary.part(line.part).caution,
            )
        )  # fmt: skip
        spans.append(
            Span(char_start=start, char_end=len(text), disposition="finding", finding_ids=[found[-1].id])
        )
    digest = hashlib.sha256(text.encode()).hexdigest()
    return Walk(
        schema=SCHEMA,
        id=f"2025-03-09-{digest[:8]}",
        machine=Machine(kind=kind, unit="loader seven", hours=8412),
        source=Source(name="walk.m4a", sha256=digest, duration_s=5.0 * findings + 10),
        transcript=Transcript(text=text, words=_words(text), spans=spans),
        findings=found,
        checklist=checklist(vocabulary, found),
        made_by=MadeBy(version=__version__, ears=["builtin", "trade"], vocabulary=vocabulary.version),
    )


def _words(text: str) -> list[Word]:
    words, at = [], 0
    for word in text.split():
        at = text.index(word, at)
        words.append(Word(text=word, char_start=at, char_end=at + len(word)))
        at += len(word)
    return words


def seconds(command: list[str]) -> tuple[float, float]:
    """Wall-clock and processor seconds of one run."""
    before = os.times()
    begin = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    wall = time.perf_counter() - begin
    after = os.times()
    return wall, after.children_user + after.children_system - before.children_user - before.children_system


def main() -> int:
    """Measure and print."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--findings", type=int, default=100)
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--machine", default="wheel-loader")
    asked = parser.parse_args()
    middles = {}
    with tempfile.TemporaryDirectory() as there:
        folder = Path(there) / "walk"
        with writing(folder) as draft:
            draft.write(walk_of(asked.findings, asked.machine))
        for form in ("pdf", "html", "csv"):
            command = [sys.executable, "-m", "saycheck", "writeup", str(folder), "--as", form, "--out", "-"]
            walls, used = zip(*(seconds(command) for _ in range(asked.runs)), strict=True)
            middles[form] = statistics.median(walls)
            print(
                f"{form:<5} best {min(walls):.2f} s, middle {middles[form]:.2f} s of {len(walls)} runs; "
                f"processor time {statistics.median(used):.2f} s"
            )
    print(
        f"a walk of {asked.findings} findings, from the folder to the last byte, start of the program included"
    )
    return 0 if middles["pdf"] < LIMIT_S else 1


if __name__ == "__main__":
    sys.exit(main())
