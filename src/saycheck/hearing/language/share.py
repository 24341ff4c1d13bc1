"""How much a shop's own walks count beside the model of a machine kind: by how well they foretell each other.

Each walk in turn is left out and foretold from the others. The share is that with which the mixture of both
models finds the walks left out likeliest, by expectation and maximisation (Jelinek and Mercer's deleted
interpolation, 1980).
"""

from collections.abc import Iterator, Sequence

import numpy as np

from saycheck.hearing.language.kneser_ney import estimate
from saycheck.hearing.language.lookup import WordModel
from saycheck.hearing.language.walks import Walk, stretches

UNTRIED = 0.1
"""The share of a single walk, which nothing can be tried on."""
LEAST, MOST = 0.02, 0.6
FOLDS = 8
"""Times that walks are left out; of more than so many walks several together."""
MOST_WORDS = 20_000
"""More words than these tell no more about the share."""
FEW = 500
"""Of so few words half the share is taken, since two walks of a few words may be alike by chance."""
_TURNS = 30


def share(base: WordModel, walks: Sequence[Walk]) -> float:
    """The share, 0 to 1, of a model of ``walks`` beside ``base``; words that ``base`` lacks do not count."""
    if len(walks) < 2:
        return UNTRIED
    chances = np.asarray(list(_foretold(base, walks)), np.float64).reshape(-1, 2)[:MOST_WORDS]
    if not len(chances):
        return UNTRIED
    mixed = 0.5
    for _ in range(_TURNS):
        own, other = mixed * chances[:, 0], (1 - mixed) * chances[:, 1]
        mixed = float(np.mean(own / (own + other)))
    few = len(chances) / (len(chances) + FEW)
    return min(max(mixed * few, LEAST), MOST)


def _foretold(base: WordModel, walks: Sequence[Walk]) -> Iterator[tuple[float, float]]:
    """Of each word after one that the other walks hold, its probability by them and by ``base``."""
    folds = min(FOLDS, len(walks))
    for fold in range(folds):
        others = [walk for at, walk in enumerate(walks) if at % folds != fold]
        own = WordModel(estimate(stretches(others)), base.spelling)
        known = {"<s>"} | {word for walk in others for breath in walk for word in breath}
        for walk in walks[fold::folds]:
            for breath in walk:
                said = ["<s>", *breath, "</s>"]
                for at in range(1, len(said)):
                    before = tuple(said[max(at - 2, 0) : at])
                    if base.knows(said[at]) and before[-1] in known:
                        yield 10 ** own.logp10(before, said[at]), 10 ** base.logp10(before, said[at])
