"""The stages in order: what was given goes in, a walk comes out."""

import re
from collections.abc import Callable, Sequence
from contextlib import nullcontext
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from saycheck import __version__
from saycheck.capture.files import blocks, probe, sha256
from saycheck.capture.keep import KeptSound
from saycheck.capture.measures import Meter
from saycheck.capture.noise import passages, verdict
from saycheck.capture.phrases import phrases
from saycheck.coverage.checklist import checklist
from saycheck.coverage.questions import questions
from saycheck.errors import SoundError
from saycheck.hearing.choose import chosen
from saycheck.hearing.doubt import with_doubts
from saycheck.hearing.hear import hear
from saycheck.hearing.joining import fuse_for
from saycheck.hearing.language import learned
from saycheck.limits import doubted, judged
from saycheck.models.hearing import Passage
from saycheck.models.walk import SCHEMA, Machine, MadeBy, Question, Source, Transcript, Walk, Word
from saycheck.source import is_text, read_text
from saycheck.unclear import asked_again, held_back, with_unclear
from saycheck.vocabulary.chosen import about
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load


def _quiet(*_: object) -> None:
    """Tell nobody."""


def _nothing(_: Walk) -> Sequence[Question]:
    """Ask nothing more."""
    return ()


@dataclass(frozen=True)
class Asked:
    """What is asked for: the machine (kind, unit, hour-meter reading in h) and how to listen to it.

    ``ears`` is what ``--ear`` takes; ``model`` is a Vosk model folder. ``note`` is told single sentences
    worth knowing, ``progress`` how many seconds of how many (None where unknown) are heard. ``walked`` is
    when it was walked (local time, ISO 8601), None for now. ``again`` gives further questions about a walk:
    those that earlier walks of the unit raise.
    """

    machine: str
    unit: str | None = None
    hours: float | None = None
    ears: str = "both"
    model: Path | None = None
    note: Callable[[str], None] = _quiet
    progress: Callable[[float, float | None], None] = _quiet
    walked: str | None = None
    again: Callable[[Walk], Sequence[Question]] = _nothing


@dataclass(frozen=True)
class Heard:
    """What comes out of hearing or reading; the spans of the transcript are its unclear passages."""

    transcript: Transcript
    source: Source
    ears: list[str] = field(default_factory=list)
    sound: list[Passage] = field(default_factory=list)


def hear_file(given: Path, asked: Asked, name: str | None = None, sound: Path | None = None) -> Walk:
    """Hear a recording, or read a text, of a walk.

    ``name`` is what the source is called where that is not its file name. ``sound`` is where the sound is
    kept as heard; None keeps none.

    Raises:
        SaycheckError: whatever fails; nothing is left behind.
    """
    with about(asked.unit):
        vocabulary = load(asked.machine, unit=asked.unit)
        name = name or given.name
        if is_text(given):
            return walk_of(_read(given, name, asked), vocabulary, asked)
        return walk_of(_listen(given, name, asked, vocabulary, sound), vocabulary, asked)


def _read(given: Path, name: str, asked: Asked) -> Heard:
    text = read_text(given, name)
    if text.note:
        asked.note(text.note)
    words = [
        Word(text=word.group(), char_start=word.start(), char_end=word.end())
        for word in re.finditer(r"\S+", text.text)
    ]
    return Heard(Transcript(text=text.text, words=words), Source(name=name, sha256=text.sha256))


def walk_of(heard: Heard, vocabulary: Vocabulary, asked: Asked) -> Walk:
    # spaCy takes 70 MB, which are kept free while the ears are at work.
    from saycheck.understanding.pipeline import understand

    transcript = heard.transcript
    text, words = held_back(transcript)
    understood = understand(text, vocabulary.kind, words, asked.unit, asked_again(transcript))
    findings = with_doubts(doubted(judged(understood.findings, vocabulary), vocabulary), transcript)
    spans = with_unclear(understood.spans, transcript.spans, transcript.text)
    walked = asked.walked or datetime.now().isoformat(timespec="minutes")
    walk = Walk(
        schema=SCHEMA,
        id=f"{walked[:10]}-{heard.source.sha256[:8]}",
        walked_at=walked,
        machine=Machine(
            kind=vocabulary.kind,
            unit=asked.unit,
            hours=understood.hours if asked.hours is None else asked.hours,
        ),
        source=heard.source,
        transcript=transcript.model_copy(update={"spans": spans}),
        findings=findings,
        checklist=checklist(vocabulary, findings, spans=spans),
        sound=heard.sound,
        learned=_learned(heard.ears),
        made_by=MadeBy(version=__version__, ears=heard.ears, vocabulary=vocabulary.version),
    )
    return walk.model_copy(update={"questions": questions(vocabulary, walk, asked.again(walk))})


def _learned(ears: Sequence[str]) -> str | None:
    """The digest of what the ears had learned; None where there was nothing, or no ear that learns."""
    file = learned.chosen() if {"builtin", "trade"} & set(ears) else None
    return learned.digest(file) if file else None


def needs_attention(walk: Walk) -> bool:
    """Whether a person has something to decide, to look at again or to answer."""
    open_findings = any(one.state == "writeup" or one.needs_review for one in walk.findings)
    unclear = any(span.disposition == "unclear" for span in walk.transcript.spans)
    return open_findings or unclear or bool(walk.questions)


def _listen(given: Path, name: str, asked: Asked, vocabulary: Vocabulary, sound: Path | None) -> Heard:
    info = probe(given)
    digest = sha256(given)
    ears = chosen(asked.ears, vocabulary.kind, asked.model)
    fuse = fuse_for(vocabulary)
    recording = blocks(given)
    meter = Meter()
    found: list[Passage] = []

    def progress(heard_s: float) -> None:
        asked.progress(heard_s, info.duration_s)

    def measured() -> list[Passage]:
        found[:] = passages(meter.measures())
        return found

    with KeptSound(sound) if sound else nullcontext() as kept:
        passing = kept.passing(recording) if kept else recording
        transcript = hear(phrases(passing, meter.add), ears, fuse, measured, progress)
    if recording.truncated:
        asked.note(f"'{name}' stops before its own end; what there is was heard")
    if not transcript.words:
        raise SoundError(f"no speech was heard in '{name}'; hold the microphone closer and speak up")
    if unusable := verdict(found):
        asked.note(unusable)
    source = Source(name=name, sha256=digest, duration_s=round(recording.seconds, 3))
    return Heard(transcript, source, [ear.name for ear in ears], found)
