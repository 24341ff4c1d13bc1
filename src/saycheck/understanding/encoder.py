"""Reads a narration through as one who knows English: a small encoder that others taught on much text.

The other weighings know only the words of this repository's narrations. This one began as a public sentence encoder
(six layers of attention, 384 wide) and was then taught on those narrations by ``bench/train_encoder.py``: it gives each
word a row of numbers that holds what the word means where it stands. Who asks for them: which words name a part
(``names``), which state the words of a statement tell (``throughout``), of which part it is (``antecedent``) and on
which side that is (``untold_side``). It runs on ONNX Runtime, on one core, offline;
its weights are whole numbers of seven bits, which every processor sums alike.
"""

import shutil
from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import chain
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from saycheck.understanding import arrays
from saycheck.understanding.linear import FOLDER
from saycheck.understanding.tags import tags
from saycheck.understanding.text import Reading, plain_words

Array = NDArray[np.float32]

LENGTH, STEP = 160, 144
"""It reads stretches of so many words, the next beginning so many later: as long as those it was taught on."""
PIECES = 3
"""Pieces of a word that it reads, at most: it has places for 512 in a stretch."""
MOST_MET = 20_000
"""Words whose pieces are kept."""
FEWEST = 20
"""It has learned from whole narrations: of fewer words than these it says nothing. On passages of 12, 22 and 36 words
and more, writers left out, F1 was 0.015 to 0.019 higher with it than without."""
NETWORK, HEADS = "encoder.onnx", "encoder.npz"
"""The files of an encoder."""
UNKNOWN, BEGIN, END = "[UNK]", "[CLS]", "[SEP]"
"""Pieces: of a word that cannot be put together, before the first word and behind the last."""
INSIDE = "##"
"""How a piece is written that does not begin a word."""


@dataclass(frozen=True)
class Words:
    """The words of a narration as the encoder sees them: the ``tag`` of the mention that each is in, what the
    vocabulary has ``known`` of it (``KNOWN``), and whether it ``begins`` a sentence.
    """

    words: Sequence[str]
    tags: Sequence[str]
    known: Sequence[tuple[bool, bool]]
    begins: Sequence[bool]

    def after(self, start: int) -> "Words":
        """The words from one on."""
        return Words(self.words[start:], self.tags[start:], self.known[start:], self.begins[start:])


KNOWN = ("of a part", "noun")
"""What the vocabulary knows of a word: it may stand in the name of a part, it names something on any machine."""


def seen(reading: Reading, known: Sequence[tuple[bool, bool]]) -> Words:
    """The words of a reading."""
    starts = {start for start, _ in reading.sentences}
    words = plain_words(reading)
    return Words(words, tags(reading), known, [i in starts for i in range(len(words))])


class Pieces:
    """Cuts words into the pieces that the encoder knows, the longest first (WordPiece).

    Source: Schuster and Nakajima, Japanese and Korean voice search, 2012; marks within a word stand for themselves.
    """

    def __init__(self, known: Sequence[str]) -> None:
        self.rows = {piece: row for row, piece in enumerate(known)}
        self.met: dict[str, list[int]] = {}

    def __call__(self, word: str) -> list[int]:
        """The rows of the pieces of a word, at least one; cut once for each word that is met."""
        if word not in self.met:
            if len(self.met) >= MOST_MET:
                self.met.clear()
            cut = [row for run in runs(word) for row in self.cut(run)]
            self.met[word] = cut or [self.rows[UNKNOWN]]
        return self.met[word]

    def cut(self, run: str) -> list[int]:
        """The rows of a run of letters or of one mark; that of ``UNKNOWN`` where no pieces make it up."""
        out, start = list[int](), 0
        while start < len(run):
            row, start = self.longest(run, start)
            if row is None:
                return [self.rows[UNKNOWN]]
            out.append(row)
        return out

    def longest(self, run: str, start: int) -> tuple[int | None, int]:
        """The row of the longest piece that stands at ``start``, and where it ends; None where there is none."""
        for end in range(len(run), start, -1):
            row = self.rows.get((INSIDE if start else "") + run[start:end])
            if row is not None:
                return row, end
        return None, start


