"""What a question is about, and what an answer to it makes."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Literal

from saycheck.models.review import Standing
from saycheck.models.walk import ChecklistLine, Finding, Question
from saycheck.models.wishes import Wish
from saycheck.vocabulary.compiled import Vocabulary

Kind = Literal["edit", "open", "stop", "again", "more", "unknown"]


@dataclass(frozen=True)
class Answer:
    """What words mean as the answer to a question.

    ``edit`` brings the ``wish`` that does it; ``open`` leaves the question for another day; ``stop`` ends
    the asking; ``again`` wants the question once more; ``more`` has understood part of it and asks ``ask``,
    whose answer ``turn`` makes into words that answer the question as a whole; ``unknown`` was not
    understood. ``note`` is what was taken for granted, to be read back with the rest.
    """

    kind: Kind
    wish: Wish | None = None
    ask: str = ""
    turn: Callable[[str], str] | None = None
    note: str = ""


@dataclass(frozen=True)
class Matter:
    """A question with the walk that it is about, as it stands."""

    question: Question
    standing: Standing
    vocabulary: Vocabulary

    @cached_property
    def lines(self) -> list[ChecklistLine]:
        """The lines of the zone that nobody has spoken of."""
        zone = self.question.about.zone
        return [one for one in self.standing.walk.checklist if one.zone == zone and one.state == "unsaid"]

    @cached_property
    def findings(self) -> list[Finding]:
        """The findings that the question is about: those that stand on its words."""
        places = {(one.char_start, one.char_end) for one in self.question.evidence}
        found = [
            one
            for one in self.standing.walk.findings
            if any((place.char_start, place.char_end) in places for place in one.evidence)
        ]
        part = self.question.about.part
        return [one for one in found if part is None or one.part == part] or found

    def edit(self, action: str, note: str = "", **asked: Any) -> Answer:
        """The answer that does ``action``; who did it and how is filled in when it counts."""
        given = {"action": action, "who": "someone", "question": self.question.id} | asked
        return Answer("edit", Wish.model_validate(given), note=note)

    def settled(self, reason: str) -> Answer:
        """The answer that closes the question and changes nothing else."""
        return self.edit("answer", reason=reason[:500])


def more(ask: str, turn: Callable[[str], str]) -> Answer:
    """An answer of which a part is still missing."""
    return Answer("more", ask=ask, turn=turn)


UNKNOWN = Answer("unknown")
