"""What an answer says of parts: the statements of understanding, read in the light of what was asked.

An answer is an answer: nothing in it is weighed as talk, its words mean what the vocabulary says, and a part
that it leaves unnamed is the one that was asked about.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from saycheck.models.walk import Side, State
from saycheck.models.wishes import Number, Patch
from saycheck.understanding.findings import NOT_MEASURES
from saycheck.understanding.judge import WORST, judge
from saycheck.understanding.pipeline import prepared
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading
from saycheck.vocabulary.compiled import Vocabulary


@dataclass(frozen=True)
class Told:
    """One thing that an answer says of a part; ``named`` whether the answer names the part itself.

    ``side`` is None where the answer tells none; ``plural`` whether it speaks of several ("brake lights").
    """

    part: str
    zone: str
    side: Side | None
    state: State
    condition: str
    denied: bool = False
    named: bool = True
    plural: bool = False
    numbers: tuple[Number, ...] = field(default=())

    def patch(self, side: Side | None = None) -> Patch:
        """It as a finding to be added; ``side`` where the answer tells none."""
        return Patch(
            part=self.part,
            zone=self.zone or None,
            side=side or self.side,
            state=self.state,
            condition=self.condition,
            denied=self.denied,
            measurements=list(self.numbers),
        )


def told(words: str, vocabulary: Vocabulary, part: str = "", zone: str = "") -> list[Told]:
    """What ``words`` say, asked about ``part`` or while standing at ``zone``; the worst of each part and side."""
    before = "".join(f"{piece}. " for piece in (f"at the {zone}" if zone else "", part) if piece)
    reading, statements = prepared(f"{before}{ended(words)}", vocabulary.kind)
    found: dict[tuple[str, str | None], Told] = {}
    for statement in statements:
        if reading.span(statement.start, statement.end)[1] <= len(before):
            continue
        one = _told(statement, reading, len(before))
        if one is None:
            continue
        key = (one.part, one.side)
        if key not in found or WORST.get(one.state, 1) > WORST.get(found[key].state, 1):
            found[key] = one
    return list(found.values())


def ended(words: str) -> str:
    """The words with a full stop: marks are set in what has none, which would part "twenty" and "two mil"."""
    return words if words.rstrip()[-1:] in (".", "!", "?") else f"{words.rstrip()}."


def _told(statement: Statement, reading: Reading, start: int) -> Told | None:
    """One statement; None where it says nothing of the part."""
    verdict = judge(statement)
    if verdict.condition == "mentioned":
        return None
    subject = statement.subject
    whole = subject.part.part
    line = whole.name if whole and subject.part.component is None else subject.part.name
    named = subject.start >= 0 and reading.span(subject.start, subject.end)[1] > start
    side: Side | None = None
    for known in ("left", "right", "both"):
        # a side that was only carried over from another part was not told of this one
        side = known if subject.side == known and (subject.told_side or not named) else side
    return Told(
        part=line,
        zone=subject.part.zone,
        side=side,
        state=verdict.state,
        condition=verdict.condition,
        denied=verdict.denied,
        named=named and not subject.carried,
        plural=subject.plural,
        numbers=tuple(_numbers([quantity for quantity, _ in statement.quantities])),
    )


def _numbers(quantities: Sequence[Quantity]) -> list[Number]:
    return [
        Number(value=one.value, unit=one.unit, plus_minus=one.plus_minus)
        for one in quantities
        if one.unit is not None and one.unit not in NOT_MEASURES
    ]
