"""How well the language model of the ears foretells people that it has not learned from.

    python bench/perplexity.py [--machine wheel-loader] [--every 3]

Of the narrations kept aside those are read whose writers have none to learn from, every so many of them. Prints
perplexity by word (the lower the better) and how many words the model does not know, which count for nothing else:
with all walks that are shipped, and with each of their files left out.
"""

import argparse
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path

from narrations import ASIDE, TUNE, narrations
from saycheck.hearing.language import model
from saycheck.hearing.language.lookup import WordModel
from saycheck.hearing.language.sentences import Spelling
from saycheck.hearing.language.talk import read_talk
from saycheck.hearing.language.walks import walk_files
from saycheck.vocabulary.load import load
from walks_for_the_ear import lines

Breaths = Sequence[Sequence[str]]


def strangers(every: int, spelling: Spelling) -> Breaths:
    """The breaths of people of whom nothing was learned, as words."""
    learned = {one.writer for one in narrations(TUNE)}
    kept = [one for one in narrations(ASIDE) if one.writer not in learned]
    return [spelling.folded(line.split()) for one in kept[::every] for line in lines(one.labels.text)]


def foretold(words: WordModel, breaths: Breaths) -> tuple[float, int, int]:
    """Perplexity by word, words that the model does not know, and words in all."""
    log, known, count = 0.0, 0, 0
    for breath in breaths:
        for at, word in enumerate(breath):
            count += 1
            if words.knows(word):
                before = ("<s>", *breath[:at])[-2:]
                log += words.logp10(before, word)
                known += 1
    return 10 ** (-log / known), count - known, count


def made(kind: str, files: Iterable[Path]) -> WordModel:
    """The words of the model that comes from these files of walks and the rest of the vocabulary."""
    talk = read_talk(())
    return WordModel(model.mixed(load(kind), (), list(files), None), Spelling(talk))


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--machine", default="wheel-loader", help="whose vocabulary")
    parser.add_argument("--every", type=int, default=3, metavar="N", help="every N-th narration")
    asked = parser.parse_args()
    breaths = strangers(asked.every, Spelling(read_talk(())))
    files = walk_files()
    print(f"{'walks':32}{'perplexity':>12}{'unknown':>10}{'of words':>10}")
    for left_out in (None, *files):
        name = f"without {left_out.name}" if left_out else "all"
        words = made(asked.machine, [file for file in files if file != left_out])
        perplexity, unknown, count = foretold(words, breaths)
        print(f"{name:32}{perplexity:12.1f}{unknown:10}{count:10}", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
