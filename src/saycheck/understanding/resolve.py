"""From a part as named to the part of the machine that is meant, given where the walker stands.

"Rod" after talk of the left lift cylinder is that cylinder's rod; "tyre" while standing at the left
front is the left front tyre. What no line of the checklist fits keeps the words it was given.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from saycheck.understanding.parts import PartName
from saycheck.understanding.phrases import singular
from saycheck.vocabulary.compiled import Part, Vocabulary

FITS = 0.62
# A name that the vocabulary did not find has words of its own: it must fit a part better.
FITS_UNLISTED = 0.78
ZONE_BONUS = 0.12
FOCUS_BONUS = 0.08
# "Wheel nuts" after the rear tyre are the rear ones.
END_BONUS = 0.03
OPTION_MALUS = 0.1
# What may be on any part, and then is not that of another one: "the door has one bolt loose".
FASTENERS = frozenset(
    "bolt nut screw stud rivet clip clamp bracket washer spring gasket cotter strap".split()
)
# What many parts have one of: under a heading it is the one of that part.
SMALL_THINGS = FASTENERS | frozenset(
    "pin clip hinge gauge cap seal bush bushing bearing hose latch handle lens cable nozzle boot cover lid".split()
)
WHEEL_FASTENERS = frozenset(["nut", "stud"])
WHEELS = frozenset("tyre wheel rim hub".split())
IGNORED = frozenset(
    "the a an of main single old new big little small long short one first second third fourth".split()
)

# How many sayings are kept folded: more than any machine has.
FOLDED_KEPT = 20_000

# What tells parts of one name apart by where they stand.
APART = frozenset("front rear centre middle upper lower top bottom inner outer inside outside".split())
# Of them those that tell apart what is on one part: the top pin of a kingpost, the lower seal of a joint.
LEVELS = frozenset("upper lower top bottom inner outer".split())


@dataclass(frozen=True)
class Resolved:
    """A part that is meant: the name for the finding, its checklist part (None if it has none)."""

    name: str
    part: Part | None
    zone: str
    component: str | None = None
    score: float = 1.0

    @property
    def family(self) -> str:
        """The shared part that it is made like, by name, else its own name."""
        return self.part.family if self.part else self.name

    @property
    def sided(self) -> bool:
        """Whether the part is known to stand on both sides of the machine."""
        return self.part is not None and self.part.sided


def end_of(name: str) -> str | None:
    """The end of the machine that a part's name tells ("rear" of "rear tyre"), or None."""
    first = name.split(" ", 1)[0]
    return first if first in ("front", "rear", "centre") else None


@lru_cache(FOLDED_KEPT)
def folded(saying: str) -> frozenset[str]:
    """The words of a saying that tell parts apart, in the singular."""
    return frozenset(singular(w) for w in saying.lower().split()) - IGNORED


def noun_of(saying: str) -> str:
    """The word of a saying that tells what the part is, in the singular: the last one."""
    return singular(saying.lower().split()[-1])


def named_on(owner: str, component: str) -> str:
    """The name of what is on a part, nothing named twice: "forks" and "fork heel" are "fork heel", "cutting edge" and
    "edge bolt" are "cutting edge bolt".
    """
    if folded(owner) < folded(component):
        return component
    rest = [word for word in component.split() if singular(word) not in folded(owner)]
    return f"{owner} {' '.join(rest) or component}"


