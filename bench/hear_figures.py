"""Figures of hearing, from what ``hearings.py`` kept: each ear, either of them, and the fused reading.

    python bench/hear_figures.py FOLDER [FOLDER2]                print the table and the reliability of confidence
    python bench/hear_figures.py FOLDER --draw docs/pictures     draw both as SVG too (needs matplotlib)

For each noise level: word error rate (jiwer, words made comparable as ``heard.py`` tells), share of statements
heard word-perfect (all; of terse narrations; of the others), share of numbers, sides and named parts right,
and of numbers right or marked doubtful (``saycheck.hearing.doubt``; what lies in an unclear passage counts as
marked). A number is a run of figures, points and fractions, every one of its words; "one" by itself is none.
``speed`` is processor time of one thread over the length of the sound. Below the table: how often fused words
are right at each confidence.
"""

import argparse
import sys
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

import jiwer

from heard import comparable, heard_for, score
from hearings import Heard, order, read
from narrations import vocabulary_of
from saycheck.hearing.doubt import doubts
from saycheck.hearing.hear import Page
from saycheck.hearing.joining import Fuse, fuse_for
from saycheck.models.walk import Transcript

EARS = ("plain", "general", "trade", "either", "fused")
FRACTIONS = frozenset("half quarter quarters third thirds eighth eighths sixteenth sixteenths".split())
SIDES = frozenset(("left", "right", "both"))
COLUMNS = ("wer", "perfect", "terse", "other", "numbers", "marked", "sides", "parts")

Place = tuple[int, int]


@dataclass
class Compared:
    """Said and heard words beside each other: ``mine[n]`` is what was heard for the said word n."""

    words: list[str]
    heard: list[str]
    mine: list[list[str]]
    chunks: list[tuple[int, int, int, int]]

    @classmethod
    def of(cls, said: str, heard: str) -> "Compared":
        """Compare two texts."""
        words, other = comparable(said), comparable(heard)
        changes = jiwer.process_words([" ".join(words)], [" ".join(other)]).alignments[0]
        chunks = [(c.ref_start_idx, c.ref_end_idx, c.hyp_start_idx, c.hyp_end_idx) for c in changes]
        return cls(words, other, heard_for(words, other, changes), chunks)

    def right(self, place: Place) -> bool:
        """Whether the words of a place were heard as said, however they are parted."""
        got = "".join(word for one in self.mine[place[0] : place[1]] for word in one)
        return got == "".join(self.words[place[0] : place[1]])

    def instead(self, place: Place) -> Place:
        """Where in what was heard a place lies, with the words next to it."""
        touching = [
            (c, d)
            if (a, b) != (c, d) and b - a != d - c
            else (c + max(place[0] - a, 0), d - max(b - place[1], 0))
            for a, b, c, d in self.chunks
            if a < place[1] and place[0] < max(b, a + 1)
        ]
        first, after = min((c for c, _ in touching), default=0), max((d for _, d in touching), default=0)
        return max(first - 1, 0), min(after + 1, len(self.heard))


def numbers(words: Sequence[str]) -> list[Place]:
    """Where numbers stand."""
    found = []
    kinds = [w.isdigit() or w in FRACTIONS or w in ("point", "minus") for w in words]
    at = 0
    for is_number, run in groupby(kinds):
        length = len(list(run))
        part = words[at : at + length]
        if is_number and any(w.isdigit() for w in part) and list(part) != ["1"]:
            found.append((at, at + length))
        at += length
    return found


def parts(one: Heard, words: Sequence[str]) -> list[Place]:
    """Where the parts of the labelled statements are named, by the longest saying that stands there."""
    named = [p.sayings for p in vocabulary_of(one.kind).parts]
    sayings = sorted(
        {tuple(comparable(saying)) for group in named for saying in group}, key=len, reverse=True
    )
    joined = f" {' '.join(words)} "
    found: list[Place] = []
    for item in one.gold:
        quote = f" {' '.join(comparable(item.quote))} "
        said = next((s for s in sayings if f" {' '.join(s)} " in quote), None)
        start = joined.find(quote)
        if said is None or start < 0:
            continue
        first = len(joined[: start + quote.index(f" {' '.join(said)} ") + 1].split())
        found.append((first, first + len(said)))
    return sorted(set(found))


def transcript_of(one: Heard, fuse: Fuse) -> Transcript:
    """The fused transcript as a recording gets it, unclear passages and other readings in it."""
    page = Page(fuse)
    for pair in one.phrases:
        page.add(list(pair))
    return page.transcript(one.passages)


def marked(transcript: Transcript) -> list[bool]:
    """For each comparable word of a transcript whether it, or the place it stands at, is marked."""
    places = [(d.char_start, d.char_end) for d in doubts(transcript)]
    places += [(s.char_start, s.char_end) for s in transcript.spans if s.disposition == "unclear"]
    flags: list[bool] = []
    for word in transcript.words:
        count = len(comparable(transcript.text[: word.char_end]))
        near = any(start <= word.char_end and word.char_start <= max(end, start + 1) for start, end in places)
        if count == len(flags) and near and flags:
            flags[-1] = True  # joined to the word before: "six, nought six" is compared as 606
        flags += [near] * (count - len(flags))
    return flags


@dataclass
class Share:
    """So many of so many."""

    right: float = 0
    of: float = 0

    def add(self, right: float, of: float = 1) -> None:
        """Count in."""
        self.right += right
        self.of += of

    def __str__(self) -> str:
        return f"{self.right / self.of:.3f}" if self.of else "-"


