"""A second recording joined to a walk: what was heard later stands behind what was heard before.

Nothing of the walk before is changed: its words, findings and times keep their places and names, so that
edits made on it meet it as before. What comes in is moved behind it.
"""

import re
from collections.abc import Sequence
from pathlib import Path
from typing import TypeVar

import numpy as np

from saycheck.capture.files import blocks
from saycheck.capture.keep import KeptSound
from saycheck.coverage.checklist import checklist
from saycheck.coverage.questions import questions
from saycheck.hearing.ear import SAMPLE_RATE
from saycheck.models.hearing import Passage
from saycheck.models.walk import Event, Evidence, Finding, Joined, Question, Span, Transcript, Walk, Word
from saycheck.review.hearing import fingerprint
from saycheck.vocabulary.compiled import Vocabulary

BETWEEN = "\n\n"
"""What stands between the two transcripts."""

PAUSE_S = 1.0
"""Silence between the two recordings, seconds."""

Placed = TypeVar("Placed", Evidence, Word)
Timed = TypeVar("Timed", Passage, Event)

NUMBERED = re.compile(r"f(\d+)")


def joined(walk: Walk, more: Walk, start_s: float, vocabulary: Vocabulary) -> Walk:
    """The walk with another one, heard by itself, behind it; its sound begins at ``start_s`` seconds.

    Findings are numbered on; checklist and questions are made anew from both.
    """
    at = len(walk.transcript.text) + len(BETWEEN)
    numbers = [int(found.group(1)) for one in walk.findings if (found := NUMBERED.fullmatch(one.id))]
    first = max(numbers, default=0) + 1
    names = {one.id: f"f{first + place:03}" for place, one in enumerate(more.findings)}
    findings = [*walk.findings, *(_moved(one, names, at, start_s) for one in more.findings)]
    ended_s = walk.source.duration_s
    pause = [Passage(start_s=ended_s, end_s=start_s, kind="silence")] if ended_s and more.sound else []
    text = walk.transcript.text + BETWEEN + more.transcript.text
    seconds = start_s + more.source.duration_s if more.source.duration_s else ended_s
    hours = more.machine.hours if walk.machine.hours is None else walk.machine.hours
    recordings = [*(one.char_start for one in walk.joined), at]
    transcript = _transcript(walk.transcript, more.transcript, names, at, start_s, text)
    whole = walk.model_copy(
        update={
            "machine": walk.machine.model_copy(update={"hours": hours}),
            "source": walk.source.model_copy(update={"duration_s": round(seconds, 3)}),
            "transcript": transcript,
            "findings": findings,
            "checklist": checklist(
                vocabulary, findings, text=text, recordings=recordings, spans=transcript.spans
            ),
            "sound": [*walk.sound, *pause, *(_later(one, start_s) for one in more.sound)],
            "events": [*walk.events, *(_later(one, start_s) for one in more.events)],
            "made_by": more.made_by.model_copy(
                update={"ears": list(dict.fromkeys([*walk.made_by.ears, *more.made_by.ears]))}
            ),
            "learned": more.learned or walk.learned,
            "joined": [
                *walk.joined,
                Joined(
                    source=more.source,
                    walked_at=more.walked_at,
                    char_start=at,
                    start_s=start_s if more.source.duration_s else None,
                    before=fingerprint(walk),
                ),
            ],
        }
    )
    return whole.model_copy(
        update={"questions": questions(vocabulary, whole, _still_to_ask(walk, more.findings))}
    )


def _still_to_ask(walk: Walk, spoken: Sequence[Finding]) -> list[Question]:
    """Questions from earlier walks about parts that the second recording does not speak of either."""
    known = {(one.part, side) for one in spoken for side in (one.side, "none")}
    return [
        one for one in walk.questions if one.kind == "again" and (one.about.part, one.about.side) not in known
    ]


def _moved(finding: Finding, names: dict[str, str], at: int, start_s: float) -> Finding:
    evidence = [_place(one, at, start_s) for one in finding.evidence]
    return finding.model_copy(update={"id": names[finding.id], "evidence": evidence})


def _place(one: Placed, at: int, start_s: float) -> Placed:
    """A stretch of words so many characters and seconds later."""
    update: dict[str, object] = {"char_start": one.char_start + at, "char_end": one.char_end + at}
    if one.start_s is not None and one.end_s is not None:
        update |= {"start_s": round(one.start_s + start_s, 3), "end_s": round(one.end_s + start_s, 3)}
    return one.model_copy(update=update)


def _later(one: Timed, start_s: float) -> Timed:
    """A passage or an event so many seconds later."""
    update = {"start_s": round(one.start_s + start_s, 3), "end_s": round(one.end_s + start_s, 3)}
    return one.model_copy(update=update)


def _transcript(
    was: Transcript, more: Transcript, names: dict[str, str], at: int, start_s: float, text: str
) -> Transcript:
    gap = Span(
        char_start=len(was.text), char_end=at, disposition="talk", why="another recording begins behind it"
    )
    spans = [
        one.model_copy(
            update={
                "char_start": one.char_start + at,
                "char_end": one.char_end + at,
                "finding_ids": [names.get(name, name) for name in one.finding_ids],
            }
        )
        for one in more.spans
    ]
    readings = [
        one.model_copy(update={"char_start": one.char_start + at, "char_end": one.char_end + at})
        for one in more.readings
    ]
    return Transcript(
        text=text,
        words=[*was.words, *(_place(one, at, start_s) for one in more.words)],
        spans=[*was.spans, gap, *spans],
        readings=[*was.readings, *readings],
    )


def lengthened(sound: Path, more: Path, into: Path) -> float:
    """Write ``sound``, a pause and ``more`` as one file; return where ``more`` begins in it, seconds.

    Where there is no ``sound`` yet, ``more`` is all there is.

    Raises:
        SoundError: one of them cannot be read, or the disk refuses.
    """
    start_s = 0.0
    with KeptSound(into) as kept:
        if sound.is_file():
            for block in blocks(sound):
                kept.write(block)
            kept.write(np.zeros(round(PAUSE_S * SAMPLE_RATE), np.float32))
            start_s = kept.seconds
        for block in blocks(more):
            kept.write(block)
    return round(start_s, 3)
