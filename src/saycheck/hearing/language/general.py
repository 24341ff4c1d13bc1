"""General English for the talk between findings: taken from the model that pocketsphinx carries.

That model holds 72,000 words, 2 million pairs and 1.7 million triples, far more than an ear of the trade
needs and slow to search. Kept here are the commonest words, the pairs among them that say more than
the words alone, and the triples that begin with the commonest pairs. It is asked through pocketsphinx's
own ``NGramModel.prob`` and does not depend on how its file is written.
"""

import math
from collections.abc import Iterable
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from saycheck.hearing.language.ngrams import END, NONE, START, Ngrams, Trigram

WORDS = 4000
HISTORIES = 900
PAIRS_BEFORE = 2500
NEXT_WORDS = 700
_LOG_BASE = 1.0001


def general_english(folder: Path, words: int = WORDS, also: Iterable[str] = ()) -> Trigram:
    """General English over its ``words`` commonest words and, of ``also``, those it knows.

    ``folder`` is the ``en-us`` model folder of pocketsphinx.
    """
    from pocketsphinx import Config, LogMath, NGramModel

    model = NGramModel(Config(lm=None, loglevel="FATAL"), LogMath(_LOG_BASE), str(folder / "en-us.lm.bin"))
    ask = model.prob
    nowhere = ask(["qqqq"])
    known = {word: ask([word]) for word in _dictionary(folder)}
    by_rank = sorted((w for w, p in known.items() if p > nowhere), key=lambda w: -known[w])
    chosen = by_rank[:words] + [w for w in also if w in known and known[w] > nowhere]
    vocabulary = ["<s>", "</s>", *dict.fromkeys(chosen)]
    size = len(vocabulary)
    unigram = _p([ask([w]) for w in vocabulary])
    unigram[START] = 0.0
    unigram /= unigram.sum()

    histories = np.asarray([START, *range(2, min(HISTORIES, words) + 2)], np.int64)
    following = np.asarray([END, *range(2, min(words, 2500) + 2)], np.int64)
    codes = (histories[:, None] * size + following).ravel()
    names = [vocabulary[n] for n in following]
    p = np.concatenate([_p([ask((w, vocabulary[h])) for w in names]) for h in histories])
    # A pair no likelier than its word alone tells nothing: back-off says the same.
    telling = p > 1.6 * unigram[codes % size]
    pairs = _sorted(codes[telling], p[telling])

    joint = unigram[pairs.codes // size] * pairs.p
    first = np.sort(pairs.codes[np.argsort(-joint)[:PAIRS_BEFORE]])
    first = first[(first % size != END) & (first // size != START)]
    following = np.asarray([END, *range(2, NEXT_WORDS + 2)], np.int64)
    names = [vocabulary[n] for n in following]
    codes = (first[:, None] * size + following).ravel()
    p = np.concatenate(
        [_p([ask((w, vocabulary[c % size], vocabulary[c // size])) for w in names]) for c in first.tolist()]
    )
    whole = Trigram(tuple(vocabulary), unigram, np.ones(size), pairs, NONE).balanced()
    telling = p > 1.6 * whole.pair_p(codes % (size * size))
    return Trigram(
        tuple(vocabulary), unigram, np.ones(size), pairs, _sorted(codes[telling], p[telling])
    ).balanced()


def _dictionary(folder: Path) -> list[str]:
    """The words of the pronouncing dictionary, plain ones only."""
    text = (folder / "cmudict-en-us.dict").read_text(encoding="utf-8")
    words = (line.split(" ", 1)[0] for line in text.splitlines())
    return [w for w in words if w.replace("'", "").isalpha() and not w.startswith("'")]


def _p(logs: list[int]) -> NDArray[np.float64]:
    return np.exp(np.asarray(logs, np.float64) * math.log(_LOG_BASE))


def _sorted(codes: NDArray[np.int64], p: NDArray[np.float64]) -> Ngrams:
    order = np.argsort(codes)
    return Ngrams(codes[order], p[order], np.ones(len(codes)))
