"""The few keys of ``walk.json`` that the history needs, read without the rest.

A whole walk, word by word, costs fifteen times as much; `python bench/history.py` tells how fast an index is
made again.
"""

from pathlib import Path

import msgspec

from saycheck import walkfolder
from saycheck.errors import WalkError
from saycheck.models.walk import SCHEMA, Walk


class Machine(msgspec.Struct, gc=False):
    """The unit walked."""

    kind: str
    unit: str | None = None
    hours: float | None = None


class Words(msgspec.Struct, gc=False):
    """The transcript."""

    text: str


class Measurement(msgspec.Struct, gc=False):
    """A number with its unit."""

    value: float
    unit: str
    value_si: float
    unit_si: str
    plus_minus: float = 0.0
    judged: str | None = None
    attribute: str | None = None
    other_units: list[str] = []


class Place(msgspec.Struct, gc=False):
    """Where in the transcript."""

    char_start: int
    char_end: int


class Finding(msgspec.Struct, gc=False):
    """A finding."""

    id: str
    zone: str
    part: str
    side: str
    state: str
    condition: str
    heard_as: str
    evidence: list[Place]
    denied: bool = False
    needs_review: bool = False
    measurements: list[Measurement] = []
    line: str | None = None


class Line(msgspec.Struct, gc=False):
    """A line of the checklist."""

    zone: str
    part: str
    side: str
    finding_ids: list[str] = []


class QuickWalk(msgspec.Struct, gc=False):
    """A walk as far as it is needed; the names are those of ``models.walk.Walk``."""

    schema: str
    id: str
    machine: Machine
    transcript: Words
    findings: list[Finding] = []
    checklist: list[Line] = []
    questions: list[msgspec.Raw] = []
    joined: list[msgspec.Raw] = []
    walked_at: str | None = None
    edits: int = msgspec.field(default=0, name="(edits that count)")
    answered: int = msgspec.field(default=0, name="(questions answered by them)")


class Edit(msgspec.Struct, gc=False):
    """A line of ``edits.jsonl`` as far as it is needed; the names are those of ``models.review.Edit``."""

    id: str
    at: str
    who: str
    action: str
    heard: str = ""
    before: list[Finding] = []
    after: list[Finding] = []
    refers: str | None = None
    question: str | None = None
    machine: Machine | None = None
    quotes: dict[str, str] = {}


_decoder = msgspec.json.Decoder(QuickWalk)


def read(folder: Path) -> tuple[Walk | QuickWalk, bool]:
    """The walk of a folder, and whether its texts may hold what no database takes (see ``names.storable``).

    Raises:
        WalkError: it cannot be read, is damaged or of another version; in the words of ``walkfolder.read``.
    """
    path = folder / walkfolder.WALK
    try:
        content = path.read_bytes()
    except OSError as error:
        raise WalkError(f"'{path}' cannot be read ({error.strerror}); check who may read it") from error
    try:
        walk = _decoder.decode(content)
    except msgspec.MsgspecError:
        return walkfolder.read(folder), True  # says what is wrong, or takes what JSON itself would not
    if walk.schema != SCHEMA:
        return walkfolder.read(folder), True
    return walk, b"\\u0000" in content
