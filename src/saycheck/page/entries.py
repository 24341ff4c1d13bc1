"""What stands on the page: entries in the order in which a reviewer needs them, each ready to be set in type.

First what needs deciding, then what was not spoken of, then everything by zone, then what was taken off.
"""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from saycheck.models.review import Difference, Settled, Standing
from saycheck.models.walk import Evidence, Finding, Question
from saycheck.page.choices import Choice, by_place, choices
from saycheck.reporting.wording import STATE_WORDS, clock, plain, said_of, with_side
from saycheck.vocabulary.compiled import Vocabulary

LATER_KINDS = frozenset(["skipped", "hidden", "later", "again"])
"""Questions about what was not looked at; they come after what was said and is in doubt."""
NEAR = 48
"""Characters of context shown before and after the words of an entry."""
DONE = {
    "accept": "accepted", "change": "changed", "split": "split", "merge": "joined", "drop": "taken off",
    "add": "added", "attach": "photographed", "detach": "photographed",
}  # fmt: skip


@dataclass(frozen=True)
class Quote:
    """Words as heard, with a little of what stands around them, and the seconds to play (None: no sound)."""

    text: str
    before: str = ""
    after: str = ""
    start_s: float | None = None
    end_s: float | None = None
    char_start: int = 0
    char_end: int = 0


@dataclass(frozen=True)
class Entry:
    """One entry. ``key`` names it as long as its cause is there; ``margin`` is the word beside the rule."""

    key: str
    kind: str
    margin: str
    state: str
    title: str
    said: str = ""
    zone: str = ""
    at: str = ""
    quotes: tuple[Quote, ...] = ()
    readings: tuple[tuple[str, str], ...] = ()
    why: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    caution: str = ""
    finding: str = ""
    photos: tuple[str, ...] = ()
    choices: tuple[Choice, ...] = ()
    question: str = ""
    open: bool = False
    lines: tuple[tuple[str, str, str], ...] = ()


@dataclass(frozen=True)
class Section:
    """Entries under one heading."""

    key: str
    title: str
    entries: list[Entry] = field(default_factory=list)


def sections(standing: Standing, vocabulary: Vocabulary) -> list[Section]:
    """All sections in reading order, empty ones too so that they keep their place."""
    sheet = _Sheet(standing)
    open_now = set(standing.open_findings)
    decide = [sheet.finding(one, is_open=True) for one in standing.walk.findings if one.id in open_now]
    asked = standing.walk.questions
    decide += [sheet.question(one) for one in asked if one.kind not in LATER_KINDS]
    order = {zone.name: place for place, zone in enumerate(vocabulary.zones)}
    decide.sort(key=lambda entry: (entry.zone != "", entry.quotes[0].char_start if entry.quotes else -1))
    skipped = [sheet.question(one) for one in asked if one.kind in LATER_KINDS]
    out = [
        Section("decide", "To decide", decide),
        Section("skipped", "Not spoken of, not seen, put off", skipped),
    ]
    zones = dict.fromkeys([*order, *(one.zone for one in standing.walk.findings)])
    for number, zone in enumerate(zones):
        here = [one for one in standing.walk.findings if one.zone == zone and one.id not in open_now]
        out.append(Section(f"zone-{number}", zone, [sheet.finding(one) for one in here]))
    out.append(Section("dropped", "Taken off", [sheet.dropped(one) for one in standing.dropped]))
    return out


