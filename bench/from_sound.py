"""Score walks heard from sound: labelled narrations spoken by a synthetic voice, heard by both ears, understood.

    python bench/from_sound.py [--voice heart] [--snr 10] [--every 15] [--aside]

Speaks every N-th narration (``bench/speak.py``; engine noise mixed in where ``--snr`` is given, in decibels), hears it
as ``saycheck hear`` does and scores the walk against the labels. Prints the table of ``bench/score_walks.py``, all
together only. A narration of five minutes takes half a minute on two cores, and as long again to be spoken first.
"""

import argparse
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

from narrations import ASIDE, SEEN, TUNE, Narration, known, narrations
from saycheck.run import Asked, hear_file
from saycheck.scoring import score
from score_walks import Scored, table
from speak import speak, spoken, with_noise, write_wav


def heard(one: Narration, voice: str, snr: float | None, folder: Path) -> Scored:
    """A narration spoken and heard, with its counts."""
    sound = speak(spoken(one.labels.text), voice)
    path = folder / f"{one.name}.wav"
    write_wav(path, sound if snr is None else with_noise(sound, snr))
    begin = time.process_time()
    walk = hear_file(path, Asked(machine=one.labels.machine))
    return Scored(one, *score(one.labels, walk), time.process_time() - begin)


def main(argv: Sequence[str]) -> int:
    """Speak, hear, score and print."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--voice", default="heart", help="who speaks; bench/speak.py --voices lists them")
    parser.add_argument("--snr", type=float, help="speech above engine noise, in decibels; none without it")
    parser.add_argument("--every", type=int, default=15, metavar="N", help="every N-th narration")
    parser.add_argument("--aside", action="store_true", help="of those kept aside")
    asked = parser.parse_args(argv)
    given = known(narrations(ASIDE if asked.aside else TUNE))[:: asked.every]
    scored: list[Scored] = []
    with tempfile.TemporaryDirectory() as folder:
        for number, one in enumerate(given, 1):
            print(f"\r{number} of {len(given)}", end="", file=sys.stderr, flush=True)
            scored.append(heard(one, asked.voice, asked.snr, Path(folder)))
    print(file=sys.stderr)
    print(table({"all": scored}))
    if not asked.aside:
        print(SEEN)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