def runs(word: str) -> Iterator[str]:
    """A word cut at its marks: "it's" is "it", "'" and "s"."""
    run = ""
    for letter in word:
        if letter.isalnum():
            run += letter
            continue
        if run:
            yield run
        yield letter
        run = ""
    if run:
        yield run


@dataclass(frozen=True)
class Stretch:
    """Words that are read at once, from ``start`` on: what the network takes, each array (pieces,) and more, and the
    piece that each word begins with.
    """

    start: int
    rows: NDArray[np.int64]
    tags: NDArray[np.int64]
    told: Array
    first: NDArray[np.int64]


@dataclass(frozen=True)
class Read:
    """A narration as it was read: what each of its ``words`` means where it stands, (words, width), as the stretch has
    it in which the word stands deepest, all ``stretches`` with the word that each begins with, and the ``heads`` of the
    encoder that read it.
    """

    words: Array
    stretches: Sequence[tuple[int, Array]]
    heads: Mapping[str, Array]

    def around(self, first: int, end: int) -> int:
        """The number of the stretch in which all words from ``first`` to ``end`` (half-open) stand deepest; where none
        holds them all, of the one that reaches from ``end`` farthest back.

        What one part and another mean can be held against each other only as they were read together.
        """

        def depth(number: int) -> int:
            start, meaning = self.stretches[number]
            before, behind = first - start, start + len(meaning) - end
            return min(before, behind) if before >= 0 else before

        earliest = bisect_left(self._ends, end)
        return max(range(earliest, min(earliest + BESIDE, len(self.stretches))), key=depth)

    def means(self, spans: Sequence[tuple[int, int, int]]) -> Array:
        """What the words of each span (stretch, start, end) mean together, their mean, (spans, width); the words are
        counted from the first of the narration, and those before the stretch are not there.
        """
        number, start, end = np.array(spans, np.intp).reshape(-1, 3).T
        first, begins = self._begins[number], self._rows[number]
        start = np.maximum(start - first, 0)
        sums = self._sums[begins + end - first] - self._sums[begins + start]
        return np.asarray(sums / (end - first - start)[:, None], np.float32)

    def scores(self, rows: Array, first: str, second: str) -> Array:
        """What a head of two layers, by their names in ``heads``, makes of each row."""
        inner = np.maximum(rows @ self.heads[first] + self.heads[f"{first}_bias"], 0)
        return np.asarray(inner @ self.heads[second] + self.heads.get(f"{second}_bias", 0), np.float32)

    @cached_property
    def _begins(self) -> NDArray[np.intp]:
        """The word that each stretch begins with."""
        return np.array([start for start, _ in self.stretches], np.intp)

    @cached_property
    def _ends(self) -> list[int]:
        """The word behind the last of each stretch."""
        return [start + len(meaning) for start, meaning in self.stretches]

    @cached_property
    def _rows(self) -> NDArray[np.intp]:
        """The row of ``_sums`` that each stretch begins with."""
        return np.cumsum([0, *(len(meaning) + 1 for _, meaning in self.stretches[:-1])])

    @cached_property
    def _sums(self) -> Array:
        """The sums of what the first, the first two ... words of each stretch mean, each behind a row of nothing."""
        return np.concatenate([np.tri(len(m) + 1, len(m), -1, np.float32) @ m for _, m in self.stretches])


BESIDE = 3
"""So many stretches at most hold the same words, if only just."""


