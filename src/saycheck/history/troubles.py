"""What is wrong with one unit, followed from walk to walk: when it opened, when it was last seen, when it ended.

A trouble is one check of one part on one side: the leak of the left lift cylinder. It stays open until a
walk says otherwise: that it is good, or dry, or that there is no leak. A walk that does not speak of it
leaves it open and unanswered; silence never means fine.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from saycheck.history.records import BAD, Said, Walked
from saycheck.history.sense import Sense

Answer = Literal["bad", "good", "hidden", "later", "unsaid"]
Key = tuple[str, str, str, str]

_WEIGHT = {"watch": 1, "writeup": 2}


@dataclass(eq=False)
class Trouble:
    """One trouble from its first walk to its end; walks are counted by their places in the row given.

    ``states`` are its states in the walks in which it was seen, by walk. ``closed`` is the walk that ended
    it, None while it is open. ``spell`` is 2 where it has come back once after its end. ``answer`` is what
    the last walk said of it. ``said`` is what was said of it last.
    """

    said: Said
    check: str
    opened: int
    states: dict[int, str]
    spell: int = 1
    closed: int | None = None
    answer: Answer = "bad"
    flagged: bool = False

    @property
    def state(self) -> str:
        """What it was called when it was last seen."""
        return self.states[self.seen]

    @property
    def seen(self) -> int:
        """The last walk in which it was seen."""
        return max(self.states)


def follow(walks: Sequence[Walked], sense: Sense) -> list[Trouble]:
    """All troubles of a unit, open and ended, in the order in which they opened; walks are in order of time."""
    found: list[Trouble] = []
    spells: dict[Key, int] = {}
    standing: list[Trouble] = []
    for place, walk in enumerate(walks):
        by_line = _by_line(walk.said)
        bad = _bad(walk.said, sense)
        claimed: set[Key] = set()
        for trouble in list(standing):
            here = by_line.get(trouble.said.line, ())
            trouble.answer = answer(trouble.said, here, sense)
            if trouble.answer == "good":
                trouble.closed = place
                standing.remove(trouble)
            elif trouble.answer == "bad":
                again = max(_same(trouble.said, here, sense), key=lambda one: _WEIGHT[one.state])
                key = _key(again, sense)
                if key in claimed:  # a chip and a crack have become one broken screen: the older one goes on
                    standing.remove(trouble)
                    found.remove(trouble)
                    continue
                _seen(trouble, place, again, sense)
                claimed.add(key)
                bad.pop(key, None)
        for key, said in bad.items():
            spells[key] = spells.get(key, 0) + 1
            trouble = Trouble(said, key[3], place, {}, spells[key])
            _seen(trouble, place, said, sense)
            standing.append(trouble)
            found.append(trouble)
    return found


def _seen(trouble: Trouble, place: int, said: Said, sense: Sense) -> None:
    trouble.check = sense.check(said.condition)
    trouble.said, trouble.answer, trouble.flagged = said, "bad", said.flagged
    trouble.states[place] = said.state


def _key(said: Said, sense: Sense) -> Key:
    return said.line, said.side, said.part, sense.check(said.condition)


def _by_line(said: Iterable[Said]) -> dict[str, list[Said]]:
    found: dict[str, list[Said]] = {}
    for one in said:
        found.setdefault(one.line, []).append(one)
    return found


def _bad(said: Iterable[Said], sense: Sense) -> dict[Key, Said]:
    """The troubles of a walk, the worst that was said of each."""
    found: dict[Key, Said] = {}
    for one in said:
        if one.state in BAD:
            key = _key(one, sense)
            if key not in found or _WEIGHT[one.state] > _WEIGHT[found[key].state]:
                found[key] = one
    return found


def answer(trouble: Said, said: Sequence[Said], sense: Sense) -> Answer:
    """What the statements of a walk on the same line say of a trouble.

    A trouble whose side was never told is only ended where no side is left open.
    """
    if _same(trouble, said, sense):
        return "bad"
    here = _here(trouble, said)
    good = [one for one in here if one.state == "good" and _ends(one, trouble, here, sense)]
    sides = {one.side for one in good}
    if sides and (trouble.side != "none" or "none" in sides or {"left", "right"} <= sides):
        return "good"
    unseen: tuple[Answer, ...] = ("hidden", "later")
    for state in unseen:
        if any(one.state == state for one in said if trouble.side in ("none", one.side)):
            return state
    return "unsaid"


def _here(trouble: Said, said: Iterable[Said]) -> list[Said]:
    """What was said of the same part, or of the line it is on, on the same side."""
    return [
        one for one in said if trouble.side in ("none", one.side) and one.part in (trouble.part, trouble.line)
    ]


def _same(trouble: Said, said: Iterable[Said], sense: Sense) -> list[Said]:
    """What was said of the same trouble."""
    here = _here(trouble, said)
    return [one for one in here if one.state in BAD and sense.is_same(trouble.condition, one.condition)]


def _ends(good: Said, trouble: Said, here: Sequence[Said], sense: Sense) -> bool:
    if good.denied:
        return good.condition == trouble.condition or (
            sense.check(good.condition) == sense.check(trouble.condition)
        )
    if good.condition == "good" and any(one.state in BAD and one.side == good.side for one in here):
        return False  # "good, but it weeps": not said of the whole
    return sense.answers(good.condition, trouble.condition)
