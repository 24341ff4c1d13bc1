"""Kill a recording, hundreds of times, and look at how much of what was spoken is in the file.

    python bench/kill.py [--times 300] [--seed 0]

A steady source stands in for the microphone: its samples tell by their value when they were spoken, so the
last one in the file tells how much is missing. A third of the kills (SIGKILL) hit the recorder, a third the
program that started it, a third both at once. Printed: the seconds lost at worst and at the median, and how
many files could not be read. Status 1 where more than half a second was lost or a file could not be read.
"""

import argparse
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from functools import partial
from pathlib import Path
from statistics import median

import numpy as np

from saycheck.capture.files import blocks
from saycheck.capture.recorder import Recorder
from sources import CYCLE, RATE, Steady

MOST_LOST_S = 0.5
WHOM = ("recorder", "program", "both")


def record(path: Path, since: float) -> None:
    """What the killed program does: record until killed, and tell once that it does."""
    with Recorder(path, partial(Steady, since)) as recorder:
        print(recorder.pid, flush=True)
        while True:
            time.sleep(1)


def killed(folder: Path, whom: str, after_s: float) -> float:
    """Record, kill after a while, and return the seconds of sound that are missing in the file."""
    path = folder / f"{time.monotonic_ns()}.wav"
    since = time.monotonic()
    program = subprocess.Popen(
        [sys.executable, __file__, "--record", str(path), str(since)], stdout=subprocess.PIPE, text=True
    )
    assert program.stdout is not None
    recorder = int(program.stdout.readline())
    time.sleep(after_s)
    victims = {"recorder": [recorder], "program": [program.pid], "both": [program.pid, recorder]}[whom]
    for victim in victims:
        os.kill(victim, signal.SIGKILL)
    at = time.monotonic() - since
    program.kill()
    program.wait()
    while _runs(recorder):
        time.sleep(0.01)
    return max(at - last_spoken_s(path, at), 0.0)


def last_spoken_s(path: Path, about_s: float) -> float:
    """When the last sample of a file was spoken; all samples must follow one another without a gap.

    Raises:
        ValueError: they do not.
    """
    sound = np.rint(np.concatenate(list(blocks(path))) * 32768).astype(np.int64) + CYCLE // 2
    if not np.array_equal(np.diff(sound) % CYCLE, np.ones(len(sound) - 1)):
        raise ValueError(f"'{path}' does not hold what was spoken")
    cycles = round((about_s * RATE - sound[-1]) / CYCLE)
    return float(cycles * CYCLE + sound[-1] + 1) / RATE


def _runs(process: int) -> bool:
    try:
        return Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--times", type=int, default=300)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--record", nargs=2, metavar=("PATH", "SINCE"), help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if asked.record:
        record(Path(asked.record[0]), float(asked.record[1]))
        return 0
    chance = random.Random(asked.seed)
    lost: list[float] = []
    unreadable = 0
    with tempfile.TemporaryDirectory() as folder:
        for nth in range(asked.times):
            try:
                lost.append(killed(Path(folder), WHOM[nth % 3], chance.uniform(0.05, 1.5)))
            except Exception as error:  # whatever the reader or the check throws counts
                unreadable += 1
                print(f"kill {nth}: {error}", file=sys.stderr)
    print(f"kills: {asked.times}; files that could not be read: {unreadable}")
    print(f"sound lost: {max(lost, default=0):.3f} s at worst, {median(lost or [0]):.3f} s at the median")
    return int(unreadable > 0 or max(lost, default=0) > MOST_LOST_S)


if __name__ == "__main__":
    sys.exit(main())