class _Sheet:
    """Makes entries of one walk as it stands."""

    def __init__(self, standing: Standing) -> None:
        self.standing = standing
        self.transcript = standing.heard.transcript
        self.heard = {finding.id: finding for finding in standing.heard.findings}
        self.ends = [span.char_end for span in standing.walk.transcript.spans]
        self.places = by_place(standing.walk.findings)
        self.differences = {one.finding: one for one in standing.differences}

    def finding(self, finding: Finding, is_open: bool = False) -> Entry:
        return Entry(
            key=f"f-{finding.id}",
            kind="finding",
            margin=STATE_WORDS[finding.state],
            state=finding.state,
            title=with_side(plain(finding.part), finding.side),
            said=_said(finding),
            zone=finding.zone,
            at=_at(finding.evidence),
            quotes=self._quotes(finding.evidence),
            readings=self._readings(finding.evidence),
            why=tuple(plain(one) for one in finding.review_reasons),
            notes=tuple(self._notes(finding)),
            caution=plain(finding.caution or "") if finding.state == "writeup" else "",
            finding=finding.id,
            photos=tuple(self.standing.photos.get(finding.id, ())),
            open=is_open,
        )

    def dropped(self, finding: Finding) -> Entry:
        entry = self.finding(finding)
        reason = next((e.reason for e in reversed(self.standing.edits) if e.action == "drop" and finding.id in
                       {b.id for b in e.before}), "")  # fmt: skip
        notes = (*entry.notes, f"because: {plain(reason)}") if reason else entry.notes
        return Entry(
            **{**entry.__dict__, "key": f"d-{finding.id}", "kind": "dropped", "margin": "off", "notes": notes}
        )

    def question(self, asked: Question) -> Entry:
        about = asked.about
        lines = tuple(
            (line.zone, line.part, line.side)
            for line in self.standing.walk.checklist
            if asked.kind == "skipped" and line.zone == about.zone and line.state == "unsaid"
        )
        return Entry(
            key=f"q-{asked.id}",
            kind=asked.kind,
            margin=_MARGINS.get(asked.kind, asked.kind),
            state=asked.kind if asked.kind in STATE_WORDS else "ask",
            title=plain(asked.text),
            zone=about.zone,
            at=_at(asked.evidence),
            quotes=self._quotes(asked.evidence),
            readings=self._readings(asked.evidence),
            why=self._why(asked),
            choices=choices(asked, self.places, lines),
            question=asked.id,
            open=True,
            lines=lines,
        )

    def _why(self, asked: Question) -> tuple[str, ...]:
        """What is known of an unclear passage."""
        if asked.kind != "unclear" or not asked.evidence:
            return ()
        place = asked.evidence[0]
        spans = self.standing.walk.transcript.spans
        first = bisect_right(self.ends, place.char_start)
        found = []
        for number in range(first, len(spans)):
            if spans[number].char_start >= place.char_end:
                break
            if spans[number].disposition == "unclear" and spans[number].why:
                found.append(plain(spans[number].why))
        return tuple(dict.fromkeys(found))

    def _quotes(self, evidence: Sequence[Evidence]) -> tuple[Quote, ...]:
        text = self.transcript.text
        return tuple(
            Quote(
                text=plain(text[one.char_start : one.char_end]),
                before=_tail(text[max(0, one.char_start - NEAR) : one.char_start]),
                after=_head(text[one.char_end : one.char_end + NEAR]),
                start_s=one.start_s,
                end_s=one.end_s,
                char_start=one.char_start,
                char_end=one.char_end,
            )
            for one in evidence
        )

    def _readings(self, evidence: Sequence[Evidence]) -> tuple[tuple[str, str], ...]:
        """Where the other ear heard something else: the words here, and its words."""
        text = self.transcript.text
        return tuple(
            (plain(text[one.char_start : one.char_end]), plain(one.text) or "nothing")
            for one in self.transcript.readings
            if any(one.char_start < e.char_end and e.char_start < one.char_end for e in evidence)
        )

    def _notes(self, finding: Finding) -> Iterable[str]:
        settled = self.standing.settled.get(finding.id)
        if settled:
            yield _by(settled)
            heard = self.heard.get(finding.id)
            if heard and (with_side(heard.part, heard.side), _said(heard), heard.state) != (
                with_side(finding.part, finding.side),
                _said(finding),
                finding.state,
            ):
                yield f"heard: {_whole(heard)}"
        if difference := self.differences.get(finding.id):
            yield _differs(difference)


_MARGINS = {"skipped": "unsaid", "unclear": "unclear", "conflict": "conflict", "measure": "how much?",
            "unit": "which unit?",
    "again": "again", "hours": "hours?", "sound": "sound"}  # fmt: skip


def _by(settled: Settled) -> str:
    return f"{DONE.get(settled.action, settled.action)} by {plain(settled.who)}"


def _differs(difference: Difference) -> str:
    if difference.kind == "new":
        return "heard for the first time now that the walk was heard again"
    if difference.kind == "gone":
        return "not heard any more now that the walk was heard again; your edit stands"
    now = _whole(difference.now) if difference.now else "nothing"
    was = _whole(difference.was) if difference.was else "nothing"
    return f"heard again as {now}, before as {was}; your edit stands"


def _whole(finding: Finding) -> str:
    parts = [with_side(plain(finding.part), finding.side), STATE_WORDS[finding.state], _said(finding)]
    return ", ".join(part for part in parts if part)


def _said(finding: Finding) -> str:
    """What is said of a part, without repeating the word in the margin."""
    said = plain(said_of(finding))
    word = STATE_WORDS[finding.state]
    for plain_word in (word, finding.state):
        if said == plain_word:
            return ""
        said = said.removeprefix(f"{plain_word}, ")
    return said


def _at(evidence: Sequence[Evidence]) -> str:
    start = next((one.start_s for one in evidence if one.start_s is not None), None)
    return "" if start is None else clock(start)


def _tail(text: str) -> str:
    words = plain(text).split(" ")
    return " ".join(words[1:] if len(text) >= NEAR else words)


def _head(text: str) -> str:
    words = plain(text).split(" ")
    return " ".join(words[:-1] if len(text) >= NEAR else words)
