"""Estimate an interpolated, modified Kneser-Ney trigram from sentences.

After Chen and Goodman, "An Empirical Study of Smoothing Techniques for Language Modeling", Computer
Speech and Language 13 (1999), pages 359-394: three discounts for each order (for n-grams seen once,
twice, three times or more), lower orders estimated from the number of different words seen before.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from saycheck.hearing.language.ngrams import END, START, Ngrams, Trigram

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Discounts:
    """What is taken off the count of an n-gram seen once, twice, and three times or more."""

    once: float
    twice: float
    more: float

    @classmethod
    def from_counts(cls, counts: Ints) -> "Discounts":
        """Chen and Goodman's equation 26; where a count of counts is missing, plain defaults stand in."""
        n1, n2, n3, n4 = (int(np.count_nonzero(counts == times)) for times in (1, 2, 3, 4))
        if not (n1 and n2 and n3 and n4):
            return cls(0.5, 1.0, 1.5)
        y = n1 / (n1 + 2 * n2)
        found = (1 - 2 * y * n2 / n1, 2 - 3 * y * n3 / n2, 3 - 4 * y * n4 / n3)
        # Counts made by a generator need not fall off as counts of language do; a discount must leave
        # something to the n-gram and something to the words not seen.
        return cls(
            *(min(max(value, 0.05), limit) for value, limit in zip(found, (0.95, 1.95, 2.95), strict=True))
        )

    def of(self, counts: Ints) -> Floats:
        """The discount of each count."""
        return np.select([counts == 1, counts == 2], [self.once, self.twice], self.more)


def estimate(
    sentences: Iterable[Sequence[str]],
    discounts: Sequence[Discounts] | None = None,
    words: Iterable[str] = (),
) -> Trigram:
    """Return the trigram of ``sentences`` over all their words and ``words``.

    ``discounts`` (for unigrams, bigrams, trigrams) are found from the counts where not given. Every
    word of ``words`` gets its share of what the unigram discount sets free.
    """
    names, stream = _numbered(sentences, words)
    size = len(names)
    first, second, third = stream[:-2], stream[1:-1], stream[2:]
    within = (first != END) & (second != END) & (third != START)
    triples, triple_counts = np.unique(
        (first * size + second)[within] * size + third[within], return_counts=True
    )
    pairs_in = (stream[:-1] != END) & (stream[1:] != START)
    pairs, pair_counts = np.unique((stream[:-1] * size + stream[1:])[pairs_in], return_counts=True)

    # What stands at the start of a sentence has nothing before it, so its own count is kept.
    before = np.bincount(np.searchsorted(pairs, triples % (size * size)), minlength=len(pairs))
    pair_weights = np.where(pairs // size == START, pair_counts, before)
    word_weights = np.bincount(pairs % size, minlength=size)

    found = discounts or [Discounts.from_counts(c) for c in (word_weights, pair_weights, triple_counts)]
    unigram, _ = _unigram(word_weights, found[0])
    pair_p, pair_gamma = _level(pairs // size, pair_weights, found[1], unigram[pairs % size], size)
    contexts, places = np.unique(triples // size, return_inverse=True)
    lower = pair_p[np.searchsorted(pairs, triples % (size * size))]
    triple_p, triple_gamma = _level(places, triple_counts, found[2], lower, len(contexts))
    gamma_of_pair = np.ones(len(pairs))
    gamma_of_pair[np.searchsorted(pairs, contexts)] = triple_gamma
    return Trigram(
        tuple(names),
        unigram,
        pair_gamma,
        Ngrams(pairs, pair_p, gamma_of_pair),
        Ngrams(triples, triple_p, np.ones(len(triples))),
    )


def _numbered(sentences: Iterable[Sequence[str]], words: Iterable[str]) -> tuple[list[str], Ints]:
    """Number the words (start 0, end 1) and join all sentences into one stream of numbers."""
    numbers = {"<s>": START, "</s>": END}
    for word in words:
        numbers.setdefault(word, len(numbers))
    stream: list[int] = []
    for sentence in sentences:
        stream.append(START)
        stream.extend(numbers.setdefault(word, len(numbers)) for word in sentence)
        stream.append(END)
    return list(numbers), np.asarray(stream or [START, END], np.int64)


def _unigram(weights: Ints, discounts: Discounts) -> tuple[Floats, float]:
    """Discounted unigram, what is set free shared alike by all words that can be said."""
    sayable = np.ones(len(weights), bool)
    sayable[START] = False
    total = max(int(weights[sayable].sum()), 1)
    kept = np.where(weights > 0, np.maximum(weights - discounts.of(weights), 0) / total, 0.0)
    free = 1 - float(kept[sayable].sum())
    return np.where(sayable, kept + free / np.count_nonzero(sayable), 0.0), free


def _level(
    contexts: Ints, counts: Ints, discounts: Discounts, lower: Floats, size: int
) -> tuple[Floats, Floats]:
    """One order: interpolated probabilities, and for each context the weight of the order below."""
    totals = np.bincount(contexts, counts, size)
    taken = np.minimum(discounts.of(counts), counts)
    freed = np.bincount(contexts, taken, size)
    gamma = np.divide(freed, totals, out=np.ones(size), where=totals > 0)
    return (counts - taken) / totals[contexts] + gamma[contexts] * lower, gamma
