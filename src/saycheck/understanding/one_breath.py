"""What is said of one part in one breath is one finding: "belt's good, no glazing" is no list of two.

A person enters it once, under the worse of the two states, with all that was measured. The same holds where more is
said before the breath is out and turns the state: "rod scored, but I can't feel it with a nail".
"""

from collections.abc import Sequence

from saycheck.models.walk import Evidence, Finding
from saycheck.understanding.judge import TROUBLE

GAP = 6
"""Characters between the two, at most: a comma, an "and"."""
GAP_MEASURED = 24
"""The same where one of the two is the number to the other: "the gauge shows two percent stretch on both, and"."""
STOPS = frozenset(".!?;")
APART = frozenset("one two three four number bar except other rest left right".split())
"""Words that set one of several apart: "four good, one missing" is two findings."""


def in_one_breath(text: str, findings: Sequence[Finding]) -> list[Finding]:
    """The findings in order of speech, those of one part said in one breath made one.

    ``findings`` are in order of speech, each with one piece of evidence.
    """
    out: list[Finding] = []
    for finding in findings:
        if out and goes_on(text, out[-1], finding):
            out[-1] = made_one(out[-1], finding)
        else:
            out.append(finding)
    return out


def goes_on(text: str, one: Finding, other: Finding) -> bool:
    """Whether the other finding only goes on about the part and the state of the one."""
    if (one.part, one.side, one.zone) != (other.part, other.side, other.zone):
        return False
    measured = bool(one.measurements) != bool(other.measurements) and one.state == other.state
    if one.heard_as.lower() != other.heard_as.lower() and not measured:
        return False
    if one.evidence[0].char_start == other.evidence[0].char_start:
        return one.state == other.state or not sets_apart(text, one, other)
    between = text[one.evidence[0].char_end : other.evidence[0].char_start]
    if len(between) > (GAP_MEASURED if measured else GAP) or STOPS & set(between):
        return False
    if {m.unit for m in one.measurements} & {m.unit for m in other.measurements}:
        return False
    return one.state == other.state or (one.state in TROUBLE and other.state == "good" and other.denied)


def sets_apart(text: str, one: Finding, other: Finding) -> bool:
    """Whether what the other finding says more than the one is said of one of several."""
    more = text[one.evidence[0].char_end : other.evidence[0].char_end].lower()
    return any(word.strip(",.").partition("'")[0] in APART for word in more.split())


def decisive(one: Finding, other: Finding) -> Finding:
    """Which of the two tells the state: trouble, where something is denied behind it or good was said before it, and
    otherwise what is surer.
    """
    begun = one.evidence[0].char_start == other.evidence[0].char_start
    if begun and one.state != other.state and one.state == "good":
        return other
    if not begun and one.state != other.state:
        return one
    return one if one.confidence >= other.confidence else other


def made_one(one: Finding, other: Finding) -> Finding:
    """One finding of two: the words of the surer one, or of the trouble, over the stretch of both."""
    base = decisive(one, other)
    named = next((f for f in (base, one, other) if f.denied), base) if base.state == "good" else base
    first, last = one.evidence[0], other.evidence[0]
    stretch = Evidence(
        char_start=min(first.char_start, last.char_start),
        char_end=max(first.char_end, last.char_end),
        start_s=first.start_s,
        end_s=last.end_s,
    )
    return base.model_copy(
        update={
            "check": named.check,
            "condition": named.condition,
            "denied": named.denied,
            "measurements": [*one.measurements, *other.measurements],
            "evidence": [stretch],
        }
    )
