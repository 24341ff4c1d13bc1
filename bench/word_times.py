"""How far the times of heard words lie from those of a forced alignment of what was really said.

    python bench/word_times.py FOLDER [FOLDER ...]

FOLDER is where ``bench/hearings.py`` kept what was heard. The words that were said are aligned with the sound as it was
spoken, without noise, whole; the fused words were placed phrase by phrase, in the noise, as they were heard. Words that
were heard right are compared. Both alignments are pocketsphinx's, so what is measured is what hearing adds.
"""

import argparse
import sys
from collections import defaultdict
from pathlib import Path

import numpy as np
from rapidfuzz.distance import Levenshtein

from hearings import Heard, order, read
from narrations import vocabulary_of
from saycheck.hearing.align import Aligner
from saycheck.hearing.joining import Fuse, fuse_for
from saycheck.hearing.spoken import plain
from speak import speak

NEAR_S = 0.1


def apart(one: Heard, fuse: Fuse, aligner: Aligner) -> list[tuple[float, float]]:
    """By how many seconds the start and the end of each word that was heard right are off."""
    said, heard = one.text.split(), [word for hearings in one.phrases for word in fuse(hearings)[0]]
    places = aligner.place(speak(one.text, one.voice), said)
    same = [
        (op.src_start + i, op.dest_start + i)
        for op in Levenshtein.opcodes([plain(w) for w in said], [plain(w.text) for w in heard])
        if op.tag == "equal"
        for i in range(op.src_end - op.src_start)
    ]
    return [
        (heard[there].start_s - places[here].start_s, heard[there].end_s - places[here].end_s)
        for here, there in same
    ]


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("folder", type=Path, nargs="+", help="where hearings.py kept what was heard")
    asked = parser.parse_args()
    aligner, found = Aligner(), defaultdict[str, list[tuple[float, float]]](list)
    kept = [one for folder in asked.folder for one in read(folder)]
    fuses = {kind: fuse_for(vocabulary_of(kind)) for kind in {one.kind for one in kept}}
    for one in kept:
        found[one.level] += apart(one, fuses[one.kind], aligner)
    print(
        f"{'level':10}{'words':>7}{'starts':>9}{'ends':>9}   within {NEAR_S * 1000:.0f} ms; half of all starts within"
    )
    for level in sorted(found, key=order):
        off = np.abs(np.array(found[level]))
        starts, ends = (off <= NEAR_S).mean(axis=0)
        print(f"{level:10}{len(off):7}{starts:9.3f}{ends:9.3f}   {1000 * np.median(off[:, 0]):.0f} ms")
    return 0


if __name__ == "__main__":
    sys.exit(main())
