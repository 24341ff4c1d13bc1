"""A trigram as plain arrays: looked up, mixed with another, thinned out, written as an ARPA file."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

START, END = 0, 1
"""Numbers of the marks ``<s>`` and ``</s>``."""

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]

_LOWEST = 1e-10


@dataclass(frozen=True)
class Ngrams:
    """n-grams of one order: sorted codes (words as digits to the base of the vocabulary), the
    probability of the last word given those before, and the back-off weight of the whole."""

    codes: Ints
    p: Floats
    backoff: Floats

    def find(self, codes: Ints) -> tuple[Ints, NDArray[np.bool_]]:
        """The place of each code and whether it is there."""
        if not len(self.codes):
            return np.zeros(len(codes), np.int64), np.zeros(len(codes), bool)
        places = np.minimum(np.searchsorted(self.codes, codes), len(self.codes) - 1)
        return places, self.codes[places] == codes


NONE = Ngrams(np.zeros(0, np.int64), np.zeros(0), np.zeros(0))
"""No n-grams at all."""


@dataclass(frozen=True)
class Trigram:
    """A back-off trigram over ``words``; the first two are the marks ``<s>`` and ``</s>``.

    ``unigram`` and ``backoff`` go by word number; ``pairs`` and ``triples`` hold the longer n-grams.
    """

    words: tuple[str, ...]
    unigram: Floats
    backoff: Floats
    pairs: Ngrams
    triples: Ngrams

    @cached_property
    def numbers(self) -> dict[str, int]:
        """The number of each word."""
        return {word: number for number, word in enumerate(self.words)}

    def pair_p(self, codes: Ints) -> Floats:
        """p(word | one before) for each code."""
        size = len(self.words)
        places, there = self.pairs.find(codes)
        backed = self.backoff[codes // size] * self.unigram[codes % size]
        return np.where(there, self.pairs.p[places], backed) if len(self.pairs.codes) else backed

    def triple_p(self, codes: Ints) -> Floats:
        """p(word | two before) for each code."""
        size = len(self.words)
        places, there = self.triples.find(codes)
        context, known = self.pairs.find(codes // size)
        backed = self.pair_p(codes % (size * size))
        if len(self.pairs.codes):
            backed = np.where(known, self.pairs.backoff[context], 1.0) * backed
        return np.where(there, self.triples.p[places], backed) if len(self.triples.codes) else backed

    def p(self, history: Sequence[str], word: str) -> float:
        """p(word | history) of one word; of ``history`` the last two count. 0 for an unknown word."""
        number = self.numbers.get(word)
        if number is None:
            return 0.0
        size = len(self.words)
        before = [self.numbers.get(w, -1) for w in history[-2:]]
        while before and -1 in before:
            before = before[1:]
        if not before:
            return float(self.unigram[number])
        code = before[-1] * size + number
        if len(before) == 1:
            return float(self.pair_p(np.asarray([code]))[0])
        return float(self.triple_p(np.asarray([before[0] * size * size + code]))[0])

    def over(self, words: Sequence[str]) -> "Trigram":
        """The same model with its words numbered as in ``words``, which must hold them all."""
        number = {word: n for n, word in enumerate(words)}
        moved = np.asarray([number[w] for w in self.words], np.int64)
        unigram, backoff = np.zeros(len(words)), np.ones(len(words))
        unigram[moved], backoff[moved] = self.unigram, self.backoff
        pairs = _recoded(self.pairs, 2, moved, len(words))
        return Trigram(tuple(words), unigram, backoff, pairs, _recoded(self.triples, 3, moved, len(words)))

    def mixed(self, other: "Trigram", share: float) -> "Trigram":
        """``(1 - share)`` of this model and ``share`` of ``other``, n-grams of both kept.

        Exact for every n-gram that either holds; elsewhere by back-off, as in static interpolation
        generally. Probabilities of every context sum to one again.
        """
        words = list(dict.fromkeys([*self.words, *other.words]))
        ours, theirs = self.over(words), other.over(words)

        def mix(a: Floats, b: Floats) -> Floats:
            return (1 - share) * a + share * b

        pair_codes = np.union1d(ours.pairs.codes, theirs.pairs.codes)
        triple_codes = np.union1d(ours.triples.codes, theirs.triples.codes)
        size = len(words)
        # A trigram's context must itself be there to carry the back-off weight.
        pair_codes = np.union1d(pair_codes, triple_codes // size)
        mixture = Trigram(
            tuple(words),
            mix(ours.unigram, theirs.unigram),
            np.ones(size),
            Ngrams(
                pair_codes, mix(ours.pair_p(pair_codes), theirs.pair_p(pair_codes)), np.ones(len(pair_codes))
            ),
            Ngrams(
                triple_codes,
                mix(ours.triple_p(triple_codes), theirs.triple_p(triple_codes)),
                np.ones(len(triple_codes)),
            ),
        )
        return mixture.balanced()

    def taught(self, other: "Trigram", share: float, alone: float) -> "Trigram":
        """``share`` of ``other`` after such words as ``other`` has seen something follow, else this model.

        A word without any before it has only the share ``alone`` of ``other``: enough that words which this
        model lacks can be said, not so much that they are expected everywhere.
        """
        words = list(dict.fromkeys([*self.words, *other.words]))
        ours, theirs = self.over(words), other.over(words)
        size = len(words)
        pair_codes = np.union1d(ours.pairs.codes, theirs.pairs.codes)
        triple_codes = np.union1d(ours.triples.codes, theirs.triples.codes)
        pair_codes = np.union1d(pair_codes, triple_codes // size)
        unigram = (1 - alone) * ours.unigram + alone * theirs.unigram
        ours = replace(ours, unigram=unigram).balanced()
        after_one = share * np.isin(pair_codes // size, theirs.pairs.codes // size)
        after_two = share * np.isin(triple_codes // size, theirs.triples.codes // size)
        pair_p = (1 - after_one) * ours.pair_p(pair_codes) + after_one * theirs.pair_p(pair_codes)
        triple_p = (1 - after_two) * ours.triple_p(triple_codes) + after_two * theirs.triple_p(triple_codes)
        pairs = Ngrams(pair_codes, pair_p, np.ones(len(pair_codes)))
        triples = Ngrams(triple_codes, triple_p, np.ones(len(triple_codes)))
        return Trigram(tuple(words), unigram, np.ones(size), pairs, triples).balanced()

    def thinned(self, least_gain: float) -> "Trigram":
        """Without the trigrams that tell little more than the bigram below them.

        ``least_gain`` is the weighted log ratio p(w|uv) * |log(p(w|uv) / p(w|v))| under which one goes;
        a simpler cousin of Stolcke's entropy pruning (1998).
        """
        backed = self.pair_p(self.triples.codes % len(self.words) ** 2)
        gain = self.triples.p * np.abs(
            np.log(np.maximum(self.triples.p, _LOWEST) / np.maximum(backed, _LOWEST))
        )
        kept = gain >= least_gain
        triples = Ngrams(self.triples.codes[kept], self.triples.p[kept], self.triples.backoff[kept])
        return replace(self, triples=triples).balanced()

    def balanced(self) -> "Trigram":
        """The same n-grams with back-off weights that let each context sum to one."""
        size = len(self.words)
        contexts = self.pairs.codes // size
        seen = _sums(contexts, self.pairs.p, size)
        below = _sums(contexts, self.unigram[self.pairs.codes % size], size)
        backoff = _weight(seen, below)
        level = replace(self, backoff=backoff)
        context, _ = self.pairs.find(self.triples.codes // size)
        seen = _sums(context, self.triples.p, len(self.pairs.codes))
        below = _sums(context, level.pair_p(self.triples.codes % (size * size)), len(self.pairs.codes))
        return replace(level, pairs=replace(self.pairs, backoff=_weight(seen, below)))

    def write_arpa(self, path: Path) -> None:
        """Write the model in the ARPA format, base ten logarithms with five decimals."""
        size = len(self.words)
        words = np.asarray(self.words, object)
        with path.open("w", encoding="utf-8") as out:
            counts = (size, len(self.pairs.codes), len(self.triples.codes))
            out.write("\\data\\\n" + "".join(f"ngram {n}={count}\n" for n, count in enumerate(counts, 1)))
            unigram = _log10(self.unigram)
            unigram[START] = -99.0
            lines = zip(unigram.tolist(), self.words, _log10(self.backoff).tolist(), strict=True)
            out.write("\n\\1-grams:\n" + "".join([f"{p:.5f}\t{w}\t{b:.5f}\n" for p, w, b in lines]))
            codes = self.pairs.codes
            rows = zip(
                _log10(self.pairs.p).tolist(),
                words[codes // size].tolist(),
                words[codes % size].tolist(),
                _log10(self.pairs.backoff).tolist(),
                strict=True,
            )
            out.write("\n\\2-grams:\n" + "".join([f"{p:.5f}\t{v} {w}\t{b:.5f}\n" for p, v, w, b in rows]))
            codes = self.triples.codes
            triples = zip(
                _log10(self.triples.p).tolist(),
                words[codes // (size * size)].tolist(),
                words[codes // size % size].tolist(),
                words[codes % size].tolist(),
                strict=True,
            )
            out.write("\n\\3-grams:\n" + "".join([f"{p:.5f}\t{u} {v} {w}\n" for p, u, v, w in triples]))
            out.write("\n\\end\\\n")


def _recoded(ngrams: Ngrams, order: int, moved: Ints, size: int) -> Ngrams:
    old = len(moved)
    codes = np.zeros(len(ngrams.codes), np.int64)
    for place in reversed(range(order)):
        codes = codes * size + moved[ngrams.codes // old**place % old]
    by_code = np.argsort(codes)
    return Ngrams(codes[by_code], ngrams.p[by_code], ngrams.backoff[by_code])


def _weight(seen: Floats, below: Floats) -> Floats:
    """What is left to words not seen, over what the order below gives those words."""
    return np.clip((1 - seen) / np.maximum(1 - below, _LOWEST), 1e-7, 1e4)


def _sums(places: Ints, values: Floats, size: int) -> Floats:
    """The values added up by place."""
    return np.bincount(places, values, size).astype(np.float64)


def _log10(values: Floats) -> Floats:
    return np.log10(np.maximum(values, _LOWEST))
