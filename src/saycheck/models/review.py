"""What a person changes on a walk: the lines of ``edits.jsonl``, and the walk as it stands after them.

Edits are only ever added. Undoing is an edit too, so that the file tells all that was done, by whom and when.
"""

from typing import Literal

from pydantic import Field

from saycheck.models.base import Model
from saycheck.models.walk import Evidence, Finding, Machine, Question, Walk

Action = Literal[
    "accept", "change", "split", "merge", "drop", "add", "settle", "answer", "machine", "attach", "detach",
    "undo", "redo",
]  # fmt: skip


class Photograph(Model):
    """A photograph of a finding: ``file`` is its name in the folder ``photos`` of the walk."""

    file: str
    finding: str
    sha256: str
    size: int
    name: str = ""


class Spoken(Model):
    """The answer to a question as it was given: its ``words``, and ``sound``, its file in ``answers/``.

    ``sha256`` is of that file; both are empty where the answer was typed. ``asked`` is the question.
    """

    words: str
    asked: str = ""
    sound: str = ""
    sha256: str = ""


class Edit(Model):
    """One thing a person did; one line of ``edits.jsonl``.

    ``at`` is ISO 8601 in UTC. ``heard`` tells which hearing of the walk the person had before them
    (``review.hearing.fingerprint``). ``before`` and ``after`` are whole findings: one and one for accept
    and change, one and several for split, several and one for merge, one and none for drop, none and some
    for add. A finding that stays the same one keeps its id.

    Where the action needs it: ``refers`` is the edit that an undo or redo means; ``question`` the id of the
    question that this answers, also beside findings, ``reason`` then being the answer in words; ``passage``
    the words that were settled as talk; ``machine`` the unit with its new name or reading and
    ``machine_before`` as it was; ``photographs`` what was attached or detached. ``quotes`` keeps the words
    of each finding as they stood, by finding id. ``origins`` tells by finding id which edit had made it what it
    was, as the edit's id and the finding's id in it. ``spoken`` is the answer that made it, where a question
    was answered. ``way`` is how it was entered: page, terminal, keyboard or voice.
    """

    id: str
    at: str
    who: str
    action: Action
    heard: str = ""
    before: list[Finding] = []
    after: list[Finding] = []
    reason: str = ""
    refers: str | None = None
    question: str | None = None
    passage: Evidence | None = None
    machine: Machine | None = None
    machine_before: Machine | None = None
    photographs: list[Photograph] = []
    quotes: dict[str, str] = {}
    origins: dict[str, tuple[str, str]] = {}
    spoken: Spoken | None = None
    way: str = ""


class Difference(Model):
    """Where the walk was heard again and an edit no longer meets what it was made on.

    ``kind`` is ``gone`` (the edited finding is not heard any more; the edit stands), ``other`` (it is
    heard otherwise now; the edit stands) or ``new`` (heard now for the first time; nobody has seen it).
    ``finding`` is its id now; ``was`` is what was heard when the edit was made, ``now`` what is heard,
    ``stands`` what counts, None where the finding was dropped. A later edit of the finding ends it.
    """

    kind: Literal["gone", "other", "new"]
    finding: str
    edit: str | None = None
    was: Finding | None = None
    now: Finding | None = None
    stands: Finding | None = None


class Settled(Model):
    """What was last done about a finding or a question, by whom, when (ISO 8601 UTC).

    ``made`` is the id that the finding has in that edit, which is not that of now where the walk was heard
    again since.
    """

    edit: str
    made: str = ""
    action: Action
    who: str
    at: str


class Standing(Model):
    """A walk as it stands after its edits.

    ``walk`` has findings, checklist, questions and spans as they are now; its questions are the open ones.
    ``heard`` is the walk as it was heard, untouched. ``edits`` is the whole log in order. ``settled`` tells
    by finding id what a person last did about it. ``dropped`` are the findings taken off. ``open_findings``
    are the ids of findings that still need a look. ``reviewed_share`` is the share (0 to 1) of what needed
    a look, findings and unclear passages, that a person has dealt with; 1 where nothing needed any.
    ``photos`` are file names in ``photos/`` by finding id. ``by`` names who edited, in order of appearance.
    ``answers`` are the words of answers by question id.
    ``undo`` and ``redo`` are the ids of the edits that would be undone and redone next.
    """

    walk: Walk
    heard: Walk
    edits: list[Edit] = []
    settled: dict[str, Settled] = {}
    dropped: list[Finding] = []
    open_findings: list[str] = []
    differences: list[Difference] = []
    reviewed_share: float = Field(default=1.0, ge=0, le=1)
    photos: dict[str, list[str]] = {}
    by: list[str] = []
    answers: dict[str, str] = {}
    undo: str | None = None
    redo: str | None = None

    @property
    def open_questions(self) -> list[Question]:
        """The questions that nobody has answered yet, in walking order."""
        return self.walk.questions

    @property
    def reviewed(self) -> bool:
        """Whether everything that needed a look has had it and no question is open."""
        return self.reviewed_share == 1.0 and not self.walk.questions
