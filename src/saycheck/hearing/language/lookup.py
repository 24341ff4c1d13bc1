"""The word probabilities of a language model, looked up one word at a time."""

from bisect import bisect_left
from collections.abc import Sequence
from math import log10
from typing import Any

import numpy as np

from saycheck.hearing.language.ngrams import Floats, Trigram
from saycheck.hearing.language.sentences import Spelling

_UNLIKELY = -10.0


class WordModel:
    """The trade's word probabilities. Words are written as the model writes them; see ``folded``."""

    def __init__(self, trigram: Trigram, spelling: Spelling) -> None:
        self._numbers = trigram.numbers
        self._size = len(trigram.words)
        self._unigram = np.log10(np.maximum(trigram.unigram, 1e-10)).tolist()
        self._backoff = np.log10(np.maximum(trigram.backoff, 1e-10)).tolist()
        # A bisection over a memory view is ten times as fast as numpy's for one number at a time.
        self._pairs, self._triples = (n.codes.data for n in (trigram.pairs, trigram.triples))
        self._pair_p, self._triple_p = (_logs(n.p) for n in (trigram.pairs, trigram.triples))
        self._pair_backoff = _logs(trigram.pairs.backoff)
        self.spelling = spelling

    def knows(self, word: str) -> bool:
        """Whether the word is in the model, in the model's spelling."""
        return word in self._numbers

    def logp10(self, history: tuple[str, ...], word: str) -> float:
        """log10 p(word | history): of ``history`` the last two count; ``<s>`` is the start.

        -10 for a word the model does not know.
        """
        number = self._numbers.get(word)
        if number is None:
            return _UNLIKELY
        before = [self._numbers.get(w, -1) for w in history[-2:]]
        if not before or before[-1] < 0:
            return float(self._unigram[number])
        pair = before[-1] * self._size + number
        if len(before) == 2 and before[0] >= 0:
            at = _find(self._triples, before[0] * self._size * self._size + pair)
            if at >= 0:
                return float(self._triple_p[at])
            context = _find(self._pairs, before[0] * self._size + before[1])
            weight = float(self._pair_backoff[context]) if context >= 0 else 0.0
        else:
            weight = 0.0
        at = _find(self._pairs, pair)
        if at >= 0:
            return weight + float(self._pair_p[at])
        return weight + float(self._backoff[before[-1]]) + float(self._unigram[number])

    def folded(self, words: Sequence[str]) -> list[str]:
        """Words as the model writes them: "tire" as "tyre", "p s i" as "psi"."""
        return self.spelling.folded(words)


def _logs(p: Floats) -> Any:
    """log10 in single precision: each of two processes holds a million of them."""
    return np.log10(np.maximum(p, 1e-10)).astype(np.float32).data


def _find(codes: memoryview, code: int) -> int:
    at = bisect_left(codes, code)
    return at if at < len(codes) and codes[at] == code else -1


def perplexity(words: WordModel, stretches: Sequence[Sequence[str]]) -> float:
    """Perplexity of stretches of talk, words not known left out: for looking at, not for deciding."""
    logs = []
    for stretch in stretches:
        said = ["<s>", *words.folded(stretch), "</s>"]
        logs += [
            words.logp10(tuple(said[max(at - 2, 0) : at]), said[at])
            for at in range(1, len(said))
            if words.knows(said[at])
        ]
    return float(10 ** (-sum(logs) / max(len(logs), 1))) if logs else log10(1)
