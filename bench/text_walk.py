"""A walk from a text alone: what understanding makes of it, with the checklist lines left unsaid."""

from narrations import vocabulary_of

from saycheck import __version__
from saycheck.models.walk import ChecklistLine, Finding, MadeBy, Machine, Source, Transcript, Walk
from saycheck.understanding.pipeline import understand
from saycheck.vocabulary.compiled import Line


def read_walk(text: str, kind: str) -> Walk:
    """Understand a text as a walk round a machine of ``kind``."""
    vocabulary = vocabulary_of(kind)
    understood = understand(text, kind)
    return Walk(
        schema="saycheck.walk/1",
        id="bench",
        machine=Machine(kind=vocabulary.kind, hours=understood.hours),
        source=Source(name="text", sha256=""),
        transcript=Transcript(text=text, words=[], spans=understood.spans),
        findings=understood.findings,
        checklist=[
            ChecklistLine(zone=line.zone, part=line.part, side=line.side, state="unsaid")
            for line in vocabulary.lines
            if line.option is None and not any(_covers(finding, line) for finding in understood.findings)
        ],
        made_by=MadeBy(version=__version__, vocabulary=vocabulary.version),
    )


def _covers(finding: Finding, line: Line) -> bool:
    """Whether a finding speaks of a line; one without a side speaks of both."""
    return finding.line == line.part and (finding.side in (line.side, "both", "none") or line.side == "none")
