"""How long `saycheck --help` takes from nothing: wall clock and processor time, best and middle run.

    python bench/help_speed.py [--runs 15]

It must stay under 0.3 s. What it loads is held by a test (tests/test_cli.py); the time depends on the
machine and on what else runs there.
"""

import argparse
import os
import statistics
import subprocess
import sys
import time

LIMIT_S = 0.3


def seconds(command: list[str]) -> tuple[float, float]:
    """Wall-clock and processor seconds of one run."""
    before = os.times()
    begin = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    wall = time.perf_counter() - begin
    after = os.times()
    used = after.children_user + after.children_system - before.children_user - before.children_system
    return wall, used


def main() -> int:
    """Measure and print; exit status 1 where the middle run takes longer than it may."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--runs", type=int, default=15)
    runs = [seconds([sys.executable, "-m", "saycheck", "--help"]) for _ in range(parser.parse_args().runs)]
    walls, used = zip(*runs, strict=True)
    middle = statistics.median(walls)
    print(f"saycheck --help: best {min(walls):.3f} s, middle {middle:.3f} s of {len(runs)} runs")
    print(f"processor time:  best {min(used):.3f} s, middle {statistics.median(used):.3f} s")
    return 0 if middle < LIMIT_S else 1


if __name__ == "__main__":
    sys.exit(main())
