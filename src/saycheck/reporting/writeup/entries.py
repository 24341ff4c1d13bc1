"""Findings as the write-up shows them: words, measurements, urgency, what waiting would mean, pictures."""

import re

from saycheck.models.decisions import CHOICE_WORDS, decision_of
from saycheck.models.walk import Finding
from saycheck.reporting.wording import STATE_WORDS, clock, plain, said_of, with_side
from saycheck.reporting.writeup.document import Decided, Entry, Picture, Trend, Urgent
from saycheck.reporting.writeup.given import Given
from saycheck.reporting.writeup.limits import readings
from saycheck.reporting.writeup.order import URGENCIES, checks_of, in_order, urgency
from saycheck.reporting.writeup.trend import trend
from saycheck.vocabulary.waiting import waiting_for

_QUOTE = 320
"""Characters of speech beyond which a quotation is cut; the walk itself holds all of it."""

COMMON_PRACTICE = "common practice, no source"

_HEADINGS = {
    "before work": "Before it goes to work",
    "this week": "This week",
    "next service": "By the next service",
}


def to_decide(given: Given) -> list[Urgent]:
    """What the owner must decide, most urgent first, numbered through."""
    found = [one for one in given.standing.walk.findings if one.state == "writeup"]
    ordered = in_order(found, given.vocabulary)
    entries = [
        (urgency(one, given.vocabulary), entry(one, place, given)) for place, one in enumerate(ordered, 1)
    ]
    groups = [
        Urgent(urgency=name, heading=_HEADINGS[name], entries=[one for at, one in entries if at == name])
        for name in URGENCIES
    ]
    return [group for group in groups if group.entries]


def in_state(given: Given, state: str, first: int) -> list[Entry]:
    """The findings of a state in walking order, numbered on from ``first``."""
    found = [one for one in given.standing.walk.findings if one.state == state]
    return [entry(one, place, given) for place, one in enumerate(found, first)]


def entry(finding: Finding, number: int, given: Given) -> Entry:
    """One finding with all that is known of it."""
    checks = checks_of(finding, given.vocabulary)
    names = [check.name for check in checks] or [finding.check]
    waiting = waiting_for(names, finding.condition, given.waiting)
    said = plain(said_of(_without_numbers(finding)))
    return Entry(
        number=number,
        finding=finding.id,
        state=STATE_WORDS[finding.state],
        part=with_side(plain(finding.part), finding.side),
        said="" if said == finding.state else said,
        place=plain(finding.zone),
        time=_time(finding),
        quote=quote(finding, given.standing.walk.transcript.text),
        readings=readings(finding, given.vocabulary),
        injures=any(check.hurts for check in checks),
        urgency=checks[0].urgency if checks else "this week",
        urgency_source=_published(checks[0].source if checks else ""),
        waiting=waiting.text if waiting else "",
        waiting_source=_published(waiting.source if waiting else ""),
        costs=[plain(sentence) for sentence in given.costs.get(finding.id, [])],
        caution=plain(finding.caution or ""),
        doubts=_doubts(finding),
        pictures=_pictures(finding, given),
        trend=_trend(finding, given),
        decided=_decided(finding, given),
    )


def quote(finding: Finding, text: str) -> str:
    """The words a finding stands on, cut where they run long; empty where it was added by hand."""
    words = plain(" … ".join(text[one.char_start : one.char_end] for one in finding.evidence))
    return words if len(words) <= _QUOTE else words[:_QUOTE].rsplit(" ", 1)[0] + " …"


def _published(source: str) -> str:
    """A source worth naming at the entry; common practice is named once for all, above them."""
    return "" if source == COMMON_PRACTICE else plain(source)


def _without_numbers(finding: Finding) -> Finding:
    """Measurements stand on lines of their own; only counts stay with what was said."""
    counts = [one for one in finding.measurements if one.unit == "count"]
    return finding.model_copy(update={"measurements": counts})


def _time(finding: Finding) -> str:
    start = next((one.start_s for one in finding.evidence if one.start_s is not None), None)
    return "" if start is None else clock(start)


def _pictures(finding: Finding, given: Given) -> list[Picture]:
    what = with_side(plain(finding.part), finding.side)
    files = [file for file in given.standing.photos.get(finding.id, []) if file in given.pictures]
    return [Picture(file=file, alt=f"photograph of {what}: {plain(finding.condition)}") for file in files]


def _trend(finding: Finding, given: Given) -> Trend | None:
    series = given.series.get(finding.id)
    return trend(series, with_side(plain(finding.part), finding.side)) if series else None


def _decided(finding: Finding, given: Given) -> Decided | None:
    one = decision_of(finding, given.decisions)
    if one is None or one.choice is None:
        return None
    return Decided(
        choice=CHOICE_WORDS[one.choice], who=plain(one.who), when=one.at[:10], note=plain(one.note)
    )


def _doubts(finding: Finding) -> list[str]:
    if not finding.needs_review:
        return []
    reasons = [re.sub(r"\bwriteup\b", STATE_WORDS["writeup"], plain(one)) for one in finding.review_reasons]
    return reasons or ["not sure"]
