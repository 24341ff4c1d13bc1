"""What stands for the names in braces that only the vocabulary can fill: parts, pieces, faults, sizes.

The part named last is kept, so that what is said next of it fits: a tyre is cut, a rod scored, an edge
measured in millimetres. Mostly, since people say all sorts of things.
"""

import random
import re
from bisect import bisect
from collections.abc import Callable, Sequence
from itertools import accumulate

from saycheck.hearing.language import said
from saycheck.hearing.language.phrasing import Slot
from saycheck.vocabulary.compiled import Part, Vocabulary
from saycheck.vocabulary.schema import Condition

SIDES = ("left", "right", "left", "right", "left hand", "right hand", "nearside", "offside")
ANY_MACHINE = 0.12
"""How often a part is one of any machine, by its shared name."""
FITTING = 0.65
"""How often a fault is one of those that the part is checked for."""


class Slots:
    """The names of one machine kind, each a function of the dice."""

    def __init__(
        self, vocabulary: Vocabulary, conditions: Sequence[Condition], weight: Callable[[str], float]
    ) -> None:
        """``weight`` tells how common a saying is beside others."""
        self.vocabulary = vocabulary
        self.weight = weight
        self._weights: dict[tuple[str, ...], list[float]] = {}
        self.parts = [part for part in vocabulary.parts if part.sayings]
        self.part: Part = self.parts[0]
        self.owner = {name: part for part in self.parts for name in (*part.heads, *part.sayings)}
        self.sayings = tuple(self.owner)
        self.shared = tuple(word for part in vocabulary.shared.values() for word in (part.name, *part.heads))
        self.words = {
            form: _Forms([c for c in conditions if c.form == form], self.pick) for form in ("fault", "fine")
        }
        self.fitting = {part.name: self._fitting(part, conditions) for part in self.parts}

    def _fitting(self, part: Part, conditions: Sequence[Condition]) -> "_Forms":
        wanted = {name for check in part.checks for name in self.vocabulary.checks[check].conditions}
        return _Forms([c for c in conditions if c.form == "fault" and c.name in wanted], self.pick)

    def pick(self, sayings: Sequence[str], rng: random.Random) -> str:
        """One of several sayings, common ones likelier."""
        key = tuple(sayings)
        weights = self._weights.get(key)
        if weights is None:
            weights = self._weights[key] = list(accumulate(self.weight(saying) for saying in sayings))
        return sayings[min(bisect(weights, rng.random() * weights[-1]), len(sayings) - 1)]

    def all(self) -> dict[str, Slot]:
        """Every name with what says it."""
        found: dict[str, Slot] = {
            "part": self.named,
            "parts": lambda rng: plural(self.named(rng)),
            "lpart": self.sided,
            "piece": self.piece,
            "pieces": lambda rng: plural(self.piece(rng)),
            "zone": lambda rng: rng.choice(rng.choice(self.vocabulary.zones).sayings),
            "machine": lambda rng: rng.choice(self.vocabulary.sayings),
            "bad": lambda rng: self._fault("adjectives", rng),
            "flaw": lambda rng: self._fault("nouns", rng),
            "flaws": lambda rng: plural(self._fault("nouns", rng)),
            "flawing": lambda rng: self._fault("doing", rng),
            "trouble": lambda rng: self._fault("phrases", rng),
            "good": self.good,
            "size": self.size,
            "number": lambda rng: said.number(1, 100, rng),
            "digits": lambda rng: said.digits(str(rng.randrange(10, 10 ** rng.choice((2, 2, 3, 4, 5)))), rng),
        }
        for name in (
            "length",
            "pressure",
            "volts",
            "percent",
            "hours",
            "litres",
            "time",
            "count",
            "nth",
            "fraction",
        ):
            found[name] = getattr(said, name)
        found["temp"] = said.temperature
        return found

    def named(self, rng: random.Random) -> str:
        """A part by one of its names, now and then by its bare noun or by a part of any machine."""
        if rng.random() < ANY_MACHINE:
            return self.pick(self.shared, rng)
        name = self.pick(self.sayings, rng)
        self.part = self.owner[name]
        return name

    def sided(self, rng: random.Random) -> str:
        """A part with its side before or after it."""
        name = self.named(rng)
        side = rng.choice(SIDES)
        dice = rng.random()
        if dice < 0.72:
            first, _, rest = name.partition(" ")
            # "front left tyre" as well as "left front tyre"
            return (
                f"{first} {side} {rest}" if first in ("front", "rear") and dice < 0.25 else f"{side} {name}"
            )
        if dice < 0.85:
            return f"{name} {side.split()[0]}"
        return f"{name} on the {side}{' side' if dice < 0.9 else ''}"

    def piece(self, rng: random.Random) -> str:
        """Something found on the part named last."""
        name = (
            rng.choice(self.part.components)
            if self.part.components
            else rng.choice(self.part.heads or self.shared)
        )
        shared = self.vocabulary.shared.get(name)
        return self.pick((name, *shared.heads), rng) if shared and rng.random() < 0.5 else name

    def good(self, rng: random.Random) -> str:
        """A way to say that something is fine."""
        return self.words["fine"].any(("adjectives", "adjectives", "phrases"), rng)

    def size(self, rng: random.Random) -> str:
        """A measure of the part named last, else a length or a pressure."""
        if self.part.measures and rng.random() < 0.8:
            return said.BY_UNIT.get(rng.choice(self.part.measures).unit, said.length)(rng)
        return rng.choice(
            (said.length, said.length, said.length, said.pressure, said.percent, said.fraction)
        )(rng)

    def _fault(self, kind: str, rng: random.Random) -> str:
        fitting = self.fitting[self.part.name]
        if rng.random() < FITTING and fitting.has(kind):
            return fitting.any((kind,), rng)
        return self.words["fault"].any((kind,), rng)


