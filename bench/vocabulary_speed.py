"""How long the vocabulary takes to load and compile.

Usage: python bench/vocabulary_speed.py

Each figure is the best of several runs, each in a new process, after imports: all shipped machine kinds in one
go, then each kind alone. It is processor time, so that what else the machine does counts
little. Status 1 where all together take longer than 1 s, or a kind longer than 150 ms.
"""

import subprocess
import sys

ALL_S = 1.0
ONE_S = 0.150
RUNS = 3

CODE = """
import sys, time
import pydantic
from saycheck.vocabulary.load import kinds, load
began = time.process_time()
for kind in sys.argv[1:] or kinds():
    load(kind)
print(time.process_time() - began)
"""


def seconds(*wanted: str) -> float:
    """The best processor time for loading these kinds, all where none is named, in seconds."""
    runs = [
        subprocess.run([sys.executable, "-c", CODE, *wanted], capture_output=True, text=True, check=True)
        for _ in range(RUNS)
    ]
    return min(float(run.stdout) for run in runs)


def main() -> int:
    """Print the times; the status."""
    from saycheck.vocabulary.load import kinds

    together = seconds()
    print(f"{'all kinds':<24}{1000 * together:7.0f} ms   aim {1000 * ALL_S:.0f} ms")
    alone = {kind: seconds(kind) for kind in kinds()}
    for kind, time in alone.items():
        print(f"{kind:<24}{1000 * time:7.0f} ms   aim {1000 * ONE_S:.0f} ms")
    return 1 if together > ALL_S or max(alone.values()) > ONE_S else 0


if __name__ == "__main__":
    sys.exit(main())
