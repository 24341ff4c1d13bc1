"""Edits made on one hearing of a walk, met with another: which finding of now is the one of then."""

import hashlib
from collections.abc import Iterable, Sequence
from weakref import ref

from saycheck.models.walk import Evidence, Finding, Transcript, Walk

NEAR_S = 1.5
"""How far apart, in seconds, two ears may place the same words."""


_known: dict[int, tuple[ref[Walk], str]] = {}


def fingerprint(walk: Walk) -> str:
    """Twelve hex digits that change when anything that was heard or understood does.

    Kept for each walk, since a long one takes a while.
    """
    kept = _known.get(id(walk))
    if kept and kept[0]() is walk:
        return kept[1]
    _known[id(walk)] = ref(walk), _fingerprint(walk)
    return _known[id(walk)][1]


def _fingerprint(walk: Walk) -> str:
    heard = walk.model_dump_json(include={"id", "source", "transcript", "findings", "made_by"})
    return hashlib.sha256(heard.encode()).hexdigest()[:12]


def quotes(findings: Iterable[Finding], transcript: Transcript) -> dict[str, str]:
    """The words that each finding stands on, by finding id."""
    return {
        finding.id: " … ".join(transcript.text[one.char_start : one.char_end] for one in finding.evidence)
        for finding in findings
        if finding.evidence
    }


def same_as(was: Finding, findings: Sequence[Finding], taken: Iterable[str] = ()) -> Finding | None:
    """The finding of another hearing that is ``was``: the same part at the same place in the sound.

    The sides may not contradict each other. Of several the one whose state and condition agree, then the
    nearest. None where it is not heard any more.
    """
    gone = set(taken)
    fitting = [
        (one.state != was.state, one.condition != was.condition, one.side != was.side, apart, one)
        for one in findings
        if one.id not in gone
        and _part(one) == _part(was)
        and (one.side == was.side or "none" in (one.side, was.side) or "both" in (one.side, was.side))
        and (apart := _apart(was, one)) is not None
    ]
    return min(fitting, key=lambda each: each[:4])[-1] if fitting else None


def alike(one: Finding, other: Finding) -> bool:
    """Whether two findings say the same, wherever their words stand."""
    return _said(one) == _said(other)


def moved(finding: Finding, quote: str, transcript: Transcript) -> list[Evidence]:
    """The evidence of a finding made on another hearing, in the transcript of now.

    By the time in the sound where there is one, else by its words; empty where neither is found.
    """
    found = [place for one in finding.evidence if (place := _by_time(one, transcript))]
    if found or not quote:
        return found
    for words in quote.split(" … "):
        at = transcript.text.find(words) if words else -1
        if at >= 0:
            found.append(Evidence(char_start=at, char_end=at + len(words)))
    return found


def _by_time(evidence: Evidence, transcript: Transcript) -> Evidence | None:
    start, end = evidence.start_s, evidence.end_s
    if start is None or end is None:
        return None
    inside = [
        word
        for word in transcript.words
        if word.start_s is not None and word.end_s is not None and word.start_s < end and word.end_s > start
    ]
    if not inside:
        return None
    return Evidence(char_start=inside[0].char_start, char_end=inside[-1].char_end, start_s=start, end_s=end)


def _part(finding: Finding) -> str:
    return finding.line or finding.part


def _said(finding: Finding) -> object:
    numbers = [(m.value, m.unit) for m in finding.measurements]
    return (finding.part, finding.side, finding.state, finding.condition, finding.denied, numbers)


def _apart(one: Finding, other: Finding) -> float | None:
    """Seconds (characters where there is no sound) between two findings; None where they are too far."""
    found = [gap for a in one.evidence for b in other.evidence if (gap := _gap(a, b)) is not None]
    return min(found, default=None)


def _gap(a: Evidence, b: Evidence) -> float | None:
    if a.start_s is None or a.end_s is None or b.start_s is None or b.end_s is None:
        return 0.0 if a.char_start < b.char_end and b.char_start < a.char_end else None
    gap = max(a.start_s - b.end_s, b.start_s - a.end_s, 0.0)
    return gap + abs(a.start_s - b.start_s) / 1000 if gap <= NEAR_S else None