class _Forms:
    """The words of some conditions by what they are."""

    def __init__(self, conditions: Sequence[Condition], pick: "Pick") -> None:
        self.pick = pick
        self.by_kind: dict[str, list[str]] = {"adjectives": [], "nouns": [], "doing": [], "phrases": []}
        for condition in conditions:
            doing = [ing(verb) for verb in condition.verbs]
            adjectives = [*condition.adjectives, *doing, *(past(verb) for verb in condition.verbs)]
            for kind, words in (
                ("adjectives", adjectives),
                ("nouns", condition.nouns),
                ("doing", doing),
                ("phrases", condition.phrases),
            ):
                self.by_kind[kind] += words

    def has(self, kind: str) -> bool:
        """Whether there is a word of that kind."""
        return bool(self.by_kind[kind])

    def any(self, kinds: Sequence[str], rng: random.Random) -> str:
        """A word of one of the kinds."""
        return self.pick(self.by_kind[rng.choice(kinds)], rng)


Pick = Callable[[Sequence[str], random.Random], str]


def plural(name: str) -> str:
    """The plural of a name by rule: boxes, batteries, gudgeons; what ends in s is left."""
    front, _, last = name.rpartition(" ")
    return f"{front} {_plural(last)}".strip()


def _plural(noun: str) -> str:
    if noun == "tooth":
        return "teeth"
    if noun.endswith(("ch", "sh", "x", "ss", "z")):
        return f"{noun}es"
    if noun.endswith("s") or noun == "teeth":
        return noun
    return f"{noun[:-1]}ies" if re.search(r"[^aeiou]y$", noun) else f"{noun}s"


def ing(verb: str) -> str:
    """The ing form of a verb by rule: leaking, dripping, moving."""
    first, _, rest = verb.partition(" ")
    if re.search(r"[^e]e$", first):
        first = first[:-1]
    elif re.search(r"^[^aeiou]*[aeiou][bdgmnprt]$", first):
        first += first[-1]
    return f"{first}ing {rest}".strip()


_PASTS = {
    "break": "broken", "tear": "torn", "bend": "bent", "split": "split", "wear": "worn", "weep": "weeping",
    "freeze": "frozen", "burn": "burnt", "burst": "burst", "stick": "stuck", "blow": "blown", "cut": "cut",
    "let": "let", "come": "come", "go": "gone", "fall": "fallen", "bleed": "bled", "lose": "lost",
    "run": "run", "hold": "held", "hang": "hanging", "rub": "rubbed", "catch": "caught",
    "drag": "dragged", "eat": "eaten",
}  # fmt: skip


def past(verb: str) -> str:
    """The past participle of a verb: by rule, or one of the common irregular ones."""
    first, _, rest = verb.partition(" ")
    if first in _PASTS:
        first = _PASTS[first]
    elif first.endswith("e"):
        first += "d"
    elif re.search(r"[^aeiou]y$", first):
        first = f"{first[:-1]}ied"
    elif re.search(r"^[^aeiou]*[aeiou][bdgmnprt]$", first):
        first = f"{first}{first[-1]}ed"
    else:
        first += "ed"
    return f"{first} {rest}".strip()
