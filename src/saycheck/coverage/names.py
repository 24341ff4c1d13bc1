"""Which lines of the checklist a name can mean: "tyres" all the tyres, "lights" the whole zone of lights."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache

from saycheck.vocabulary.compiled import Part, Vocabulary, Zone

Words = tuple[str, ...]

KEPT_MOST = 64
"""Vocabularies whose names are kept at hand."""

WORD = re.compile(r"[a-z0-9]+(?:'[a-z]+)?")
IRREGULAR = {"teeth": "tooth", "chassis": "chassis", "gas": "gas", "lens": "lens", "abs": "abs"}
# One of them is as many as there are: "glass is good" means every pane.
UNCOUNTED = frozenset(["glass", "lighting"])
# "Brakes" are the service brakes; the parking brake is only spoken of where it is named.
ONE_OF_ITS_KIND = frozenset(["brake"])
# The last word of a zone that is named after the things in it ("safety equipment"), not after a place.
COLLECTIVE = frozenset(["equipment", "gear", "kit", "lighting"])

# What a fluid may be in: "hydraulic tank" holds the hydraulic oil.
VESSELS = frozenset(["tank", "reservoir", "bottle", "sump"])

# Words that pick one or some out of several of a kind, and words that take in all of them.
ENDS = frozenset(
    "top bottom upper lower inner outer inside outside front rear back middle centre center nearest".split()
)
SOME = frozenset(
    "one first second third fourth last two three four five six seven eight nine ten number pair half other"
    " others rest same remaining except bar".split()
)
EVERY = frozenset(["all", "both", "every", "each", "everything"])


def picks(words: Iterable[str]) -> bool:
    """Whether the words pick out some of a kind: "top hose", "number four", "the other three"."""
    said = set(words)
    return bool(said & ENDS) or (bool(said & SOME) and not said & EVERY)


@lru_cache(maxsize=16384)
def singular(word: str) -> str:
    """A word without its plural ending, good enough to compare with; both sides are folded alike."""
    if word in IRREGULAR:
        return IRREGULAR[word]
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is", "'s")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-2] if word.endswith(("ches", "shes", "xes", "sses")) else word[:-1]


def is_plural(word: str) -> bool:
    """Whether a word stands for several, by its ending."""
    return singular(word) != word


def words_of(text: str) -> list[str]:
    """The words of a text in lower case; a hyphen parts two words."""
    return WORD.findall(text.lower().replace("’", "'"))


@lru_cache(maxsize=16384)
def folded(text: str) -> Words:
    """The words of a name in the form in which names are compared."""
    return tuple(singular(word) for word in words_of(text))


@dataclass(frozen=True, slots=True)
class Called:
    """How a text names a part: the folded words, the last of them as said, and the word before them."""

    words: Words
    last: str
    before: str


class Names:
    """The names that a machine kind's parts and zones go by, ready to look up."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.vocabulary = vocabulary
        self._of_kind: dict[Words, list[str]] = {}
        self._within: dict[str, list[str]] = {}
        self._fluids: dict[str, list[str]] = {}

    @cached_property
    def sayings(self) -> Mapping[str, tuple[Words, ...]]:
        """Part name to its sayings, folded, no two alike."""
        return {
            part.name: tuple(dict.fromkeys(folded(saying) for saying in part.sayings))
            for part in self.vocabulary.parts
        }

    @cached_property
    def lines(self) -> Mapping[str, list[int]]:
        """Part name to the places of its lines in ``Vocabulary.lines``."""
        found: dict[str, list[int]] = {}
        for place, line in enumerate(self.vocabulary.lines):
            found.setdefault(line.part, []).append(place)
        return found

    @cached_property
    def endings(self) -> Mapping[str, list[Words]]:
        """Part name to all endings of its sayings, no two alike, the longest first."""
        return {
            part: sorted(
                dict.fromkeys(ending for saying in sayings for ending in _endings(saying)),
                key=len,
                reverse=True,
            )
            for part, sayings in self.sayings.items()
        }

    @cached_property
    def by_last_word(self) -> Mapping[str, list[tuple[Words, str]]]:
        """Every last word of a saying to the sayings that end in it, each with its part."""
        found: dict[str, list[tuple[Words, str]]] = {}
        for part, sayings in self.sayings.items():
            for saying in sayings:
                found.setdefault(saying[-1], []).append((saying, part))
        return found

    @cached_property
    def nouns(self) -> Mapping[str, frozenset[Words]]:
        """Part name to the bare nouns for it: endings of its name and of its shared part's, all heads.

        "Pin" is a noun for boom pins and for bucket pins, not for the boom lock, though that may be called
        a lock pin.
        """
        return {
            part.name: frozenset(
                [*_endings(folded(part.name)), *_endings(folded(part.family))]
                + [folded(head) for head in part.heads]
            )
            for part in self.vocabulary.parts
        }

    def of_kind(self, noun: Words) -> list[str]:
        """The parts that a noun means when said without more: "tyre" the front and the rear tyre.

        What is uncounted reaches further: glass is in every part that some saying ends in and that is
        looked at for the same as glass.
        """
        if noun not in self._of_kind:
            self._of_kind[noun] = self._meant(noun)
        return self._of_kind[noun]

    def _meant(self, noun: Words) -> list[str]:
        if noun[-1:] and noun[-1] in UNCOUNTED and noun in self.shared:
            looked_for = self.vocabulary.shared[self.shared[noun]].checks[:1]
            return [
                part.name
                for part in self.vocabulary.parts
                if list(part.checks[:1]) == looked_for
                and any(saying[-len(noun) :] == noun for saying in self.sayings[part.name])
            ]
        if noun[-1:] and noun[-1] in ONE_OF_ITS_KIND:
            return self.named(noun)
        return [part for part, nouns in self.nouns.items() if noun in nouns]

    @cached_property
    def zones(self) -> Mapping[Words, Zone]:
        """Every saying of a zone, folded, to the zone."""
        return {folded(saying): zone for zone in reversed(self.vocabulary.zones) for saying in zone.sayings}

    @cached_property
    def shared(self) -> Mapping[Words, str]:
        """Every name of a shared part, folded, to that shared part."""
        return {
            folded(head): shared.name
            for shared in self.vocabulary.shared.values()
            for head in (*shared.heads, shared.name)
        }

    def named(self, words: Words) -> list[str]:
        """The parts that these folded words name in full."""
        return [part for saying, part in self.by_last_word.get(words[-1], ()) if saying == words]

    def within(self, name: str) -> list[str]:
        """Parts whose whole name another one ends in, words between left aside ("boom hydraulic hose").

        Single words are left out: the glass of the hydraulic tank is not that of the cab.
        """
        if name not in self._within:
            words = folded(name)
            fitting = [
                (len(saying), part)
                for saying, part in self.by_last_word.get(words[-1] if words else "", ())
                if len(saying) > 1 and _in_order(saying, words)
            ]
            longest = max((length for length, _ in fitting), default=0)
            self._within[name] = [part for length, part in fitting if length == longest]
        return self._within[name]

    def fluids(self, vessel: str) -> list[str]:
        """The fluids that a part holds, by name; each is a part with a level to be looked at."""
        if vessel not in self._fluids:
            self._fluids[vessel] = [
                part.name
                for part in self.vocabulary.parts
                if any(check.endswith(" level") for check in part.checks)
                and _holds(folded(vessel), folded(part.name))
            ]
        return self._fluids[vessel]

    def called(self, part: str, text: str) -> Called | None:
        """What a text calls a part, by the longest ending of one of its sayings.

        None where the text does not name it, as in "right one, dry too".
        """
        raw = words_of(text)
        said = tuple(singular(word) for word in raw)
        here = frozenset(said)
        for ending in self.endings.get(part, ()):
            if ending[-1] not in here:
                continue
            for start in range(len(said) - len(ending) + 1):
                end = start + len(ending)
                if said[start:end] == ending:
                    return Called(ending, raw[end - 1], raw[start - 1] if start else "")
        return None

    def component(self, part: Part, name: str) -> str | None:
        """The component of a part that a finding's name adds to the part's own ("lift cylinder rod")."""
        whole, own = folded(name), folded(part.name)
        added = whole[len(own) :] if whole[: len(own)] == own else ()
        return next(
            (self.shared[words] for words in (whole, added) if words in self.shared and whole != own), None
        )


