"""The language model of one machine kind: made from its vocabulary, mixed with general English, kept.

language = trade_language(load("wheel-loader"))
language.arpa, language.dictionary      files for pocketsphinx
language.words.logp10(("left", "lift"), "cylinder")
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from hashlib import sha256
from importlib.metadata import version
from math import log10
from pathlib import Path
from typing import Any

import numpy as np

from saycheck.hearing.language.cache import kept
from saycheck.hearing.language.general import general_english
from saycheck.hearing.language.kneser_ney import estimate
from saycheck.hearing.language.ngrams import Floats, Ngrams, Trigram
from saycheck.hearing.language.sentences import Spelling, sentences
from saycheck.hearing.language.talk import read_talk
from saycheck.hearing.language.walks import commonness, read_walks, stretches, walk_files
from saycheck.hearing.sounds import model_folder, pronunciations
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Conditions

RECIPE = 4
"""Raise it when the making of the model changes, so that kept ones are made anew."""

SENTENCES = 40_000
WALKS_SHARE = 0.6
"""Share of the walks beside the sentences made up from the vocabulary."""
GENERAL_SHARE = 0.2
"""Share of general English beside both. Shares a half more or less change perplexity by 2 %."""
LEAST_GAIN = 1e-5

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


@dataclass(frozen=True)
class Language:
    """The language model of one machine kind: two files for pocketsphinx, and the word probabilities."""

    arpa: Path
    dictionary: Path
    words: WordModel


def trade_language(
    vocabulary: Vocabulary, folders: Sequence[Path] = (), cache: Path | None = None
) -> Language:
    """The language model of a vocabulary; made in seconds the first time, then kept in the cache folder.

    ``folders`` are the shop's own, as given to ``vocabulary.load``. Raises EarError where the cache
    folder cannot be written.
    """
    text = sha256(b"".join(path.read_bytes() for path in walk_files(folders))).hexdigest()[:8]
    name = f"{vocabulary.kind}-{vocabulary.version}-{text}-{RECIPE}"
    folder = kept(
        "language", name, partial(_make, vocabulary=vocabulary, folders=folders, cache=cache), cache
    )
    trigram = read(folder / "trigram.npz")
    return Language(
        folder / "words.arpa", folder / "words.dict", WordModel(trigram, Spelling(read_talk(folders)))
    )


def _make(folder: Path, vocabulary: Vocabulary, folders: Sequence[Path], cache: Path | None) -> None:
    conditions = [
        c for table in shared_tables("conditions.toml", Conditions, folders) for c in table.condition
    ]
    talk = read_talk(folders)
    walks = read_walks(walk_files(folders), Spelling(talk))
    common = commonness(walks, Spelling(talk))
    made_up = estimate(sentences(vocabulary, conditions, talk, SENTENCES, weight=common))
    spoken = estimate(stretches(walks))
    mixed = made_up.mixed(spoken, WALKS_SHARE).mixed(_general(cache), GENERAL_SHARE).thinned(LEAST_GAIN)
    mixed.write_arpa(folder / "words.arpa")
    write_dictionary(mixed.words, folder / "words.dict")
    write(mixed, folder / "trigram.npz")


def _general(cache: Path | None) -> Trigram:
    """General English; taken from pocketsphinx once for each version of it."""

    def make(folder: Path) -> None:
        write(general_english(model_folder()), folder / "trigram.npz")

    return read(kept("english", f"{version('pocketsphinx')}-{RECIPE}", make, cache) / "trigram.npz")


def write_dictionary(words: Sequence[str], path: Path) -> None:
    """Write the pronunciations of words as pocketsphinx reads them; the marks ``<s>``, ``</s>`` have none."""
    lines = []
    for word in words:
        if word in ("<s>", "</s>"):
            continue
        for nth, sounds in enumerate(pronunciations(word), 1):
            lines.append(f"{word}{f'({nth})' if nth > 1 else ''} {' '.join(sounds)}\n")
    path.write_text("".join(lines), encoding="utf-8")


def write(trigram: Trigram, path: Path) -> None:
    """Write a trigram for ``read``."""
    np.savez(
        path,
        words=np.asarray(trigram.words),
        unigram=trigram.unigram,
        backoff=trigram.backoff,
        **{
            f"{name}_{field}": getattr(getattr(trigram, name), field)
            for name in ("pairs", "triples")
            for field in ("codes", "p", "backoff")
        },
    )


def read(path: Path) -> Trigram:
    """Read what ``write`` wrote."""
    with np.load(path) as data:
        pairs, triples = (
            Ngrams(data[f"{name}_codes"], data[f"{name}_p"], data[f"{name}_backoff"])
            for name in ("pairs", "triples")
        )
        return Trigram(tuple(data["words"].tolist()), data["unigram"], data["backoff"], pairs, triples)


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
