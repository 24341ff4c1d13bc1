"""Which lines of the checklist a name can mean: "tyres" all the tyres, "lights" the whole zone of lights."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache

from saycheck.vocabulary.compiled import Part, Vocabulary, Zone

Words = tuple[str, ...]

WORD = re.compile(r"[a-z0-9]+(?:'[a-z]+)?")
IRREGULAR = {"teeth": "tooth", "chassis": "chassis", "gas": "gas", "lens": "lens", "abs": "abs"}
# One of them is as many as there are: "glass is good" means every pane.
UNCOUNTED = frozenset(["glass", "lighting"])
# "Brakes" are the service brakes; the parking brake is only spoken of where it is named.
ONE_OF_ITS_KIND = frozenset(["brake"])
# The last word of a zone that is named after the things in it ("safety equipment"), not after a place.
COLLECTIVE = frozenset(["equipment", "gear", "kit", "lighting"])

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

    @cached_property
    def sayings(self) -> Mapping[str, tuple[Words, ...]]:
        """Part name to its sayings, folded, no two alike."""
        return {
            part.name: tuple(dict.fromkeys(folded(saying) for saying in part.sayings))
            for part in self.vocabulary.parts
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
                [*_endings(folded(part.name)), *_endings(folded(part.like or part.name))]
                + [folded(head) for head in part.heads]
            )
            for part in self.vocabulary.parts
        }

    def of_kind(self, noun: Words) -> list[str]:
        """The parts that a noun means when said without more: "tyre" the front and the rear tyre.

        What is uncounted reaches further: glass is in every part that some saying ends in and that is
        looked at for the same as glass.
        """
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

    def called(self, part: str, text: str) -> Called | None:
        """What a text calls a part, by the longest ending of one of its sayings.

        None where the text does not name it, as in "right one, dry too".
        """
        raw = words_of(text)
        said = [singular(word) for word in raw]
        best: Called | None = None
        for ending in (ending for saying in self.sayings.get(part, ()) for ending in _endings(saying)):
            if best is not None and len(ending) <= len(best.words):
                continue
            for start in range(len(said) - len(ending) + 1):
                if tuple(said[start : start + len(ending)]) == ending:
                    end = start + len(ending)
                    best = Called(ending, raw[end - 1], raw[start - 1] if start else "")
                    break
        return best

    def component(self, part: Part, name: str) -> str | None:
        """The component of a part that a finding's name adds to the part's own ("lift cylinder rod")."""
        whole, own = folded(name), folded(part.name)
        added = whole[len(own) :] if whole[: len(own)] == own else ()
        return next(
            (self.shared[words] for words in (whole, added) if words in self.shared and whole != own), None
        )


def _endings(words: Words) -> list[Words]:
    """The words and all their endings, the longest first."""
    return [words[start:] for start in range(len(words))]


def names_things(zone: Zone) -> bool:
    """Whether a zone is named after the things in it ("fluids"), so that "all good" speaks of each."""
    last = words_of(zone.name)[-1]
    return is_plural(last) or last in COLLECTIVE
