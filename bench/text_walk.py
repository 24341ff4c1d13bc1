"""A walk from a text alone: what understanding makes of it, and the checklist that follows from it."""

from narrations import vocabulary_of
from saycheck import __version__
from saycheck.coverage.checklist import checklist
from saycheck.models.walk import SCHEMA, Machine, MadeBy, Source, Transcript, Walk
from saycheck.understanding.pipeline import understand


def read_walk(text: str, kind: str) -> Walk:
    """Understand a text as a walk round a machine of ``kind``; no questions are asked."""
    vocabulary = vocabulary_of(kind)
    understood = understand(text, vocabulary.kind)
    return Walk(
        schema=SCHEMA,
        id="bench",
        machine=Machine(kind=vocabulary.kind, hours=understood.hours),
        source=Source(name="text", sha256=""),
        transcript=Transcript(text=text, words=[], spans=understood.spans),
        findings=understood.findings,
        checklist=checklist(vocabulary, understood.findings, spans=understood.spans),
        made_by=MadeBy(version=__version__, vocabulary=vocabulary.version),
    )
