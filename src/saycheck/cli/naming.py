"""Which parts a phrase may mean: what understanding makes of it before it knows the place."""

from saycheck.understanding.parts import PartFinder
from saycheck.understanding.resolve import FITS, Resolver
from saycheck.understanding.text import split
from saycheck.vocabulary.compiled import Vocabulary

MOST = 5
"""How many parts are named for one phrase."""


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
