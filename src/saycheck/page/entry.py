"""One entry of the page, made of a finding or of a question.

A maker belongs to one hearing. It remembers what each entry was made of, so that after an edit only those are
made anew whose causes have changed; the others stay the same objects.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate

from saycheck.coverage.skipped import TOLD
from saycheck.models.review import Difference, Settled, Standing
from saycheck.models.walk import Evidence, Finding, Question, Walk
from saycheck.page import telling
from saycheck.page.choices import Choice, by_place, choices, findings_of
from saycheck.reporting.wording import STATE_WORDS, plain, with_side

NEAR = 48
"""Characters of context shown before and after the words of an entry."""
MARGINS = {"skipped": "unsaid", "unclear": "unclear", "conflict": "conflict", "measure": "how much?",
           "unit": "which unit?", "again": "again", "hours": "hours?", "sound": "sound"}  # fmt: skip


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


class Maker:
    """Makes the entries of one hearing, of one standing after the other (``begin``)."""

    def __init__(self, heard: Walk) -> None:
        self._transcript = heard.transcript
        self._heard = {finding.id: finding for finding in heard.findings}
        self._other = sorted(heard.transcript.readings, key=lambda one: one.char_start)
        self._ends = [*accumulate((one.char_end for one in self._other), max)]
        self._kept: dict[str, tuple[object, Entry]] = {}

    def begin(self, standing: Standing) -> None:
        """From here on the entries are those of this standing."""
        walk = standing.walk
        self._standing = standing
        self._spans = walk.transcript.spans
        self._span_ends = [span.char_end for span in self._spans]
        self._places = by_place(walk.findings)
        self._differences = {one.finding: one for one in standing.differences}
        self._reasons = {b.id: e.reason for e in standing.edits if e.action == "drop" for b in e.before}
        self._unsaid: dict[str, list[tuple[str, str, str]]] = {}
        for line in walk.checklist:
            if line.state == "unsaid":
                self._unsaid.setdefault(line.zone, []).append((line.zone, line.part, line.side))

    def finding(self, finding: Finding, is_open: bool = False) -> Entry:
        """The entry of a finding that stands."""
        told = self._told(finding)
        causes = (finding, is_open, *told)
        return self._made(f"f-{finding.id}", causes, lambda key: self._finding(key, finding, is_open, *told))

    def dropped(self, finding: Finding) -> Entry:
        """The entry of a finding that was taken off."""
        told = self._told(finding)
        reason = self._reasons.get(finding.id, "")

        def make(key: str) -> Entry:
            entry = self._finding(key, finding, False, *told)
            notes = (*entry.notes, f"because: {plain(reason)}") if reason else entry.notes
            return Entry(**{**entry.__dict__, "kind": "dropped", "margin": "off", "notes": notes})

        return self._made(f"d-{finding.id}", (finding, reason, *told), make)

    def question(self, asked: Question) -> Entry:
        """The entry of an open question."""
        lines = tuple(self._unsaid.get(asked.about.zone, ())) if asked.kind == "skipped" else ()
        why = self._why(asked)
        causes = (asked, lines, why, findings_of(asked, self._places))

        def make(key: str) -> Entry:
            return Entry(
                key=key,
                kind=asked.kind,
                margin=MARGINS.get(asked.kind, asked.kind),
                state=asked.kind if asked.kind in TOLD else "ask",
                title=plain(asked.text),
                zone=asked.about.zone,
                at=telling.at(asked.evidence),
                quotes=self._quotes(asked.evidence),
                readings=self._readings(asked.evidence),
                why=why,
                choices=choices(asked, self._places, lines),
                question=asked.id,
                open=True,
                lines=lines,
            )

        return self._made(f"q-{asked.id}", causes, make)

    def _made(self, key: str, causes: object, make: Callable[[str], Entry]) -> Entry:
        kept = self._kept.get(key)
        if kept is None or kept[0] != causes:
            kept = self._kept[key] = (causes, make(key))
        return kept[1]

    def _told(self, finding: Finding) -> tuple[Settled | None, Difference | None, tuple[str, ...]]:
        """What else is known of a finding: what a person last did, what differs, its photographs."""
        standing = self._standing
        photos = tuple(standing.photos.get(finding.id, ()))
        return standing.settled.get(finding.id), self._differences.get(finding.id), photos

    def _finding(
        self,
        key: str,
        finding: Finding,
        is_open: bool,
        settled: Settled | None,
        difference: Difference | None,
        photos: tuple[str, ...],
    ) -> Entry:
        notes = [*self._notes(finding, settled), *([telling.differs(difference)] if difference else [])]
        return Entry(
            key=key,
            kind="finding",
            margin=STATE_WORDS[finding.state],
            state=finding.state,
            title=with_side(plain(finding.part), finding.side),
            said=telling.said(finding),
            zone=finding.zone,
            at=telling.at(finding.evidence),
            quotes=self._quotes(finding.evidence),
            readings=self._readings(finding.evidence),
            why=tuple(plain(one) for one in finding.review_reasons),
            notes=tuple(notes),
            caution=plain(finding.caution or "") if finding.state == "writeup" else "",
            finding=finding.id,
            photos=photos,
            open=is_open,
        )

    def _notes(self, finding: Finding, settled: Settled | None) -> Iterable[str]:
        """Who did what, and what was heard where that is otherwise."""
        if settled:
            yield telling.by(settled)
            heard = self._heard.get(finding.id)
            if heard and telling.whole(heard) != telling.whole(finding):
                yield f"heard: {telling.whole(heard)}"

    def _why(self, asked: Question) -> tuple[str, ...]:
        """What is known of an unclear passage."""
        if asked.kind != "unclear" or not asked.evidence:
            return ()
        place = asked.evidence[0]
        found = []
        for number in range(bisect_right(self._span_ends, place.char_start), len(self._spans)):
            span = self._spans[number]
            if span.char_start >= place.char_end:
                break
            if span.disposition == "unclear" and span.why:
                found.append(plain(span.why))
        return tuple(dict.fromkeys(found))

    def _quotes(self, evidence: Sequence[Evidence]) -> tuple[Quote, ...]:
        text = self._transcript.text
        return tuple(
            Quote(
                text=plain(self._transcript.passage(one.char_start, one.char_end)),
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
        text = self._transcript.text
        first = bisect_right(self._ends, min((one.char_start for one in evidence), default=len(text)))
        last = max((one.char_end for one in evidence), default=0)
        end = bisect_left(self._other, last, first, key=lambda one: one.char_start)
        return tuple(
            (plain(text[one.char_start : one.char_end]), plain(one.text) or "nothing")
            for one in self._other[first:end]
            if any(one.char_start < e.char_end and e.char_start < one.char_end for e in evidence)
        )


def _tail(text: str) -> str:
    words = plain(text).split(" ")
    return " ".join(words[1:] if len(text) >= NEAR else words)


def _head(text: str) -> str:
    words = plain(text).split(" ")
    return " ".join(words[:-1] if len(text) >= NEAR else words)
