"""Finds the parts that are named, by the vocabulary: whole names, heads with what stands before them.

A part mention is a run like "left front tyre", "the lift cylinder's gland", "steering hose". Which line
of the checklist it means is decided later, when the place is known (``resolve``).
"""

from collections.abc import Sequence
from dataclasses import dataclass

from saycheck.understanding.phrases import PhraseTable, singular
from saycheck.understanding.text import Mention, Reading
from saycheck.vocabulary.compiled import Part, Vocabulary

LEFT = frozenset(["left", "nearside", "lefthand", "lh", "n/s", "lefty", "larboard", "lefts"])
RIGHT = frozenset(["right", "offside", "righthand", "rh", "o/s", "rights"])
ENDS = {"front": "front", "rear": "rear", "back": "rear", "forward": "front", "hind": "rear", "fore": "front"}
POSITIONS = frozenset(
    "top bottom upper lower inner outer inside outside middle centre center main other first second third fourth"
    " fifth sixth seventh eighth corner mid opposite end both all every single big small little long short old new"
    " steer drive side hand near off far".split()
)
# Plurals that are verbs behind a singular: "belt latches", "door locks".
ALSO_VERBS = frozenset(["latches", "locks", "catches", "lights", "seats", "works", "clips"])
# Of them those that are hardly ever named without an article at the end of a clause.
HOLDS = frozenset(["latches", "catches"])
# What several parts do that is also the name of one, behind "both" or "all": "levers both latch", "all four light".
ACTS = frozenset(["latch", "lock", "catch", "light", "work"])
TOGETHER = frozenset("both all two three four five six they".split())
CLAUSE_ENDS = frozenset([",", ".", ";", ":", "!", "?", "and", "but"])
# Words that never belong to a part's name where they stand before it.
BARE_WORDS = frozenset(
    "the a an and or of on in at to for with its it is are no not up off one two three four five six seven"
    " eight nine ten back side end line hand thing bit level point job".split()
)
# Words that may stand inside a name but not at its beginning.
NOT_FIRST = frozenset("old new all every side hand single near far".split())


@dataclass(frozen=True)
class PartName:
    """What a part mention says: its words without articles and sides, its head phrase, its owner.

    ``words`` are folded to the singular. ``side`` is left, right, both or None. ``owner`` are the folded
    words of the bigger part it sits on ("lift cylinder" of "gland on the lift cylinder"), or ().
    ``plural`` tells that more than one is meant, ``listed`` whether the vocabulary found the words.
    """

    words: tuple[str, ...]
    head: tuple[str, ...]
    side: str | None = None
    owner: tuple[str, ...] = ()
    plural: bool = False
    listed: bool = True


def is_verb(words: Sequence[str], at: int) -> bool:
    """Whether the word at ``at``, the last of a hit, is what the part before it does."""
    before = words[at - 1] if at else "."
    if words[at] in ACTS:
        return before in TOGETHER
    names = before[0].isalpha() and before not in BARE_WORDS and singular(before) == before
    return names and words[at] in HOLDS


class PartFinder:
    """Finds part mentions by one machine kind's vocabulary."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.table: PhraseTable[str] = PhraseTable(singular)
        self.kinds: set[str] = set()
        for part in vocabulary.parts:
            self.table.add_all(part.sayings, "line")
            self.table.add_all(part.heads, "head")
            self._kinds_of(part)
        for shared in vocabulary.shared.values():
            self.table.add_all((shared.name, *shared.heads), "head")

    def _kinds_of(self, part: Part) -> None:
        """Words that stand before a head in some saying: they may stand before it here too."""
        for saying in part.sayings:
            for word in saying.split()[:-1]:
                self.kinds.add(singular(word.lower()))

    def find(self, words: Sequence[str]) -> list[tuple[int, int, PartName]]:
        """All part mentions as (start, end, name), joined to compounds where they stand together."""
        hits = [self._without_verb(words, a, b) for a, b, _ in self.table.find(words)]
        hits = [(a, b) for a, b in hits if a < b]
        found: list[tuple[int, int, PartName]] = []
        floor = 0
        for index, (start, end) in enumerate(hits):
            if start < floor:
                continue
            owner_end = None
            while index + 1 < len(hits):
                next_start, next_end = hits[index + 1]
                possessive = next_start == end + 1 and words[end] == "'s"
                verb = next_end == next_start + 1 and words[next_start] in ALSO_VERBS
                adjacent = next_start == end and singular(words[end - 1]) == words[end - 1] and not verb
                if not (possessive or adjacent):
                    break
                owner_end, end = end, next_end
                index += 1
            start = self._stretch_left(words, start, floor)
            found.append((start, end, self.name(words, start, end, owner_end)))
            floor = end
        return found

    def _without_verb(self, words: Sequence[str], start: int, end: int) -> tuple[int, int]:
        """The hit ``start`` to ``end`` without a verb that ends its clause: "belt latches", "levers both latch"."""
        closes = end >= len(words) or words[end] in CLAUSE_ENDS
        if not closes or not is_verb(words, end - 1):
            return start, end
        rest = words[start : end - 1]
        named = not rest or any(b == len(rest) for _, b, _ in self.table.find(rest))
        return start, end - 1 if named else end

    def _stretch_left(self, words: Sequence[str], start: int, floor: int) -> int:
        """Take in the words before a head that belong to its name ("left", "upper", "steering")."""
        at = start
        while at > floor:
            word = words[at - 1]
            placed = word in LEFT or word in RIGHT or word in ENDS or word in POSITIONS
            kind = word in self.kinds and singular(word) == word and word not in BARE_WORDS and len(word) > 2
            if not (placed or kind):
                break
            at -= 1
        at = self._behind_other_side(words, at, start)
        while at < start and words[at] in NOT_FIRST:
            at += 1
        return at

    @staticmethod
    def _behind_other_side(words: Sequence[str], first: int, start: int) -> int:
        """Where the name begins: "gone on the offside | nearside pin", the first side belongs to what was said."""
        for at in range(start - 1, first, -1):
            if (words[at] in LEFT and words[at - 1] in RIGHT) or (
                words[at] in RIGHT and words[at - 1] in LEFT
            ):
                return at
        return first

    def name(self, words: Sequence[str], start: int, end: int, owner_end: int | None) -> PartName:
        """What the words ``start`` to ``end`` say as a part's name; its owner is named up to ``owner_end``."""
        said = [w for w in words[start:end] if w != "'s"]
        sides = {("left" if w in LEFT else "right") for w in said if w in LEFT or w in RIGHT}
        # "Both left tyres" are on the left.
        side = "both" if len(sides) == 2 or ("both" in said and not sides) else next(iter(sides), None)
        drop = LEFT | RIGHT | {"both", "all", "hand", "side", "every"}
        folded = tuple(singular(ENDS.get(w, w)) for w in said if w not in drop)
        owner: tuple[str, ...] = ()
        if owner_end is not None:
            owner = tuple(
                singular(ENDS.get(w, w)) for w in words[start:owner_end] if w not in drop and w != "'s"
            )
        head = folded[len(owner) :] if owner else folded
        return PartName(folded, head, side, owner, plural=singular(words[end - 1]) != words[end - 1])

    def __call__(self, reading: Reading) -> None:
        """Put a ``part`` mention on the reading for each part named."""
        words = reading.all_words
        reading.mentions["part"] = [Mention("part", a, b, name) for a, b, name in self.find(words)]
