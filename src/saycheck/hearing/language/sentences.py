"""What may be said on a walk of one machine kind, made up from its vocabulary: the trade ear's schooling."""

import random
from collections.abc import Callable, Iterator, Sequence

from saycheck.hearing.language.phrasing import Run, Slot, say
from saycheck.hearing.language.slots import Slots
from saycheck.hearing.language.talk import Talk
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.schema import Condition

SEED = 1
STAY = 0.75
"""How often the next thing said is said in the same manner."""
GO_ON = 0.55
"""How often something more is said before a pause; an ear hears what stands between two pauses."""


def sentences(
    vocabulary: Vocabulary,
    conditions: Sequence[Condition],
    talk: Talk,
    count: int,
    seed: int = SEED,
    weight: Callable[[str], float] = lambda _: 1.0,
) -> Iterator[list[str]]:
    """Yield ``count`` stretches of talk as lists of words; the same for the same seed.

    ``weight`` tells how common a saying is beside others.
    """
    rng = random.Random(seed)
    filled = Slots(vocabulary, conditions, weight)
    slots: dict[str, Slot] = filled.all()
    slots |= {name: _listed(run, slots) for name, run in talk.lists.items()}
    spelling = Spelling(talk)
    shares = [manner.share for manner in talk.manners]
    for _ in range(count):
        manner = rng.choices(talk.manners, shares)[0]
        words: list[str] = []
        while True:
            words += say(manner.lines[int(rng.random() * len(manner.lines))], slots, rng)
            if rng.random() > GO_ON:
                break
            if rng.random() > STAY:
                manner = rng.choices(talk.manners, shares)[0]
        yield spelling.folded(words)


def _listed(run: Run, slots: dict[str, Slot]) -> Slot:
    return lambda rng: " ".join(say(run, slots, rng))


class Spelling:
    """Makes the spelling of words one: "tire" is written "tyre", "p s i" "psi", hyphens part words."""

    def __init__(self, talk: Talk) -> None:
        self.one = {old: new for old, new in talk.spelling.items() if " " not in old}
        self.several = {tuple(old.split()): new for old, new in talk.spelling.items() if " " in old}
        self.starts = {old[0] for old in self.several}

    def folded(self, words: Sequence[str]) -> list[str]:
        """The words as the language model writes them; what holds a figure or a sign is left out."""
        plain: list[str] = []
        for word in words:
            for piece in word.replace("-", " ").split():
                if piece.replace("'", "").isalpha():
                    plain += self.one.get(piece, piece).split()
        if not self.starts.intersection(plain):
            return plain
        out: list[str] = []
        at = 0
        while at < len(plain):
            for old, new in self.several.items():
                if tuple(plain[at : at + len(old)]) == old:
                    out.append(new)
                    at += len(old)
                    break
            else:
                out.append(plain[at])
                at += 1
        return out