class Resolver:
    """Holds the parts of one machine kind, indexed by their words."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.vocabulary = vocabulary
        self.sayings: list[tuple[frozenset[str], frozenset[str], Part]] = []
        self.nouns: list[str] = []
        self.by_word: dict[str, set[int]] = {}
        for part in vocabulary.parts:
            heads = [folded(h) for h in part.heads]
            for saying in part.sayings:
                words = folded(saying)
                head = max((h for h in heads if h <= words), key=len, default=words)
                index = len(self.sayings)
                self.sayings.append((words, head, part))
                self.nouns.append(noun_of(saying))
                for word in words:
                    self.by_word.setdefault(word, set()).add(index)
            for said, head in zip(part.heads, heads, strict=True):
                if head and head not in [w for w, _, p in self.sayings if p is part]:
                    self.sayings.append((head, head, part))
                    self.nouns.append(noun_of(said))
                    for word in head:
                        self.by_word.setdefault(word, set()).add(len(self.sayings) - 1)
        self.places = frozenset(zone.name for zone in vocabulary.zones)
        self.shared = {
            frozenset(folded(h)): s.name for s in vocabulary.shared.values() for h in (s.name, *s.heads)
        }

    def zone_of(self, part: Part, side: str | None, here: str) -> str:
        """The zone in which a part on this side stands, the walker's own zone first."""
        sides = {z.name: z.side for z in self.vocabulary.zones}
        fitting = [z for z in part.zones if side in (None, "both", "none") or sides[z] in ("none", side)]
        if here in (fitting or part.zones):
            return here
        return (fitting or list(part.zones) or [here])[0]

    def candidates(self, words: frozenset[str], here: str, focus: Part | None) -> list[tuple[float, Part]]:
        """Parts that the words may name, best first, with scores: 1 is a full match in another zone."""
        scores: dict[str, tuple[float, Part]] = {}
        for index in sorted(set().union(*(self.by_word.get(w, set()) for w in words))) if words else ():
            saying, head, part = self.sayings[index]
            common = len(words & saying)
            # Where something stands is no name: "bottom tank" is no bottom step.
            if not head & words or (words & saying) <= APART < APART | words:
                continue
            # "Wheel" is no wheel nut: what a part is stands last in its name.
            if len(words) == 1 < len(saying) and self.nouns[index] not in words:
                continue
            score = 2 * common / (len(words) + len(saying))
            if here in part.zones:
                score += ZONE_BONUS
            if focus is not None and part.name == focus.name:
                score += FOCUS_BONUS
            elif focus is not None and end_of(focus.name) and end_of(focus.name) == end_of(part.name):
                score += END_BONUS
            if part.option:
                score -= OPTION_MALUS
            if part.name not in scores or score > scores[part.name][0]:
                scores[part.name] = (score, part)
        return sorted(scores.values(), key=lambda s: -s[0])

    def checks_of(self, part: Resolved) -> Sequence[str]:
        """The checks that are made of a part, or of the component that is meant."""
        owner = part.part
        if owner is None:
            return ()
        last = part.name.split()[-1]
        component = part.component or (last if last in owner.components else None)
        shared = self.vocabulary.shared.get(component) if component else None
        return shared.checks if shared else owner.checks

    def component_of(self, words: frozenset[str], owner: Part | None) -> str | None:
        """The component of ``owner`` that the words name, or None."""
        if owner is None:
            return None
        name = self.shared.get(words)
        if name and name in owner.components:
            return name
        for component in owner.components:
            heads = self.vocabulary.shared[component].heads if component in self.vocabulary.shared else []
            if any(folded(h) == words for h in (component, *heads)):
                return component
        return None

    def is_short_for_one_of(self, words: frozenset[str], owner: Part) -> bool:
        """Whether the one word is short for a component that is on no list itself: a hub's seal is its hub seal."""
        listed = {part.like for part in self.vocabulary.parts}
        return len(words) == 1 and any(noun_of(c) in words and c not in listed for c in owner.components)

    def is_listed(self, words: tuple[str, ...]) -> bool:
        """Whether some part of the list goes by just these words."""
        wanted = folded(" ".join(words))
        return any(self.sayings[i][0] == wanted for i in self.by_word.get(words[0], ()))

    def at_end(self, part: Resolved, ends: tuple[str, ...], here: str) -> Resolved | None:
        """The part of the same name elsewhere: "rear tyre" and ("front",) give "front tyre"; None where none is."""
        listed = part.part.name if part.part else ""
        wanted = (folded(listed) - APART) | set(ends)
        found = [p for p in self.vocabulary.parts if folded(p.name) == wanted]
        if found:
            here_first = min(found, key=lambda p: here not in p.zones)
            return Resolved(here_first.name, here_first, here, None, part.score)
        own = [word for word in part.name.split() if word in APART and word not in listed.split()]
        if len(own) == 1 and len(ends) == 1 and ends[0] in APART:
            return replace(part, name=part.name.replace(own[0], ends[0]))
        return None

    def is_called(self, part: Part, words: frozenset[str]) -> bool:
        """Whether a part goes by just these words."""
        return any(saying == words for saying, _, p in self.sayings if p is part)

    def is_another(self, part: Part, words: frozenset[str], here: str, near: Part) -> bool:
        """Whether the words are just how ``part``, which stands here, is called, and it is not ``near``."""
        return here in part.zones and part.name != near.name and self.is_called(part, words)

    def in_full(self, spoken: str, words: frozenset[str]) -> str:
        """The name of what is on no list as it is on others: "turbo" is a turbocharger, "rear screen" a rear window.

        One word that is not cut short stays as it was said: it may be called so here.
        """
        known = self.shared.get(words, "")
        return known if known.startswith(spoken) or (known and len(words) > 1) else spoken

    def is_its(self, part: Part, words: frozenset[str], component: str, owner: Part) -> bool:
        """Whether ``part`` is how the list calls this component of ``owner``: the fan belt is the belt of the engine.

        Of several owners, as there are on two sides, each has its own.
        """
        if owner.sided or part.like != component or set(part.zones).isdisjoint(owner.zones):
            return False
        return self.is_called(part, words)

    def elided(self, words: tuple[str, ...], here: str) -> Resolved | None:
        """ "Tilt rod" is the rod of the tilt cylinder: a component named by its owner's first word."""
        if len(words) < 2:
            return None
        for cut in range(len(words) - 1, 0, -1):
            front, back = frozenset(words[:cut]) - IGNORED, frozenset(words[cut:])
            owners = {
                self.sayings[i][2].name: self.sayings[i][2]
                for w in front
                for i in self.by_word.get(w, ())
                if front <= self.sayings[i][0]
            }
            fitting = [p for p in owners.values() if self.component_of(back, p)]
            fitting.sort(key=lambda p: (here not in p.zones, len(p.name)))
            if front and fitting:
                component = self.component_of(back, fitting[0])
                return Resolved(f"{fitting[0].name} {component}", fitting[0], here, component, 0.85)
        return None

    def is_place(self, part: Resolved) -> bool:
        """Whether what is named is a place as a whole ("the cab I'll do later"), no part of the list."""
        return part.part is None and part.name in self.places

    def is_kind(self, words: frozenset[str]) -> bool:
        """Whether the words name a kind of part in full ("wear plate"), or a place as a whole ("the cab")."""
        return words in self.shared and (len(words) > 1 or words <= self.places)

    def part_of(self, words: frozenset[str], here: str, focus: Part | None) -> tuple[float, Part] | None:
        """The part that the words fit best, with its score; None where none fits well enough."""
        best = self.candidates(words, here, focus)
        return best[0] if best and best[0][0] >= FITS else None

    @staticmethod
    def fastens(words: frozenset[str], beside: Resolved) -> bool:
        """Whether the words are a bare fastener, and not one that such a part is known by."""
        if len(words) != 1 or not words <= FASTENERS:
            return False
        if words <= WHEEL_FASTENERS and WHEELS & set(beside.name.split()):
            return False
        small = next(iter(words))
        return not (beside.part and any(small in saying.lower().split() for saying in beside.part.sayings))

    def __call__(
        self,
        name: PartName,
        here: str,
        focus: Resolved | None,
        beside: Resolved | None = None,
        *,
        headed: bool = False,
    ) -> Resolved:
        """The part meant by ``name`` for a walker in zone ``here`` who last spoke of ``focus``.

        ``beside`` is the part named before in the same sentence: a bare "bolt" is one of its own. Where that is a
        heading, the name is ``headed`` by it: "quick hitch, the pin's in".
        """
        words = frozenset(name.words) - IGNORED
        near = focus.part if focus else None
        if beside and self.fastens(words, beside) and not self.component_of(words, near):
            return Resolved(f"{beside.name} {' '.join(words)}", beside.part, here, None, 0.7)
        whole = self.part_of(words, here, near)
        if whole and whole[0] < FITS_UNLISTED and (not name.listed or self.is_kind(words)):
            whole = None
        if name.owner:
            head = frozenset(name.head) - IGNORED
            owner = self.part_of(frozenset(name.owner) - IGNORED, here, near)
            if owner and not (whole and whole[0] >= 0.95):
                spoken = " ".join(name.head)
                return Resolved(named_on(owner[1].name, spoken), owner[1], here, spoken, owner[0])
            if whole is None and not owner:
                return Resolved(" ".join(name.words), None, here, None, 0.5)
            words = words or head
        if not (whole and whole[0] >= 0.95):
            elided = self.elided(name.words, here)
            if elided:
                return elided
        component = self.component_of(words, near)
        if near and not component and headed and len(words) == 1 and words <= SMALL_THINGS:
            component = " ".join(name.words)
        if (
            near
            and not component
            and not (whole and whole[0] >= 0.95)
            and self.is_short_for_one_of(words, near)
        ):
            component = " ".join(name.words)
        if near and component and whole and headed and self.is_its(whole[1], words, component, near):
            return Resolved(whole[1].name, whole[1], here, None, min(1.0, whole[0]))
        if near and component and (headed or not (whole and self.is_another(whole[1], words, here, near))):
            return Resolved(named_on(near.name, component), near, here, component, 0.9)
        level = words & LEVELS
        if near and level and self.component_of(words - level, near) and not (whole and whole[0] >= 0.95):
            spoken = " ".join(name.words)
            return Resolved(f"{near.name} {spoken}", near, here, spoken, 0.9)
        if whole:
            return Resolved(whole[1].name, whole[1], here, None, min(1.0, whole[0]))
        return Resolved(self.in_full(" ".join(name.words), words), None, here, None, 0.5)
