"""A condition is said: of the group before it, or of a part still to come."""

from saycheck.understanding.attach.deictic import FILLING
from saycheck.understanding.attach.links import CLAUSE_MARKS, PREPOSITIONS, only_small
from saycheck.understanding.attach.saying import say_condition
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.events import TRAILING
from saycheck.understanding.text import Mention

# Before an adjective that belongs to the part behind it: "a loose bolt", "two bent pins".
BEFORE_ATTRIBUTE = frozenset(
    "a an some few couple two three four five six one no any got has have the with little bit".split()
)
CLAUSE_ENDS = CLAUSE_MARKS | TRAILING | {"and", "but"}
LINKING = frozenset(["is", "'s", "are", "all", "both", "still", "were", "was"])
SAYS_OF = frozenset(["is", "'s", "are", "was", "were"])
# How far a part may stand behind a condition and still be its place ("leak at the left gland"), in words.
PLACE_REACH = 4


def say_or_wait(walk: Walk, event: Mention, previous: Mention | None, following: Mention | None) -> None:
    """Give the condition to the group at hand, or let it wait for the part behind it."""
    if not event.value.condition.alone and not (
        stands_close(walk, event, previous) or is_answer(walk, event)
    ):
        return
    if walk.now.group and not binds_forward(walk, event, following):
        say_condition(walk, event)
    else:
        walk.now.waiting.append(event)


def stands_close(walk: Walk, event: Mention, previous: Mention | None) -> bool:
    """Whether a very common word ("on", "in") directly follows a part that it is said of, and ends the clause."""
    narrowed = event.value.condition.checks
    part = walk.now.group[-1].part.part if walk.now.group else None
    if narrowed and not (part and set(narrowed) & set(part.checks)):
        return False
    if previous is None or not walk.now.open or previous.kind not in ("part", "pointer", "quantity"):
        return False
    after = walk.words[event.end : event.end + 1]
    ends = not after or after[0] in CLAUSE_ENDS or event.end >= walk.now.end
    linking = LINKING | {",", ":"} if narrowed else LINKING
    return ends and all(w in linking for w in without_place(walk.gap(previous, event)))


def without_place(gap: list[str]) -> list[str]:
    """The words between a part and what is said of it, without where the part is: "(brake light) on the left is"."""
    at = next((i for i, word in enumerate(gap) if word in SAYS_OF), 0)
    return gap[at:] if only_small(gap[:at]) else gap


def is_answer(walk: Walk, event: Mention) -> bool:
    """Whether a very common word is all the sentence says, right behind one that only named a part."""
    now = walk.now
    if walk.focus_ago != 1 or event.value.condition.checks or now.group:
        return False
    if walk.statements and walk.statements[-1].sentence == now.number - 1:
        return False
    rest = [*walk.words[now.start : event.start], *walk.words[event.end : now.end]]
    return all(word in FILLING or not word[0].isalnum() for word in rest)


def binds_forward(walk: Walk, event: Mention, following: Mention | None) -> bool:
    """Whether a condition belongs to the part behind it: "a loose bolt", "leak at the gland"."""
    if following is None or following.kind not in ("part", "pointer"):
        return False
    gap = walk.gap(event, following)
    if not gap:
        attributive = event.value.attributive and following.kind == "part"
        return attributive and (not walk.now.open or is_attribute(walk, event))
    placed = gap[0] in PREPOSITIONS and len(gap) <= PLACE_REACH and only_small(gap)
    return placed and not walk.now.open


def is_attribute(walk: Walk, event: Mention) -> bool:
    """Whether an article or a count stands before the adjective, words of degree and denial left out."""
    at = event.start - 1
    passed = [m for kind in ("slight", "strong", "deny") for m in walk.reading.of(kind)]
    while at > walk.now.start and any(m.start <= at < m.end for m in passed):
        at -= 1
    return walk.words[at] in BEFORE_ATTRIBUTE or walk.words[event.start - 1] in BEFORE_ATTRIBUTE
