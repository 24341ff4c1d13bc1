"""The phoneme distance between any two parts of one zone, the closest first.

Usage: python bench/collisions.py [KIND ...] [--below 0.35]

For each pair: the distance of its closest two sayings, and for each part the saying that tells it best from
the other, with its distance to the nearest of the other's. Pairs below 0.2 are too close by that saying;
each must have another saying that is not, or a question. Status 1 where one has neither.
"""

import argparse
import sys

from saycheck.checkup.collisions import CLOSE, Collision, collisions
from saycheck.vocabulary.load import kinds, load


def row(kind: str, found: Collision) -> str:
    """One line of the table."""
    (mine, mine_at), (theirs, theirs_at) = found.apart
    question = next((part.ask for part in found.parts if part.ask), None)
    told = f"asks: {question}" if question else f"{mine} {mine_at:.2f} | {theirs} {theirs_at:.2f}"
    verdict = "" if found.is_settled else "  TOO CLOSE"
    said = f"{found.sayings[0]} / {found.sayings[1]}"
    return f"{found.distance:.2f}  {kind}, {found.zone}: {said:<50} told apart by {told}{verdict}"


def main() -> int:
    """Print the pairs; the status."""
    options = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    options.add_argument("kinds", nargs="*", metavar="KIND")
    options.add_argument("--below", type=float, default=0.35, help="print pairs closer than this")
    given = options.parse_args()
    pairs = [
        (found, kind)
        for kind in given.kinds or kinds()
        for found in collisions(load(kind), max(given.below, CLOSE))
    ]
    pairs.sort(key=lambda pair: pair[0].distance)
    for found, kind in pairs:
        print(row(kind, found))
    close = [found for found, _ in pairs if found.distance < CLOSE]
    unsettled = sum(not found.is_settled for found in close)
    print(
        f"{len(pairs)} pairs below {given.below:g}, {len(close)} too close by a saying, {unsettled} of them unsettled"
    )
    return 1 if unsettled else 0


if __name__ == "__main__":
    sys.exit(main())
