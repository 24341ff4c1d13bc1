"""Which parts a phrase may mean: what understanding makes of it before it knows the place."""

from saycheck.understanding.parts import PartFinder
from saycheck.understanding.resolve import FITS, Resolver, folded
from saycheck.understanding.text import split
from saycheck.vocabulary.compiled import Part, Vocabulary
from saycheck.vocabulary.origin import Origin, said_at
from saycheck.vocabulary.stack import Stack

MOST = 5
"""How many parts are named for one phrase."""


def why(words: str, part: Part, stack: Stack) -> tuple[str, tuple[Origin, ...]]:
    """Which name of a part the words came to, and the lines on which that name stands.

    It is the name that shares most words with them, as understanding scores it; where two are alike the
    shorter.
    """
    wanted = folded(words)

    def likeness(saying: str) -> tuple[float, int]:
        mine = folded(saying)
        return 2 * len(wanted & mine) / (len(wanted) + len(mine) or 1), -len(saying)

    saying = max([*part.sayings, *part.heads], key=likeness)
    return saying, said_at(saying, part, stack)


def parts_named(phrase: str, vocabulary: Vocabulary) -> list[tuple[str, list[str]]]:
    """Each part mention of a phrase as its words and the parts they may mean, the likeliest first."""
    words = [word.lower() for word, _, _ in split(phrase)]
    resolver = Resolver(vocabulary)
    here = vocabulary.zones[0].name
    named = []
    for start, end, name in PartFinder(vocabulary).find(words):
        fitting = resolver.candidates(frozenset(name.words), here, None)
        parts = list(dict.fromkeys(part.name for score, part in fitting if score >= FITS))
        named.append((" ".join(words[start:end]), parts[:MOST]))
    return named
