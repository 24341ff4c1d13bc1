"""The language model of one machine kind: made from its vocabulary, mixed with general English, kept.

language = trade_language(load("wheel-loader"))
language.arpa, language.dictionary      files for pocketsphinx
language.words.logp10(("left", "lift"), "cylinder")
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path

import numpy as np

from saycheck.hearing.language.cache import kept
from saycheck.hearing.language.general import general_english
from saycheck.hearing.language.kneser_ney import estimate
from saycheck.hearing.language.learned import chosen, digest
from saycheck.hearing.language.lookup import WordModel
from saycheck.hearing.language.ngrams import Ngrams, Trigram
from saycheck.hearing.language.sentences import Spelling, sentences
from saycheck.hearing.language.share import share
from saycheck.hearing.language.talk import read_talk
from saycheck.hearing.language.walks import Walk, commonness, read_walks, stretches, walk_files
from saycheck.hearing.sounds import model_folder, pronunciations
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Conditions

RECIPE = 7
"""Raise it when the making of the model changes, so that kept ones are made anew."""

SENTENCES = 40_000
WALKS_SHARE = 0.8
"""Share of the walks beside the sentences made up from the vocabulary."""
GENERAL_SHARE = 0.2
"""Share of general English beside both. Shares a half more or less change perplexity by 2 %."""
LEAST_GAIN, LEAST_GAIN_OF_OWN = 6e-3, 2e-3
"""N-grams that gain less are left out (``Trigram.thinned``), and the same beside the shop's own walks: of those more is
kept. Perplexity (``bench/perplexity.py``) is 154 with the first and 152 with a third of it.
"""
LEARNING = 3
"""The same as ``RECIPE`` for what is learned from the shop's own walks."""
ALONE = 0.1
"""The part of the share of the shop's own walks that they have where nothing is known of the words before.
With all of it the general ear writes "eye" for "I" once a shop has spoken of an eye."""

_ARPA, _WORDS, _TRIGRAM = "words.arpa", "words.dict", "trigram.npz"


@dataclass(frozen=True)
class Language:
    """The language model of one machine kind: two files for pocketsphinx, and the word probabilities."""

    arpa: Path
    dictionary: Path
    words: WordModel


def trade_language(
    vocabulary: Vocabulary,
    folders: Sequence[Path] = (),
    cache: Path | None = None,
    learned: Path | None = None,
) -> Language:
    """The language model of a vocabulary; made in seconds the first time, then kept in the cache folder.

    ``folders`` are the shop's own, as given to ``vocabulary.load``. ``learned`` is a file of ``learned.keep``;
    without it the chosen one, if any, is learned. Raises EarError where the cache folder cannot be written or
    what is to be learned is not there.
    """
    text = sha256(b"".join(path.read_bytes() for path in walk_files(folders))).hexdigest()[:8]
    name = f"{vocabulary.kind}-{vocabulary.version}-{text}-{RECIPE}"
    folder = kept(
        "language", name, partial(_make, vocabulary=vocabulary, folders=folders, cache=cache), cache
    )
    spelling = Spelling(read_talk(folders))
    learned = learned or chosen()
    if learned is not None:
        make = partial(
            _learn, base=folder / _TRIGRAM, walks=read_walks([learned], spelling), spelling=spelling
        )
        folder = kept("learned-language", f"{name}-{digest(learned)}-{LEARNING}", make, cache)
    return Language(folder / _ARPA, folder / _WORDS, WordModel(read(folder / _TRIGRAM), spelling))


def _make(folder: Path, vocabulary: Vocabulary, folders: Sequence[Path], cache: Path | None) -> None:
    _put(mixed(vocabulary, folders, walk_files(folders), cache), folder)


def mixed(
    vocabulary: Vocabulary, folders: Sequence[Path], files: Sequence[Path], cache: Path | None
) -> Trigram:
    """What may be said by a vocabulary, what was said in files of walks, and general English."""
    conditions = [
        c for table in shared_tables("conditions.toml", Conditions, folders) for c in table.condition
    ]
    talk = read_talk(folders)
    walks = read_walks(files, Spelling(talk))
    common = commonness(walks, Spelling(talk))
    made_up = estimate(sentences(vocabulary, conditions, talk, SENTENCES, weight=common))
    spoken = estimate(stretches(walks))
    return made_up.mixed(spoken, WALKS_SHARE).mixed(_general(cache), GENERAL_SHARE).thinned(LEAST_GAIN)


def _learn(folder: Path, base: Path, walks: Sequence[Walk], spelling: Spelling) -> None:
    """The model of a vocabulary with the shop's own walks beside it, for as much as they are worth."""
    before = read(base)
    part = share(WordModel(before, spelling), walks)
    _put(before.taught(estimate(stretches(walks)), part, ALONE * part).thinned(LEAST_GAIN_OF_OWN), folder)


def _put(trigram: Trigram, folder: Path) -> None:
    trigram.write_arpa(folder / _ARPA)
    write_dictionary(trigram.words, folder / _WORDS)
    write(trigram, folder / _TRIGRAM)


def _general(cache: Path | None) -> Trigram:
    """General English; taken from pocketsphinx once for each version of it."""

    def make(folder: Path) -> None:
        write(general_english(model_folder()), folder / _TRIGRAM)

    return read(kept("english", f"{version('pocketsphinx')}-{RECIPE}", make, cache) / _TRIGRAM)


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
