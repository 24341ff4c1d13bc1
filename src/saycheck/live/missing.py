"""What is still open, short enough to be said aloud: the dangerous first, no more than can be kept in mind."""

from collections.abc import Sequence
from itertools import groupby

from saycheck.coverage.missed import TO_LOOK_AT
from saycheck.coverage.skipped import danger_of
from saycheck.coverage.wording import one_each
from saycheck.models.walk import ChecklistLine, Question
from saycheck.vocabulary.compiled import Vocabulary

AT_ONCE = 4
"""Things told at a time: about what a person holds in mind (N. Cowan, The magical number 4 in short-term
memory, Behavioral and Brain Sciences 24, 2001, from memory)."""

Open = tuple[str, str]
"""A zone and a part with its side, as they are said."""

_ASKED = {
    "How thick": "thickness",
    "How deep": "tread depth",
    "How long": "length",
    "How much play": "play",
    "How much stretch": "stretch",
    "How much lining": "lining",
}


def open_parts(vocabulary: Vocabulary, lines: Sequence[ChecklistLine], zone: str | None = None) -> list[Open]:
    """What was not spoken of, hidden or put off: what can hurt first, each part in walking order.

    ``zone`` narrows it to one zone. Left and right of a part in the same zone are one.
    """
    danger = {part.name: danger_of(vocabulary, part)[0] for part in vocabulary.parts}
    side_of = {one.name: one.side for one in vocabulary.zones}
    wanted = [line for line in lines if line.state in TO_LOOK_AT and zone in (None, line.zone)]
    found: list[Open] = []
    for rank in (0, 1):
        here = [line for line in wanted if danger.get(line.part, 1) == rank]
        for place, group in groupby(here, key=lambda line: line.zone):
            sided = ((l.part, "none" if l.side == side_of.get(place) else l.side) for l in group)  # noqa: E741
            found += [(place, name) for name in one_each(sided)]
    return found


def told(parts: Sequence[Open], first: int = 0, most: int = AT_ONCE) -> str:
    """One short sentence or two on some of them from ``first`` on: "Front: bucket, cutting edge. 31 more."."""
    now = parts[first : first + most]
    if not now:
        return "Nothing is open." if first == 0 else "That was all."
    said = [
        f"{zone[:1].upper()}{zone[1:]}: {', '.join(name for _, name in group)}."
        for zone, group in groupby(now, key=lambda one: one[0])
    ]
    rest = len(parts) - first - len(now)
    return " ".join([*said, f"{rest} more." if rest else "That is all."])


def in_three_words(question: Question) -> str | None:
    """A question for a measure as short as can be: "cutting edge thickness?"; None for other questions.

    A longer name keeps its last words, which say what it is.
    """
    if question.kind != "measure" or question.about.part is None:
        return None
    asked = next((word for start, word in _ASKED.items() if question.text.startswith(start)), None)
    if asked is None:
        if not question.text.startswith("What "):
            return None  # about a unit, not about a measure that is missing
        asked = question.text.split()[1]
    room = 3 - len(asked.split())
    return f"{' '.join(question.about.part.split()[-room:])} {asked}?"