class Encoder:
    """The network in a file, with what it knows of names: ``pieces`` and ``tags`` in the order of their rows.

    ``heads`` are the arrays of those who ask it, by name.
    """

    def __init__(self, network: Path, names: dict[str, list[str]], heads: dict[str, Array]) -> None:
        self.network, self.names = network, names
        self.pieces = Pieces(names["pieces"])
        self.tags = {tag: row for row, tag in enumerate(names["tags"])}
        self.heads = {name: np.asarray(array, np.float32) for name, array in heads.items()}

    @cached_property
    def session(self) -> Any:
        """The network, opened when it is first asked."""
        return opened(self.network)

    def stretches(self, words: Words, length: int = LENGTH, step: int = STEP) -> Iterator[Stretch]:
        """The words cut into stretches, the last one to the end."""
        cut = [self.pieces(word)[:PIECES] for word in words.words]
        first = np.cumsum([0, *map(len, cut)])
        rows = np.fromiter(chain.from_iterable(cut), np.int64, first[-1])
        tags = np.repeat([self.tags.get(tag, 0) for tag in words.tags], np.diff(first))
        told = np.zeros((len(rows), len(KNOWN) + 1), np.float32)
        told[:, :-1] = np.repeat(np.array(words.known, np.float32), np.diff(first), axis=0)
        told[first[:-1], -1] = words.begins
        begin, end = self.pieces.rows[BEGIN], self.pieces.rows[END]
        for start in range(0, max(len(cut) - (length - step), 1), step):
            until = min(start + length, len(cut))
            within = slice(first[start], first[until])
            yield Stretch(
                start,
                np.concatenate([[begin], rows[within], [end]]),
                np.pad(tags[within], 1),
                np.pad(told[within], ((1, 1), (0, 0))),
                first[start:until] - first[start] + 1,
            )

    def read(self, words: Words) -> Read:
        """Read a narration through."""
        stretches = [(one.start, self.meaning(one)) for one in self.stretches(words)]
        whole = np.zeros((len(words.words), stretches[0][1].shape[1]), np.float32)
        depth = np.full(len(words.words), -1)
        for start, meaning in stretches:
            place, many = slice(start, start + len(meaning)), np.arange(len(meaning))
            deep = np.minimum(many, many[::-1])
            better = deep > depth[place]
            whole[place][better] = meaning[better]
            depth[place][better] = deep[better]
        return Read(whole, stretches, self.heads)

    def meaning(self, one: Stretch) -> Array:
        """What the words of a stretch mean, (words, width)."""
        given = {
            "pieces": one.rows[None],
            "tags": one.tags[None],
            "told": one.told[None],
        }
        return np.asarray(self.session.run(None, given)[0][0, one.first], np.float32)


def opened(network: Path) -> Any:
    """The network, ready to run on one core: two would mostly wait for each other.

    The products that its heads make are too small for two as well: numpy is held to one core for them, in the
    whole process, or it would keep the core busy that an ear needs.
    """
    import onnxruntime
    from threadpoolctl import threadpool_limits

    threadpool_limits(limits=1, user_api="blas")
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = options.inter_op_num_threads = 1
    # Kept for the next stretch, its memory would stand beside that of the ears.
    options.enable_cpu_mem_arena = False
    # A sum and its layer norm put together take twice the time of both apart: a seventh of the whole.
    return onnxruntime.InferenceSession(
        str(network),
        options,
        providers=["CPUExecutionProvider"],
        disabled_optimizers=["SkipLayerNormFusion"],
    )


def read(reading: Reading) -> Read | None:
    """What the words of a reading mean, read once; None without an encoder, where there are too few words or where
    nobody left on ``reading.data["seen"]`` how they are seen.
    """
    encoder = trained()
    words: Words | None = reading.data.get("seen")
    if encoder is None or words is None or len(words.words) < FEWEST:
        return None
    if "read" not in reading.data:
        reading.data["read"] = encoder.read(words)
    made: Read = reading.data["read"]
    return made


def write(folder: Path, encoder: Encoder) -> None:
    """Keep an encoder in a folder, as ``encoder.onnx`` and ``encoder.npz``."""
    shutil.copyfile(encoder.network, folder / NETWORK)
    arrays.write(folder / HEADS, encoder.names, encoder.heads)


def kept(folder: Path) -> Encoder:
    """The encoder in a folder that ``write`` wrote to."""
    names, heads = arrays.read(folder / HEADS)
    return Encoder(folder / NETWORK, names, heads)


STANDING_IN: list[Encoder | None] = []
"""At most one encoder, or none at all, in place of the shipped one: the training scripts leave writers out by it."""


def trained() -> Encoder | None:
    """The encoder shipped or standing in for it; None where none has been trained."""
    return STANDING_IN[0] if STANDING_IN else shipped()


@lru_cache
def shipped() -> Encoder | None:
    """The shipped encoder, or None where there is none."""
    return kept(FOLDER) if (FOLDER / NETWORK).exists() else None
