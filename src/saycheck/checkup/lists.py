"""The checklist of one machine kind: names that stand for two things, parts no one could say, empty zones."""

import re
from collections.abc import Iterable, Iterator
from typing import TypeVar

from saycheck.checkup.collisions import collisions
from saycheck.checkup.fault import Fault
from saycheck.vocabulary.compiled import Part, Vocabulary, Zone
from saycheck.vocabulary.origin import home_of, zone_home
from saycheck.vocabulary.stack import Stack

Named = TypeVar("Named", Part, Zone)

_VOWEL = re.compile(r"[aeiouy]")
_WORD = re.compile(r"[a-z][a-z']*")
_CODE = re.compile(r"[^a-z' \-&/.]")
LETTERS_SPOKEN = 4
"""A word without vowels may be spelled out up to so many letters, as "DPF" is; a longer one is a code."""


def wrong_lists(vocabulary: Vocabulary, stack: Stack) -> Iterator[Fault]:
    """What is wrong with the list of a machine kind."""
    for saying, owner, part in _named_twice(vocabulary.parts):
        yield _of_part(
            _higher(owner, part, stack),
            stack,
            f"'{saying}' names '{owner.name}' and '{part.name}'; a saying may name one part",
        )
    for saying, first, zone in _named_twice(vocabulary.zones):
        yield _of_zone(
            zone,
            stack,
            f"'{saying}' names the zones '{first.name}' and '{zone.name}'; a saying may name one zone",
        )
    for part in vocabulary.parts:
        if not any(_can_be_said(saying) for saying in part.sayings):
            yield _of_part(part, stack, f"no one could say '{part.name}'; give it sayings in plain words")
    reached = {line.zone for line in vocabulary.lines}
    for zone in vocabulary.zones:
        if zone.name not in reached:
            yield _of_zone(
                zone, stack, f"the zone '{zone.name}' has no part, so it is never reached; take it away, "
                "or look whether its name is that of a zone of this machine",
            )  # fmt: skip
    for found in collisions(vocabulary):
        if not found.is_settled:
            one, other = found.parts
            yield _of_part(
                other,
                stack,
                f"'{found.sayings[1]}' ({other.name}) sounds like '{found.sayings[0]}' ({one.name}) in the same "
                "zone, and one of them has no other name; add a saying or a question (ask)",
            )


def _named_twice(named: Iterable[Named]) -> Iterator[tuple[str, Named, Named]]:
    """Each saying of two parts or of two zones, with the first that has it and the other."""
    owners: dict[str, Named] = {}
    for one in named:
        for saying in one.sayings:
            owner = owners.setdefault(saying, one)
            if owner is not one:
                yield saying, owner, one


def _can_be_said(saying: str) -> bool:
    """Whether a saying is made of words, not of codes such as "x-12/7b"."""
    if _CODE.search(saying.replace("3 point", "three point").replace("5th", "fifth").replace("360", "")):
        return False
    words = _WORD.findall(saying)
    return bool(words) and all(_VOWEL.search(word) or len(word) <= LETTERS_SPOKEN for word in words)


def _higher(one: Part, other: Part, stack: Stack) -> Part:
    """Of two parts the one that the higher layer speaks of, else the second."""
    order = [file.label for file, _ in stack.machines]
    return max(one, other, key=lambda part: (order.index(home_of(part.name, stack)[-1].label), part is other))


def _of_part(part: Part, stack: Stack, sentence: str) -> Fault:
    home = home_of(part.name, stack)[-1]
    return Fault(home.label, home.line, sentence)


def _of_zone(zone: Zone, stack: Stack, sentence: str) -> Fault:
    home = zone_home(zone.name, stack)
    return Fault(home.label, home.line, sentence)
