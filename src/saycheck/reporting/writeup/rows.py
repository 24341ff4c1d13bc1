"""The write-up as CSV (RFC 4180): one row a finding, then one for each line that was never mentioned.

UTF-8, lines end in CRLF, the first row names the columns, and every row has all of them. Numbers stand as
plain numbers, times in the sound in seconds. A text that a spreadsheet would take for a formula has an
apostrophe before it.
"""

import csv
import io
from collections.abc import Iterator

from saycheck.limits import held_against
from saycheck.models.decisions import CHOICE_WORDS, decision_of
from saycheck.models.walk import Finding, Measurement
from saycheck.reporting.wording import STATE_WORDS, plain
from saycheck.reporting.writeup.document import Entry
from saycheck.reporting.writeup.entries import entry, to_decide
from saycheck.reporting.writeup.given import Given
from saycheck.reporting.writeup.leaks import leak_of

COLUMNS = (
    "walk", "unit", "kind", "hours", "reviewed_share", "number", "finding", "state", "zone", "part", "side",
    "condition", "denied", "urgency", "can_injure", "value", "unit_of_value", "plus_minus", "limit", "verdict",
    "limit_source", "leak_class", "waiting", "words", "start_s", "end_s", "not_certain", "decision",
    "decided_by", "decided_at", "note",
)  # fmt: skip

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def as_csv(given: Given) -> str:
    """The whole table; a finding with several measurements has a row for each of them."""
    text = io.StringIO()
    out = csv.DictWriter(text, COLUMNS, restval="", lineterminator="\r\n")
    out.writeheader()
    for row in _rows(given):
        out.writerow({name: _cell(value) for name, value in row.items()})
    return text.getvalue()


def _rows(given: Given) -> Iterator[dict[str, object]]:
    walk = given.standing.walk
    common: dict[str, object] = {
        "walk": walk.id, "unit": walk.machine.unit, "kind": walk.machine.kind, "hours": walk.machine.hours,
        "reviewed_share": round(given.standing.reviewed_share, 4),
    }  # fmt: skip
    findings = {finding.id: finding for finding in walk.findings}
    urgent = [one for group in to_decide(given) for one in group.entries]
    others = [one for one in walk.findings if one.state != "writeup"]
    shown = [*urgent, *(entry(one, place, given) for place, one in enumerate(others, len(urgent) + 1))]
    for one in shown:
        finding = findings[one.finding]
        told = common | _told(one, finding, given)
        measured = [_measured(measurement, finding, given) for measurement in finding.measurements]
        yield from (told | each for each in measured or [{}])
    for line in walk.checklist:
        if line.state in ("unsaid", "unclear"):
            yield common | {
                "state": STATE_WORDS[line.state],
                "zone": line.zone,
                "part": line.part,
                "side": line.side,
            }


def _told(one: Entry, finding: Finding, given: Given) -> dict[str, object]:
    words = given.standing.walk.transcript.text
    starts = [at.start_s for at in finding.evidence if at.start_s is not None]
    ends = [at.end_s for at in finding.evidence if at.end_s is not None]
    decision = decision_of(finding, given.decisions)
    leak = leak_of(finding, given.standing)
    trouble = finding.state in ("writeup", "watch")
    told: dict[str, object] = {
        "number": one.number, "finding": finding.id, "state": one.state, "zone": finding.zone,
        "part": finding.part, "side": finding.side, "condition": finding.condition,
        "denied": "yes" if finding.denied else "no",
        "urgency": one.urgency if trouble else "", "can_injure": ("yes" if one.injures else "no") if trouble else "",
        "waiting": one.waiting if trouble else "",
        "words": " … ".join(words[at.char_start : at.char_end] for at in finding.evidence),
        "start_s": min(starts, default=None), "end_s": max(ends, default=None),
        "leak_class": leak.leak_class if leak else "", "not_certain": "; ".join(one.doubts),
    }  # fmt: skip
    if decision and decision.choice:
        told |= {
            "decision": CHOICE_WORDS[decision.choice], "decided_by": decision.who, "decided_at": decision.at,
            "note": decision.note,
        }  # fmt: skip
    return told


def _measured(measurement: Measurement, finding: Finding, given: Given) -> dict[str, object]:
    check = held_against(measurement, finding, given.vocabulary)
    units = " or ".join(dict.fromkeys([measurement.unit, *measurement.other_units]))
    told: dict[str, object] = {
        "value": measurement.value,
        "unit_of_value": units,
        "plus_minus": measurement.plus_minus or None,
    }
    if check is not None:
        told |= {"limit": check.limit, "verdict": check.verdict, "limit_source": check.source}
    return told


def _cell(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, int | float):
        return f"{value:.10g}"
    text = plain(str(value))
    return f"'{text}" if text.startswith(_FORMULA) else text
