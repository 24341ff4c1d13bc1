"""A part's name made whole by what stands with it: "the kingpin on the trailer", "Tandem. Oil's at the hole"."""

from dataclasses import replace

from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.parts import PartName
from saycheck.understanding.phrases import singular
from saycheck.understanding.text import Mention

AT = frozenset(["on", "of", "for"])
DETERMINERS = frozenset(["the", "this", "that", "your", "its"])
LONGEST_PLACE = 2
"""Words of the name of what a part is on, at most."""


def completed(walk: Walk, name: PartName, event: Mention) -> PartName:
    """The name with the words that make it one of the list; the name as it is where none do.

    Such words stand behind it ("on the trailer") or name the part that was spoken of just before.
    """
    for more in (*behind(walk, event), before(walk)):
        meant = (*more, *name.words)
        if more and not set(more) & set(name.words) and walk.rules.resolver.is_listed(meant):
            return replace(name, words=meant, head=meant, owner=())
    return name


def behind(walk: Walk, event: Mention) -> list[tuple[str, ...]]:
    """The words of what the part is said to be on, the longest first."""
    words, at = walk.words, event.end
    if at + 2 >= walk.now.end or words[at] not in AT or words[at + 1] not in DETERMINERS:
        return []
    last = min(at + 2 + LONGEST_PLACE, walk.now.end)
    return [tuple(map(singular, words[at + 2 : after])) for after in range(last, at + 2, -1)]


def before(walk: Walk) -> tuple[str, ...]:
    """The name of the part of the list that was spoken of in this sentence or the last one."""
    if walk.focus is None or walk.focus.part.part is None or walk.focus_ago > 1:
        return ()
    return tuple(walk.focus.part.part.name.split())