_made: dict[int, Names] = {}


def names_of(vocabulary: Vocabulary) -> Names:
    """The names of a vocabulary, made once: they are the same for every walk of a kind."""
    known = _made.get(id(vocabulary))
    if known is None or known.vocabulary is not vocabulary:
        if len(_made) >= KEPT_MOST:
            _made.clear()
        known = _made[id(vocabulary)] = Names(vocabulary)
    return known


def _in_order(some: Words, words: Words) -> bool:
    """Whether all of ``some`` stand in ``words`` in this order, others between them."""
    rest = iter(words)
    return all(word in rest for word in some)


def _holds(vessel: Words, fluid: Words) -> bool:
    """Whether a part holds a fluid, by their names: the fuel tank fuel, the engine the engine oil."""
    stem = fluid[:-1]
    in_it = bool(stem) and vessel[-len(stem) :] == stem
    return in_it or (vessel[-1] in VESSELS and vessel[:-1] == (stem or fluid))


def _endings(words: Words) -> list[Words]:
    """The words and all their endings, the longest first."""
    return [words[start:] for start in range(len(words))]


def names_things(zone: Zone) -> bool:
    """Whether a zone is named after the things in it ("fluids"), so that "all good" speaks of each."""
    last = words_of(zone.name)[-1]
    return is_plural(last) or last in COLLECTIVE
