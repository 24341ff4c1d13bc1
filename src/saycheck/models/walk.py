"""The walk: everything that ``walk.json`` holds, schema name ``saycheck.walk/1``.

The keys here are relied on by outside scripts (see the design); keys may be added, never renamed.
"""

from typing import Literal

from pydantic import Field

from saycheck.models.base import Model
from saycheck.models.hearing import OtherReading, Passage

SCHEMA = "saycheck.walk/1"

State = Literal["good", "watch", "writeup", "hidden", "later"]
LineState = Literal["good", "watch", "writeup", "hidden", "later", "unclear", "unsaid"]
Side = Literal["left", "right", "both", "none"]
Disposition = Literal["finding", "talk", "command", "taken-back", "unclear"]


class Machine(Model):
    """The unit walked: its kind (trade name), its owner's name for it, its hour-meter reading in h."""

    kind: str
    unit: str | None = None
    hours: float | None = None


class Source(Model):
    """What was heard: file name, SHA-256 of its bytes (hex), length in seconds (0 for text)."""

    name: str
    sha256: str
    duration_s: float = 0.0


class Word(Model):
    """One word of the transcript; offsets count characters, times are seconds (None for text)."""

    text: str
    char_start: int
    char_end: int
    start_s: float | None = None
    end_s: float | None = None
    confidence: float | None = None


class Span(Model):
    """A stretch of the transcript and what became of it. Spans cover the text without gaps.

    ``part`` and ``side`` tell what an unclear stretch names, as far as it is on the list.
    """

    char_start: int
    char_end: int
    disposition: Disposition
    finding_ids: list[str] = []
    why: str = ""
    part: str | None = None
    side: Side = "none"


class Transcript(Model):
    """The words as heard, what became of each, and what another ear heard instead."""

    text: str
    words: list[Word]
    spans: list[Span] = []
    readings: list[OtherReading] = []

    def passage(self, start: int, end: int) -> str:
        """The words from character ``start`` to ``end`` as a person is shown them: without commas at their ends."""
        return self.text[start:end].strip(" ,;:")


class Evidence(Model):
    """The words a finding came from: offsets in the transcript and seconds in the sound."""

    char_start: int
    char_end: int
    start_s: float | None = None
    end_s: float | None = None


class Measurement(Model):
    """A number with its unit, as said and in SI.

    ``plus_minus`` is half the width, in ``unit``, that the speaker's words leave open. ``judged`` is
    ``within``, ``beyond``, ``too close to call`` or None where no published limit applies.
    ``other_units`` lists further readings of an ambiguous unit ("mil").
    """

    value: float
    unit: str
    text: str
    value_si: float
    unit_si: str
    plus_minus: float = 0.0
    judged: str | None = None
    attribute: str | None = None
    other_units: list[str] = []


class Finding(Model):
    """A statement about this unit as it is now."""

    id: str
    zone: str
    part: str
    side: Side
    check: str
    state: State
    condition: str
    denied: bool = False
    heard_as: str
    confidence: float = Field(ge=0, le=1)
    needs_review: bool = False
    review_reasons: list[str] = []
    measurements: list[Measurement] = []
    evidence: list[Evidence]
    line: str | None = None
    caution: str | None = None


class ChecklistLine(Model):
    """One line of the checklist: a part of a zone on a side, and what the walk says of it."""

    zone: str
    part: str
    side: Side
    state: LineState
    finding_ids: list[str] = []


class About(Model):
    """What a question is about."""

    zone: str
    part: str | None = None
    side: Side = "none"


class Question(Model):
    """Something a person should answer, best while still standing at the machine.

    ``kind`` is one of ``skipped``, ``unclear``, ``measure``, ``conflict``, ``hours``, ``unit``,
    ``hidden``, ``later``, ``sound`` or ``again`` (bad on an earlier walk, not spoken of on this one).
    """

    id: str
    about: About
    kind: str
    text: str
    evidence: list[Evidence] = []


class Event(Model):
    """Something that happened while the walk was listened to live, seconds of the recording.

    ``kind`` is ``note`` (``text`` is what was noted), ``photo`` (``text`` is its number), ``pause``,
    ``handover`` (another voice went on), ``gap`` (the microphone was gone, or sound was lost) or ``said``
    (what saycheck itself said aloud).
    """

    kind: Literal["note", "photo", "pause", "handover", "gap", "said"]
    start_s: float
    end_s: float
    text: str = ""


class MadeBy(Model):
    """How a walk came about: program version, ears used, version of the vocabulary."""

    version: str
    ears: list[str] = []
    vocabulary: str


class Joined(Model):
    """A later recording joined to a walk: what was heard, and where it begins in transcript and sound.

    ``start_s`` is None where it was a text. ``before`` is the fingerprint of the walk without it, on which
    earlier edits were made.
    """

    source: Source
    walked_at: str | None = None
    char_start: int
    start_s: float | None = None
    before: str


class Walk(Model):
    """One walkaround of one unit, whole; what ``walk.json`` holds.

    ``walked_at`` is when it was walked: local time, ISO 8601; without it the day in the id counts.
    ``joined`` are the recordings made after walking back; ``source`` is the first, its length that of all.
    ``learned`` is a digest of the shop's own narrations that the ears had learned, None where they had not.
    """

    schema_name: str = Field(default=SCHEMA, alias="schema")
    id: str
    machine: Machine
    source: Source
    transcript: Transcript
    findings: list[Finding] = []
    checklist: list[ChecklistLine] = []
    questions: list[Question] = []
    sound: list[Passage] = []
    events: list[Event] = []
    made_by: MadeBy
    walked_at: str | None = None
    joined: list[Joined] = []
    learned: str | None = None

    model_config = {"populate_by_name": True}
