"""Findings as the write-up shows them: words, measurements, urgency, what waiting would mean, pictures."""

import re

from saycheck.limits import names_of
from saycheck.models.decisions import CHOICE_WORDS, decision_of
from saycheck.models.walk import Finding
from saycheck.reporting.wording import STATE_WORDS, clock, number, plain, with_side
from saycheck.reporting.writeup.document import Decided, Entry, Picture, Plot, Urgent
from saycheck.reporting.writeup.given import Given
from saycheck.reporting.writeup.leaks import leak_of, leaked
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
    told = {one.id: leak for one in found if (leak := leak_of(one, given.standing))}
    ordered = in_order(found, given.vocabulary, told)
    entries = [
        (urgency(one, given.vocabulary, told.get(one.id)), entry(one, place, given))
        for place, one in enumerate(ordered, 1)
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


def entry(finding: Finding, place: int, given: Given) -> Entry:
    """One finding with all that is known of it."""
    checks = checks_of(finding, given.vocabulary)
    names = [check.name for check in checks] or [finding.check]
    soon = urgency(finding, given.vocabulary, leak_of(finding, given.standing))
    waiting = waiting_for(names, finding.condition, given.waiting, names_of(finding, given.vocabulary))
    cost = given.costs.get(finding.id)
    return Entry(
        number=place,
        finding=finding.id,
        state=STATE_WORDS[finding.state],
        part=with_side(plain(finding.part), finding.side),
        said=_said(finding),
        place=plain(finding.zone),
        time=_time(finding),
        quote=quote(finding, given.standing.walk.transcript.text),
        readings=[
            *readings(finding, given.vocabulary),
            *leaked(finding, given.standing),
        ],
        injures=any(check.hurts for check in checks),
        urgency=soon,
        urgency_source=_published(checks[0].source if checks and checks[0].urgency == soon else ""),
        waiting=own(waiting.text) if waiting else "",
        waiting_source=_published(waiting.source if waiting else ""),
        costs=[own(sentence) for sentence in cost.sentences] if cost else [],
        tornado=cost.plot if cost else None,
        since=plain(given.since.get(finding.id, "")),
        caution=own(finding.caution or ""),
        doubts=_doubts(finding),
        pictures=_pictures(finding, given),
        trend=_trend(finding, given),
        decided=_decided(finding, given),
    )


def quote(finding: Finding, text: str) -> str:
    """The words a finding stands on, cut where they run long; empty where it was added by hand."""
    words = plain(" … ".join(text[one.char_start : one.char_end] for one in finding.evidence))
    return words if len(words) <= _QUOTE else words[:_QUOTE].rsplit(" ", 1)[0] + " …"


def own(text: str) -> str:
    """Our own words with the apostrophe of print; those that someone said stay letter by letter as heard."""
    return re.sub(r"(?<=\w)'(?=\w)", "’", plain(text))


def _published(source: str) -> str:
    """A source worth naming at the entry; common practice is named once for all, above them."""
    return "" if source == COMMON_PRACTICE else plain(source)


def _said(finding: Finding) -> str:
    """What was said of the part, with its count; empty where the state says it already.

    Measurements stand on lines of their own. Of what was not seen or put off the words themselves tell most.
    """
    if finding.state in ("hidden", "later") or finding.condition == finding.state:
        return ""
    condition = f"no {finding.condition}" if finding.denied else finding.condition
    counts = [number(one.value) for one in finding.measurements if one.unit == "count"]
    return plain(" ".join([*counts[:1], condition]))


def _time(finding: Finding) -> str:
    start = next((one.start_s for one in finding.evidence if one.start_s is not None), None)
    return "" if start is None else clock(start)


def _pictures(finding: Finding, given: Given) -> list[Picture]:
    what = with_side(plain(finding.part), finding.side)
    files = [file for file in given.standing.photos.get(finding.id, []) if file in given.pictures]
    return [Picture(file=file, alt=f"photograph of {what}: {plain(finding.condition)}") for file in files]


def _trend(finding: Finding, given: Given) -> Plot | None:
    series = given.series.get(finding.id)
    return trend(series) if series else None


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
    reasons = [re.sub(r"(?<!\w)'(.+?)'(?!\w)", r"“\1”", one) for one in reasons]  # as all words are quoted
    return reasons or ["not sure"]
