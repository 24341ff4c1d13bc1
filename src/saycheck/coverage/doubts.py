"""Questions about what cannot stand as it was said: contradictions, a side untold, words not understood."""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from itertools import accumulate
from operator import attrgetter

from saycheck.coverage.names import is_plural, picks, words_of
from saycheck.coverage.wording import called, clock, quoted, said, sentence, slug
from saycheck.models.walk import About, Evidence, Finding, Question, Transcript
from saycheck.unclear import has_words
from saycheck.vocabulary.compiled import Vocabulary

# Nothing but silence or a stop between two unclear stretches makes them one question.
GAP_MOST = 3


def conflicts(vocabulary: Vocabulary, findings: Sequence[Finding], text: str) -> Iterable[Question]:
    """A question for each part of which one and the same thing was called fine and faulty.

    "Top hose soft" and "bottom hose good" are two hoses, and "good but weeping" is one breath: neither is
    a contradiction, and the checklist line has the worse of the two.
    """
    asked: set[tuple[str, str]] = set()
    alike: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        alike.setdefault((finding.part, finding.side), []).append(finding)
    place_in = {id(finding): place for of_one in alike.values() for place, finding in enumerate(of_one)}
    differing = {name for name, of_one in alike.items() if any(one.state == "good" for one in of_one)}
    for one in findings:
        if (one.part, one.side) not in differing:
            continue
        for other in alike[one.part, one.side][place_in[id(one)] + 1 :]:
            if (one.part, one.side) in asked:
                continue
            good, bad = (one, other) if one.state == "good" else (other, one)
            if good.state != "good" or not contradict(vocabulary, good, bad):
                continue
            if _picks(one, text) or _picks(other, text) or _overlap(one, other):
                continue
            asked.add((one.part, one.side))
            name = sentence(called(one.part, one.side))
            first, second = (quoted(said(each, text), 8) for each in (one, other))
            yield Question(
                id=slug("conflict", one.zone, one.side, one.part),
                about=About(zone=one.zone, part=one.part, side=one.side),
                kind="conflict",
                text=f"{name}: {first}, then {second}. Which holds?",
                evidence=[*one.evidence, *other.evidence],
            )


def _picks(finding: Finding, text: str) -> bool:
    """Whether a statement picks one out of several of the part."""
    return picks(set(words_of(f"{finding.heard_as} {said(finding, text)}")) - set(words_of(finding.part)))


def _overlap(one: Finding, other: Finding) -> bool:
    """Whether two findings stand on some of the same words."""
    return any(
        a.char_start < b.char_end and b.char_start < a.char_end for a in one.evidence for b in other.evidence
    )


def contradict(vocabulary: Vocabulary, good: Finding, bad: Finding) -> bool:
    """Whether a good word and a fault on the same part cannot both hold.

    They cannot where the fault was denied in the one and told in the other, where the two answer the same
    plain check ("dry" and "leak"), or where all was called good and something needs work. "Dry" and
    "scored" can both be true, and what will do for now is no contradiction of "good".
    """
    if bad.state not in ("watch", "writeup"):
        return False
    if good.denied or bad.denied:
        return good.condition == bad.condition and good.denied != bad.denied
    if good.condition == "good":
        return bad.state == "writeup"
    return any(
        good.condition in check.conditions and bad.condition in check.conditions
        for check in vocabulary.checks.values()
        if "good" not in check.conditions
    )


def untold_sides(vocabulary: Vocabulary, findings: Sequence[Finding], text: str) -> Iterable[Question]:
    """A question for each fault on one of two parts that does not say which, once for a part."""
    sided = {part.name for part in vocabulary.parts if part.sided}
    asked: set[str] = set()
    for finding in findings:
        if finding.line not in sided or finding.side != "none" or finding.state not in ("watch", "writeup"):
            continue
        if finding.part in asked:
            continue
        asked.add(finding.part)
        which = "Left, right or both?" if is_plural(words_of(finding.part)[-1]) else "Left or right?"
        yield Question(
            id=slug("side", finding.zone, finding.part),
            about=About(zone=finding.zone, part=finding.part),
            kind="unclear",
            text=f"{sentence(finding.part)}: {quoted(said(finding, text), 8)}. {which}",
            evidence=finding.evidence,
        )


_begins = attrgetter("char_start")


def unclear(
    vocabulary: Vocabulary, transcript: Transcript, findings: Sequence[Finding]
) -> Iterable[Question]:
    """A question for each passage that was not understood, neighbours together."""
    told = [(one.evidence[0].char_start, one.zone) for one in findings if one.evidence]
    # Of each finding the earliest start from there on: the last finding before a place is found by halving.
    earliest = [*accumulate((start for start, _ in reversed(told)), min)][::-1]
    for start, end in _passages(transcript):
        # Words stand in order: only the one before the passage may still reach into it.
        first = bisect_left(transcript.words, start, key=_begins)
        near = transcript.words[max(0, first - 1) : bisect_left(transcript.words, end, first, key=_begins)]
        words = [w for w in near if w.char_start < end and w.char_end > start]
        times = [w for w in words if w.start_s is not None]
        start_s, end_s = (times[0].start_s, times[-1].end_s) if times else (None, None)
        before = bisect_left(earliest, start)
        at = f" at {clock(start_s)}" if start_s is not None else ""
        heard = transcript.passage(start, end).rstrip(".")  # the stop behind the quote is enough
        yield Question(
            id=slug("unclear", start),
            about=About(zone=told[before - 1][1] if before else vocabulary.zones[0].name),
            kind="unclear",
            text=f"Not understood{at}: {quoted(heard)}. What was it?",
            evidence=[Evidence(char_start=start, char_end=end, start_s=start_s, end_s=end_s)],
        )


def alike(vocabulary: Vocabulary, findings: Sequence[Finding]) -> Iterable[Question]:
    """The question that a part carries because its name sounds like another's in the same zone."""
    asks = {part.name: part.ask for part in vocabulary.parts if part.ask}
    asked: set[str] = set()
    for finding in findings:
        name = finding.line or finding.part
        if name in asks and name not in asked:
            asked.add(name)
            yield Question(
                id=slug("alike", finding.zone, finding.side, finding.part),
                about=About(zone=finding.zone, part=finding.part, side=finding.side),
                kind="unclear",
                text=str(asks[name]),
                evidence=finding.evidence,
            )


def _passages(transcript: Transcript) -> list[tuple[int, int]]:
    """The unclear stretches that hold words, without the spaces around them."""
    found: list[tuple[int, int]] = []
    for span in transcript.spans:
        if span.disposition != "unclear":
            continue
        text = transcript.text[span.char_start : span.char_end]
        if not has_words(text):
            continue
        start = span.char_start + len(text) - len(text.lstrip())
        end = span.char_end - len(text) + len(text.rstrip())
        if found and start - found[-1][1] <= GAP_MOST:
            start = found.pop()[0]
        found.append((start, end))
    return found
