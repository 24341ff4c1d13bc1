"""What became of each word after the edits: dispositions of the transcript, cut anew where something changed."""

from collections.abc import Iterable, Sequence

from saycheck.models.walk import Span
from saycheck.review.replay import Replayed


def spans_after(heard: Sequence[Span], replayed: Replayed) -> list[Span]:
    """The spans of a transcript as they are after the edits; they cover it without gaps as before.

    The words of findings that were dropped are talk, those of findings that were added are a finding.
    """
    spans = list(heard)
    # What was only accepted keeps its words, unless they were not a finding's before.
    known = {one for span in heard for one in span.finding_ids}
    revived = {one.id for one in replayed.findings} - known
    now = {finding.id for finding in replayed.findings}
    for place, edit in replayed.passages:
        why = f"settled by {edit.who}: {edit.reason or 'not about this machine as it is now'}"
        spans = _over(
            spans, Span(char_start=place.char_start, char_end=place.char_end, disposition="talk", why=why)
        )
    for finding, edit in replayed.dropped.values():
        why = f"{finding.part}: dropped by {edit.who}" + (f": {edit.reason}" if edit.reason else "")
        for one in finding.evidence:
            spans = _over(
                spans, Span(char_start=one.char_start, char_end=one.char_end, disposition="talk", why=why)
            )
    otherwise = (
        one
        for one in replayed.findings
        if one.id in replayed.settled and (replayed.settled[one.id].action != "accept" or one.id in revived)
    )
    for finding in otherwise:
        for one in finding.evidence:
            spans = _over(
                spans,
                Span(
                    char_start=one.char_start,
                    char_end=one.char_end,
                    disposition="finding",
                    finding_ids=[finding.id],
                    why=f"{finding.part}: {finding.state}",
                ),
            )
    return [span if now.issuperset(span.finding_ids) else _living(span, now) for span in spans]


def _living(span: Span, now: set[str]) -> Span:
    """A span that names only findings there are."""
    ids = [one for one in span.finding_ids if one in now]
    if ids:
        return span.model_copy(update={"finding_ids": ids})
    return span.model_copy(
        update={"finding_ids": [], "disposition": "talk", "why": "its finding was taken off"}
    )


def _over(spans: Iterable[Span], new: Span) -> list[Span]:
    """The spans with ``new`` laid over them; findings on the same words add up."""
    if new.char_start >= new.char_end:
        return list(spans)
    out: list[Span] = []
    for span in spans:
        start, end = max(span.char_start, new.char_start), min(span.char_end, new.char_end)
        if start >= end:
            out.append(span)
            continue
        if span.char_start < start:
            out.append(span.model_copy(update={"char_end": start}))
        ids = new.finding_ids
        if new.finding_ids and span.disposition == "finding":
            ids = list(dict.fromkeys([*span.finding_ids, *new.finding_ids]))
        out.append(new.model_copy(update={"char_start": start, "char_end": end, "finding_ids": ids}))
        if end < span.char_end:
            out.append(span.model_copy(update={"char_start": end}))
    return out
