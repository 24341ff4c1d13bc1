"""From a walk as it stands to the document that is set: data in, document out."""

import re

from saycheck.models.walk import Span, Walk
from saycheck.reporting.layout import merged
from saycheck.reporting.wording import STATE_WORDS, clock, listed, number, plain, with_side
from saycheck.reporting.writeup import entries, making
from saycheck.reporting.writeup.document import Fact, Line, Skipped, WriteUp, ZoneLines
from saycheck.reporting.writeup.given import Given
from saycheck.reporting.writeup.weather import weather

CAUTION = (
    "Lower the attachment or support it, stop the engine, lock it out and relieve the pressure before a hand "
    "goes anywhere. Never feel for a hydraulic leak by hand. The maker’s manual, local rules and a competent "
    "person come before anything written here."
)

NOTE = (
    "The most urgent first, of these what can injure someone. How urgent it is and what waiting would mean: "
    f"{entries.COMMON_PRACTICE}, unless a publication is named. Times are places in the recording."
)

NOTHING = "Nothing to write up was heard. That does not say that all is well: see what was not looked at."


def compose(given: Given) -> WriteUp:
    """The whole document."""
    walk = given.standing.walk
    deciding = entries.to_decide(given)
    found = sum(len(group.entries) for group in deciding)
    watching = entries.in_state(given, "watch", found + 1)
    hidden = entries.in_state(given, "hidden", found + len(watching) + 1)
    put_off = entries.in_state(given, "later", found + len(watching) + len(hidden) + 1)
    unit = plain(walk.machine.unit or "") or "Unit not named"
    return WriteUp(
        title=f"{unit}: write-up of the walk {walk.id}",
        unit=unit,
        kind=walk.machine.kind.replace("-", " "),
        walk=plain(walk.id),
        reviewers=[plain(who) for who in given.standing.by],
        warning=warning(given),
        facts=_facts(given),
        counts=_counts(walk),
        deciding=deciding,
        deciding_note=NOTE if deciding else NOTHING,
        watching=watching,
        hidden=hidden,
        put_off=put_off,
        skipped=_skipped(walk),
        questions=[plain(one.text) for one in walk.questions],
        unclear=_unclear(walk),
        checklist=_checklist(walk),
        spoken=_spoken(walk),
        cautions=_cautions(walk),
        making=making.making(given),
        digests=making.digests(given),
    )


def warning(given: Given) -> str:
    """What stands at the top of every page; empty where the walk is reviewed and no question is open."""
    standing = given.standing
    asked = len(standing.walk.questions)
    questions = f"{asked} question{'s are' if asked > 1 else ' is'} open" if asked else ""
    unclear = sum(span.disposition == "unclear" for span in standing.walk.transcript.spans)
    left = _several(len(standing.open_findings), "finding"), _several(unclear, "passage")
    need = listed([words for words in left if words])
    if not standing.by:
        said = ["nobody has checked what was heard", questions]
        return f"Not reviewed: {listed([one for one in said if one])}."
    if standing.reviewed_share < 1:
        still = f"{need} still to be looked at" if need else "not all of it has been looked at"
        return f"Review not finished: {listed([one for one in (still, questions) if one])}."
    return f"Open questions: {questions}." if questions else ""


def _several(count: int, noun: str) -> str:
    return f"{count} {noun}{'s' if count != 1 else ''}" if count else ""


def _facts(given: Given) -> list[Fact]:
    walk = given.standing.walk
    hours = "not read" if walk.machine.hours is None else f"{number(walk.machine.hours)} h"
    facts = [Fact(name="hours", value=hours), Fact(name="walked by", value=plain(given.walker))]
    facts.append(Fact(name="when", value=_when_walked(walk)))
    said = weather(walk)
    if said:
        facts.append(Fact(name="weather", value=" ".join(f"“{one}”" for one in said)))
    if given.standing.by:
        facts.append(Fact(name="reviewed by", value=listed([plain(who) for who in given.standing.by])))
    facts.append(Fact(name="owner", value=plain(given.owner)))
    return facts


def _when_walked(walk: Walk) -> str:
    """When it was walked, as the walk says itself; else the day on which it was heard, told so."""
    if walk.walked_at:
        return plain(walk.walked_at).replace("T", " ")
    heard = re.match(r"\d{4}-\d\d-\d\d", walk.id)
    return f"heard on {heard.group()}" if heard else ""


def _counts(walk: Walk) -> list[Fact]:
    states = [finding.state for finding in walk.findings]
    counts = {
        "to decide": states.count("writeup"),
        "to watch": states.count("watch"),
        "not seen": states.count("hidden"),
        "put off": states.count("later"),
        "questions": len(walk.questions),
    }
    return [Fact(name=name, value=str(count)) for name, count in counts.items()]


def _skipped(walk: Walk) -> list[Skipped]:
    zones = dict.fromkeys(line.zone for line in walk.checklist)
    skipped = []
    for zone in zones:
        lines = [line for line in walk.checklist if line.zone == zone]
        unsaid = [line for line in lines if line.state == "unsaid"]
        if unsaid:
            skipped.append(
                Skipped(zone=plain(zone), names=list(merged(unsaid)), whole=len(unsaid) == len(lines))
            )
    return skipped


def _unclear(walk: Walk) -> list[Fact]:
    spans = [span for span in walk.transcript.spans if span.disposition == "unclear"]
    return [
        Fact(
            name=_when(span, walk),
            value=f"“{plain(walk.transcript.passage(span.char_start, span.char_end))}”"
            + (f" ({plain(span.why)})" if span.why else ""),
        )
        for span in spans
    ]


def _when(span: Span, walk: Walk) -> str:
    for word in walk.transcript.words:
        if word.char_end > span.char_start and word.start_s is not None:
            return clock(word.start_s)
    return ""


def _checklist(walk: Walk) -> list[ZoneLines]:
    return [
        ZoneLines(
            zone=plain(zone),
            lines=[
                Line(
                    state=line.state,
                    word=STATE_WORDS[line.state],
                    part=with_side(plain(line.part), line.side),
                )
                for line in walk.checklist
                if line.zone == zone
            ],
        )
        for zone in dict.fromkeys(line.zone for line in walk.checklist)
    ]


def _spoken(walk: Walk) -> str:
    said = sum(line.state != "unsaid" for line in walk.checklist)
    return f"{said} of {len(walk.checklist)} lines spoken of"


def _cautions(walk: Walk) -> list[Fact]:
    """The general one, then those of what is written up or to be looked at again, each once with its parts."""
    parts: dict[str, list[str]] = {}
    for one in walk.findings:
        if one.caution and one.state in ("writeup", "hidden", "later"):
            parts.setdefault(entries.own(one.caution), []).append(plain(one.part))
    told = [Fact(name=", ".join(dict.fromkeys(names)), value=caution) for caution, names in parts.items()]
    return [Fact(name="always", value=CAUTION), *told]
