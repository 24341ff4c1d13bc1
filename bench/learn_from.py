"""What is gained by learning from a speaker's other walks: heard without and with it, beside each other.

    python bench/learn_from.py FOLDER --writers w5,w12 --voices heart,joe
    python bench/learn_from.py FOLDER2 --learn bench/material/shop/learn --hear bench/material/shop/hear --writers s1

Of each writer some walks are learned from (by default those in ``tests/narrations/tune``) and others are heard
(those in ``tests/narrations/aside``), a stretch of each, in the voices in turn. The shop of ``bench/material/shop``
is made up for this, to speak in words of its own; the other writers hardly have any. What was heard is kept in
FOLDER, so that it is heard once only.

Printed for the general ear, the trade ear and the fused reading: word error rate, statements heard word-perfect,
and of the writer's own words, which the ears do not know unless they learn them, how many are heard right; below
it, how many walks became better and worse.
"""

import argparse
import os
import sys
from collections import defaultdict
from collections.abc import Sequence
from functools import cache
from pathlib import Path

import hearings
from hear_figures import Compared, Share, transcript_of
from heard import score
from hearings import Heard
from narrations import ASIDE, TUNE, Narration, narrations
from saycheck.hearing.joining import fuse_for
from saycheck.hearing.language.learned import LEARNED, choose, keep
from saycheck.hearing.language.lookup import WordModel
from saycheck.hearing.language.model import trade_language
from saycheck.vocabulary.load import load

WAYS = ("without", "with")
EARS = ("general", "trade", "fused")


def hear(writers: Sequence[str], asked: argparse.Namespace) -> None:
    """Hear the walks of each writer kept aside, without and with having learned from those to tune on."""
    hearings.WORDS = asked.words
    for nth, writer in enumerate(writers):
        to_hear = of(asked.hear, writer)[: asked.walks]
        texts = [one.labels.text for one in of(asked.learn, writer)][: asked.learned]
        if not to_hear or not texts:
            raise SystemExit(f"writer '{writer}' has nothing to hear or to learn from")
        voices = asked.voices.split(",")
        turn = voices[nth % len(voices) :] + voices[: nth % len(voices)]
        for way in WAYS:
            learn(texts if way == "with" else None)
            hearings.hear(to_hear, [asked.level], turn, asked.folder / way / writer, asked.noise)


def of(folder: Path, writer: str) -> list[Narration]:
    """The narrations of one writer in a folder."""
    return narrations(folder, f"{writer}-")


def learn(texts: Sequence[str] | None) -> None:
    """Let the ears that are opened from now on learn from texts; None lets them learn nothing."""
    if texts is None:
        os.environ.pop(LEARNED, None)
    else:
        choose(keep(texts))


def texts_of(one: Heard) -> dict[str, str]:
    """What each ear heard, and what was made of both."""
    return {
        "general": " ".join(word.text for hearing, _ in one.phrases for word in hearing.words),
        "trade": " ".join(word.text for _, hearing in one.phrases for word in hearing.words),
        "fused": transcript_of(one, fuse_for(load(one.kind))).text,
    }


def own_words(kind: str, words: Sequence[str], texts: Sequence[str]) -> list[int]:
    """Where words stand that the ears of a machine kind learn from the texts and do not know without."""
    without, learned = known(kind, None), known(kind, keep(texts))
    return [at for at, word in enumerate(words) if learned.knows(word) and not without.knows(word)]


@cache
def known(kind: str, learned: Path | None) -> WordModel:
    """The words of the ears of a machine kind, with what is learned from a file of theirs."""
    before = os.environ.pop(LEARNED, "")
    try:
        return trade_language(load(kind), learned=learned).words
    finally:
        os.environ[LEARNED] = before


def figures(writers: Sequence[str], asked: argparse.Namespace) -> None:
    """Print what was heard in both ways, by writer and of all, of the same walks."""
    errors: dict[tuple[str, str, str], Share] = defaultdict(Share)
    perfect: dict[tuple[str, str, str], Share] = defaultdict(Share)
    own: dict[tuple[str, str, str], Share] = defaultdict(Share)
    each: dict[tuple[str, str], dict[str, int]] = defaultdict(dict)
    for writer in writers:
        wanted = {one.name for one in of(asked.hear, writer)[: asked.walks]}
        texts = [one.labels.text for one in of(asked.learn, writer)][: asked.learned]
        for way in WAYS:
            learn(texts if way == "with" else None)
            for one in hearings.read(asked.folder / way / writer):
                if one.name not in wanted or one.level != asked.level:
                    continue
                for ear, text in texts_of(one).items():
                    scored = score(one.text, text, one.quotes)
                    compared = Compared.of(one.text, text)
                    places = own_words(one.kind, compared.words, texts)
                    right = sum(compared.right((at, at + 1)) for at in places)
                    for whose in (writer, "all"):
                        errors[whose, way, ear].add(scored.errors, scored.words)
                        perfect[whose, way, ear].add(sum(scored.perfect), len(scored.perfect))
                        own[whose, way, ear].add(right, len(places))
                    each[one.name, ear][way] = scored.errors
    print(f"{'writer':8}{'ear':9}{'words':>7}{'word error':>12}{'learned':>9}{'statements':>12}"
          f"{'perfect':>9}{'learned':>9}{'own':>5}{'right':>8}{'learned':>9}")  # fmt: skip
    for whose in (*writers, "all"):
        for ear in EARS:
            one, other = (whose, WAYS[0], ear), (whose, WAYS[1], ear)
            print(f"{whose:8}{ear:9}{errors[one].of:7.0f}{errors[one]!s:>12}{errors[other]!s:>9}"
                  f"{perfect[one].of:12.0f}{perfect[one]!s:>9}{perfect[other]!s:>9}"
                  f"{own[one].of:5.0f}{own[one]!s:>8}{own[other]!s:>9}")  # fmt: skip
    for ear in EARS:
        changes = [found["with"] - found["without"] for (_, whose), found in each.items() if whose == ear]
        better, worse = sum(c < 0 for c in changes), sum(c > 0 for c in changes)
        print(f"{ear}: {better} walks with fewer wrong words, {worse} with more, {len(changes)} in all")


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("folder", type=Path, help="where what was heard is kept")
    parser.add_argument("--learn", type=Path, default=TUNE, help="folder of narrations to learn from")
    parser.add_argument("--hear", type=Path, default=ASIDE, help="folder of narrations to hear")
    parser.add_argument("--writers", required=True, help="such as w5,w12")
    parser.add_argument("--voices", default="heart,joe", help="taken in turn")
    parser.add_argument("--level", default="clean", help="clean, or decibels of speech over noise")
    parser.add_argument("--noise", default="engine")
    parser.add_argument("--words", type=int, default=hearings.WORDS, help="of each walk that is heard")
    parser.add_argument("--walks", type=int, default=3, help="of each writer that are heard")
    parser.add_argument("--learned", type=int, help="of each writer that are learned from; else all")
    asked = parser.parse_args()
    writers = asked.writers.split(",")
    hear(writers, asked)
    figures(writers, asked)
    return 0


if __name__ == "__main__":
    import learn_from  # what is pickled must be known by the modules' own names

    sys.exit(learn_from.main())
