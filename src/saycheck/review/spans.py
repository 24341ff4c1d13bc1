"""What became of each word after the edits: dispositions of the transcript, cut anew where something changed."""

from bisect import bisect_left, bisect_right
from operator import attrgetter

from saycheck.models.walk import Span, Transcript
from saycheck.review.replay import Replayed
from saycheck.unclear import wordless_as_talk


def spans_after(heard: Transcript, replayed: Replayed) -> list[Span]:
    """The spans of a transcript as they are after the edits; they cover it without gaps as before.

    The words of findings that were dropped are talk, those of findings that were added are a finding, and
    where a cut leaves no word unclear nothing is. A span to which nothing happened stays the same object.
    """
    spans = list(heard.spans)
    # What was only accepted keeps its words, unless they were not a finding's before.
    known = {one for span in heard.spans for one in span.finding_ids}
    revived = {one.id for one in replayed.findings} - known
    now = {finding.id for finding in replayed.findings}
    for place, edit in replayed.passages:
        why = f"settled by {edit.who}: {edit.reason or 'not about this machine as it is now'}"
        _lay(spans, Span(char_start=place.char_start, char_end=place.char_end, disposition="talk", why=why))
    for finding, edit in replayed.dropped.values():
        why = f"{finding.part}: dropped by {edit.who}" + (f": {edit.reason}" if edit.reason else "")
        for one in finding.evidence:
            _lay(spans, Span(char_start=one.char_start, char_end=one.char_end, disposition="talk", why=why))
    otherwise = (
        one
        for one in replayed.findings
        if one.id in replayed.settled and (replayed.settled[one.id].action != "accept" or one.id in revived)
    )
    for finding in otherwise:
        why = f"{finding.part}: {finding.state}"
        for one in finding.evidence:
            _lay(
                spans,
                Span(
                    char_start=one.char_start,
                    char_end=one.char_end,
                    disposition="finding",
                    finding_ids=[finding.id],
                    why=why,
                ),
            )
    living = [span if now.issuperset(span.finding_ids) else _living(span, now) for span in spans]
    return wordless_as_talk(living, heard.text)


def _living(span: Span, now: set[str]) -> Span:
    """A span that names only findings there are."""
    ids = [one for one in span.finding_ids if one in now]
    if ids:
        return span.model_copy(update={"finding_ids": ids})
    return span.model_copy(
        update={"finding_ids": [], "disposition": "talk", "why": "its finding was taken off"}
    )


def _lay(spans: list[Span], new: Span) -> None:
    """Lay ``new`` over the spans, which stand in order without gaps; findings on the same words add up."""
    if new.char_start >= new.char_end:
        return
    first = bisect_right(spans, new.char_start, key=attrgetter("char_end"))
    last = bisect_left(spans, new.char_end, key=attrgetter("char_start"))
    spans[first:last] = [piece for span in spans[first:last] for piece in _over(span, new)]


def _over(span: Span, new: Span) -> list[Span]:
    """The pieces of a span that ``new`` lies over, wholly or in part."""
    start, end = max(span.char_start, new.char_start), min(span.char_end, new.char_end)
    ids = new.finding_ids
    if ids and span.disposition == "finding":
        ids = list(dict.fromkeys([*span.finding_ids, *ids]))
    pieces = [new.model_copy(update={"char_start": start, "char_end": end, "finding_ids": ids})]
    if span.char_start < start:
        pieces.insert(0, span.model_copy(update={"char_end": start}))
    if end < span.char_end:
        pieces.append(span.model_copy(update={"char_start": end}))
    return pieces