Table = dict[tuple[str, str], dict[str, Share]]


def table(heard: Sequence[Heard], fuses: dict[str, Fuse]) -> tuple[Table, list[tuple[float, bool]]]:
    """The shares of each level and ear, and of each fused word its confidence and whether it is right."""
    found: Table = defaultdict(lambda: defaultdict(Share))
    words: list[tuple[float, bool]] = []
    for one in heard:
        transcript = transcript_of(one, fuses[one.kind])
        texts = {
            "general": " ".join(w.text for a, _ in one.phrases for w in a.words),
            "trade": " ".join(w.text for _, b in one.phrases for w in b.words),
            "fused": transcript.text,
        }
        if one.plain:
            texts["plain"] = " ".join(w.text for hearing in one.plain for w in hearing.words)
        perfect = {}
        for ear, text in texts.items():
            row, compared = found[one.level, ear], Compared.of(one.text, text)
            scored = score(one.text, text, one.quotes)
            perfect[ear] = scored.perfect
            row["wer"].add(scored.errors, scored.words)
            _count_places(row, one, compared, marked(transcript) if ear == "fused" else None)
        perfect["either"] = tuple(a or b for a, b in zip(perfect["general"], perfect["trade"], strict=True))
        for ear, flags in perfect.items():
            for column in ("perfect", "terse" if one.terse else "other"):
                found[one.level, ear][column].add(sum(flags), len(flags))
        words += _each_word(one, transcript)
    return found, words


def _count_places(row: dict[str, Share], one: Heard, compared: Compared, flags: list[bool] | None) -> None:
    for place in numbers(compared.words):
        right = compared.right(place)
        row["numbers"].add(right)
        if flags is not None:
            first, after = compared.instead(place)
            row["marked"].add(right or any(flags[first:after]))
            if right:
                row["marked though right"].add(any(flags[first + 1 : after - 1]))
    for at, word in enumerate(compared.words):
        if word in SIDES:
            row["sides"].add(compared.right((at, at + 1)))
    for place in parts(one, compared.words):
        row["parts"].add(compared.right(place))


def _each_word(one: Heard, transcript: Transcript) -> Iterator[tuple[float, bool]]:
    """Confidence of each heard word, and whether it is one of those said, in their order."""
    from rapidfuzz.distance import Levenshtein

    said, heard, of = comparable(one.text), [], []
    for place, word in enumerate(transcript.words):
        for part in comparable(word.text):
            heard.append(part)
            of.append(place)
    # Figures said one by one are compared one by one here, since each heard word has its own confidence.
    said = [c for w in said for c in (w if w.isdigit() else [w])]
    split = [(c, p) for w, p in zip(heard, of, strict=True) for c in (w if w.isdigit() else [w])]
    wrong = {
        split[op.src_pos][1]
        for op in Levenshtein.editops([c for c, _ in split], said)
        if op.tag != "insert" and op.src_pos < len(split)
    }
    for place, word in enumerate(transcript.words):
        yield word.confidence or 0.0, place not in wrong


def reliability(words: Sequence[tuple[float, bool]]) -> list[tuple[float, float, int]]:
    """Mean confidence, share right and count in ten steps of confidence."""
    steps: dict[int, list[tuple[float, bool]]] = defaultdict(list)
    for confidence, right in words:
        steps[min(int(confidence * 10), 9)].append((confidence, right))
    return [
        (sum(c for c, _ in rows) / len(rows), sum(r for _, r in rows) / len(rows), len(rows))
        for _, rows in sorted(steps.items())
    ]


def show(found: Table, words: Sequence[tuple[float, bool]]) -> None:
    """Print both."""
    print(f"{'level':10}{'ear':9}" + "".join(f"{name:>9}" for name in COLUMNS))
    for level in sorted({level for level, _ in found}, key=order):
        for ear in EARS:
            if (level, ear) in found:
                row = found[level, ear]
                print(f"{level:10}{ear:9}" + "".join(f"{row.get(name, '-')!s:>9}" for name in COLUMNS))
        row = found[level, "fused"]
        print(
            f"{'':10}numbers counted: {row['numbers'].of:.0f}; right ones marked: {row['marked though right']}"
        )
    print("\nfused words: said to be right, are right, how many")
    for said, right, count in reliability(words):
        print(f"{said:8.2f}{right:8.2f}{count:7}")


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("folder", type=Path, nargs="+", help="where hearings.py kept what was heard")
    parser.add_argument("--draw", type=Path, help="folder for the pictures")
    asked = parser.parse_args()
    heard = [one for folder in asked.folder for one in read(folder)]
    fuses = {kind: fuse_for(vocabulary_of(kind)) for kind in {one.kind for one in heard}}
    found, words = table(heard, fuses)
    show(found, words)
    seconds = sum(one.seconds for one in heard)
    speeds = {name: sum(one.busy.get(name, 0.0) for one in heard) / seconds for name in ("biased", "trade")}
    print(
        f"\nprocessor time over length of the sound: {', '.join(f'{n} {s:.3f}' for n, s in speeds.items())}"
    )
    if asked.draw:
        import hear_pictures

        hear_pictures.draw(found, reliability(words), asked.draw)
    return 0


if __name__ == "__main__":
    sys.exit(main())
