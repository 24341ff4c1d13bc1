"""The checklist of a walk: every line with what was said of it, and the lines nobody spoke of."""

from bisect import bisect_right
from collections.abc import Iterable, Sequence

from saycheck.coverage.spoken import Coverage, Reach
from saycheck.models.walk import ChecklistLine, Finding, LineState, Side, Span
from saycheck.vocabulary.compiled import Line, Vocabulary

WIDE: tuple[Side, ...] = ("both", "none")
WORST_FIRST: tuple[LineState, ...] = ("writeup", "watch", "hidden", "later", "good")


def checklist(
    vocabulary: Vocabulary,
    findings: Sequence[Finding],
    options: Iterable[str] = (),
    text: str = "",
    recordings: Sequence[int] = (),
    spans: Iterable[Span] = (),
) -> list[ChecklistLine]:
    """One line for each part and side in walk order, with the worst that was said of it.

    ``findings`` stand in the order of speech; ``text`` is the transcript they point into, which tells
    "rollers: the third one leaks" from "rollers leak". ``options`` names equipment that the unit has;
    what is spoken of is fitted, and with it the rest of the same equipment. Lines of other equipment are
    left out. ``recordings`` tells where in the transcript each later recording begins: what could not be
    seen is not hidden any more where a later one speaks of it. What is said of a line itself goes before a
    general statement that also means it ("lights all work bar the left tail light"). A part nobody spoke of
    is ``unsaid``, never fine; one that only an unclear passage names, as the ``spans`` of the transcript tell,
    is ``unclear``.
    """
    named = {(span.part, span.side) for span in spans if span.disposition == "unclear" and span.part}
    return [
        ChecklistLine(
            zone=line.zone,
            part=line.part,
            side=line.side,
            state=state_of(found, recordings) if found or not is_named(line, named) else "unclear",
            finding_ids=[finding.id for finding in found],
        )
        for line, found in spoken(vocabulary, findings, options, text)
    ]


def is_named(line: Line, named: Iterable[tuple[str | None, Side]]) -> bool:
    """Whether one of the (part, side) may be this line's: where no side was told it may be either."""
    return any(
        part == line.part and (side == line.side or side in WIDE or line.side in WIDE) for part, side in named
    )


def spoken(
    vocabulary: Vocabulary, findings: Sequence[Finding], options: Iterable[str] = (), text: str = ""
) -> list[tuple[Line, list[Finding]]]:
    """Each line of the checklist with the findings that speak of it, in walk order; given as ``checklist`` takes it."""
    reach = _reach(vocabulary, text)
    reached = [(finding, reach.kept(finding)) for finding in findings]
    said = _said(len(vocabulary.lines), reached)
    own = {place for _, coverage in reached for place in coverage.own}
    fitted = {*options, *(vocabulary.lines[place].option for place in own)}
    return [
        (line, found)
        for line, found in zip(vocabulary.lines, said, strict=True)
        if line.option is None or line.option in fitted
    ]


_last: list[Reach] = []


def _reach(vocabulary: Vocabulary, text: str) -> Reach:
    """The reach on a machine kind and a text, the last one again where it fits: edits change few findings."""
    if not (_last and _last[0].vocabulary is vocabulary and _last[0].text == text):
        _last[:] = [Reach(vocabulary, text)]
    return _last[0]


def _said(lines: int, reached: Sequence[tuple[Finding, Coverage]]) -> list[list[Finding]]:
    """The findings on each line, in the order of speech."""
    told = {place for _, coverage in reached for place in coverage.own}
    said: list[list[Finding]] = [[] for _ in range(lines)]
    for finding, coverage in reached:
        loose = coverage.loose - told
        # Trouble that only meets lines with something closer said of them must still be seen on them.
        if not loose and not coverage.own and finding.state in ("writeup", "watch", "hidden"):
            loose = coverage.loose
        for place in coverage.own | loose:
            said[place].append(finding)
    return said


def state_of(said: Sequence[Finding], recordings: Sequence[int] = ()) -> LineState:
    """The worst state of what was said of a line; what was put off and then looked at is no longer later."""
    states = {
        finding.state
        for place, finding in enumerate(said)
        if not (finding.state == "later" and _done(finding, said[place + 1 :]))
        and not (finding.state == "hidden" and _seen_since(finding, said[place + 1 :], recordings))
    }
    return next((state for state in WORST_FIRST if state in states), "unsaid")


def _done(put_off: Finding, after: Sequence[Finding]) -> bool:
    """Whether something was said of the same part after it was put off."""
    return any(finding.part == put_off.part and finding.state != "later" for finding in after)


def _seen_since(hidden: Finding, after: Sequence[Finding], recordings: Sequence[int]) -> bool:
    """Whether a later recording tells how the same part is."""
    return any(
        finding.part == hidden.part
        and finding.state not in ("hidden", "later")
        and _recording(finding, recordings) > _recording(hidden, recordings)
        for finding in after
    )


def _recording(finding: Finding, recordings: Sequence[int]) -> int:
    """The number of the recording that a finding was heard in, 0 the first; a reviewer's counts there."""
    return bisect_right(recordings, finding.evidence[0].char_start) if finding.evidence else 0
