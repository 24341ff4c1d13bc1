"""The stages in order: what was given goes in, a walk comes out."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from saycheck import __version__
from saycheck.coverage.checklist import checklist
from saycheck.coverage.questions import questions
from saycheck.models.hearing import Passage
from saycheck.models.walk import MadeBy, Machine, Source, Transcript, Walk, Word
from saycheck.source import is_text, read_text
from saycheck.understanding.pipeline import understand
from saycheck.understanding.text import split
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load


def _quiet(*_: object) -> None:
    """Tell nobody."""


@dataclass(frozen=True)
class Asked:
    """What is asked for: the machine (kind, unit, hour-meter reading in h) and how to listen to it.

    ``ears`` is what ``--ear`` takes; ``model`` is a Vosk model folder. ``note`` is told single sentences
    worth knowing, ``progress`` how many seconds of how many (None where unknown) are heard.
    """

    machine: str
    unit: str | None = None
    hours: float | None = None
    ears: str = "both"
    model: Path | None = None
    note: Callable[[str], None] = _quiet
    progress: Callable[[float, float | None], None] = _quiet


@dataclass(frozen=True)
class _Heard:
    """What comes out of hearing or reading."""

    transcript: Transcript
    source: Source
    ears: list[str] = field(default_factory=list)
    sound: list[Passage] = field(default_factory=list)


def hear_file(given: Path, asked: Asked, name: str | None = None, sound: Path | None = None) -> Walk:
    """Hear a recording, or read a text, of a walk.

    ``name`` is what the source is called where that is not its file name. ``sound`` is where the sound is
    kept as heard; None keeps none.

    Raises:
        SaycheckError: whatever fails; nothing is left behind but, perhaps, part of ``sound``.
    """
    vocabulary = load(asked.machine)
    name = name or given.name
    heard = _read(given, name, asked) if is_text(given) else _listen(given, name, asked, vocabulary, sound)
    return _walk(heard, vocabulary, asked)


def _read(given: Path, name: str, asked: Asked) -> _Heard:
    text = read_text(given, name)
    if text.note:
        asked.note(text.note)
    words = [Word(text=word, char_start=start, char_end=end) for word, start, end in split(text.text)]
    return _Heard(Transcript(text=text.text, words=words), Source(name=name, sha256=text.sha256))


def _walk(heard: _Heard, vocabulary: Vocabulary, asked: Asked) -> Walk:
    transcript = heard.transcript
    understood = understand(transcript.text, vocabulary.kind, transcript.words)
    transcript = transcript.model_copy(update={"spans": understood.spans})
    hours = understood.hours if asked.hours is None else asked.hours
    walk = Walk(
        schema="saycheck.walk/1",
        id=f"{date.today().isoformat()}-{heard.source.sha256[:8]}",
        machine=Machine(kind=vocabulary.kind, unit=asked.unit, hours=hours),
        source=heard.source,
        transcript=transcript,
        findings=understood.findings,
        checklist=checklist(vocabulary, understood.findings),
        sound=heard.sound,
        made_by=MadeBy(version=__version__, ears=heard.ears, vocabulary=vocabulary.version),
    )
    return walk.model_copy(update={"questions": questions(vocabulary, walk)})


def _listen(given: Path, name: str, asked: Asked, vocabulary: Vocabulary, sound: Path | None) -> _Heard:
    raise NotImplementedError
