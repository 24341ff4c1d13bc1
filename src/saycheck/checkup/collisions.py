"""Parts of one zone that an ear could take for each other, and what tells them apart.

Two parts of a zone come close where some saying of the one sounds almost like one of the other. They can
still be told apart where each has a saying that sounds like none of the other's. Where one has none, the
part must carry a question (``ask`` in its machine file), or get another saying.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

from saycheck.checkup.distance import least
from saycheck.hearing.sounds import phones_of
from saycheck.vocabulary.compiled import Part, Vocabulary

CLOSE = 0.2
"""Below this two sayings are too close: one sound in five is another one."""


@dataclass(frozen=True, slots=True)
class Collision:
    """Two parts of a zone and their closest sayings with the distance between them."""

    zone: str
    parts: tuple[Part, Part]
    sayings: tuple[str, str]
    distance: float

    @property
    def apart(self) -> tuple[tuple[str, float], tuple[str, float]]:
        """For each part the saying that lies furthest from the nearest of the other's, and how far."""
        one, other = self.parts
        return _furthest(one, other), _furthest(other, one)

    @property
    def is_settled(self) -> bool:
        """Whether each can be said so that it is told from the other, or one carries a question."""
        one, other = self.parts
        return bool(one.ask or other.ask) or (_can_be_told(one, other) and _can_be_told(other, one))


def collisions(vocabulary: Vocabulary, below: float = CLOSE) -> Iterator[Collision]:
    """Every pair of parts of one zone with sayings closer than ``below``, in walking order."""
    for zone in vocabulary.zones:
        here = list(dict.fromkeys(line.part for line in vocabulary.lines if line.zone == zone.name))
        parts = [part for name in here if (part := vocabulary.part(name)).zones[0] == zone.name]
        for one, other in combinations(parts, 2):
            closest = min(
                ((_between(a, b, below), a, b) for a in one.sayings for b in other.sayings),
                key=lambda found: found[0],
            )
            if closest[0] < below:
                yield Collision(zone.name, (one, other), closest[1:], closest[0])


def _can_be_told(part: Part, other: Part) -> bool:
    """Whether some saying of a part is too close to none of another's."""
    return any(
        all(_between(mine, theirs, CLOSE) >= CLOSE for theirs in other.sayings) for mine in part.sayings
    )


def _furthest(part: Part, other: Part) -> tuple[str, float]:
    """The saying of a part that lies furthest from the nearest of another's."""
    scored = [(said, min(_between(said, theirs, 1.0) for theirs in other.sayings)) for said in part.sayings]
    return max(scored, key=lambda found: found[1])


@lru_cache(maxsize=100_000)
def _between(one: str, other: str, below: float) -> float:
    return least(_phones(one), _phones(other), below)


@lru_cache(maxsize=20_000)
def _phones(saying: str) -> tuple[str, ...]:
    return tuple(phones_of(saying))
