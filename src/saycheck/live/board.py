"""What is on the view while it goes on: the zone, the last finding, what is open, and news that grow old."""

from collections.abc import Callable, Sequence

from saycheck.coverage.checklist import checklist
from saycheck.coverage.numbers import worn
from saycheck.live.missing import Open, in_three_words, open_parts, told
from saycheck.live.view import View
from saycheck.models.walk import ChecklistLine, Finding
from saycheck.reporting.wording import said_of, with_side
from saycheck.vocabulary.compiled import Vocabulary

CORRECTED_S, NOTICE_S, ANSWER_S = 20.0, 60.0, 60.0
"""So long do a correction, a notice and an answer stay on the view, seconds."""

NEW_ANSWER_S = 12.0
"""So long is an answer shown in big letters, seconds."""

_SAME_S = 0.5
"""The careful ears may put the end of a finding so much earlier than the quick one did."""


class Board:
    """Keeps a view; ``answer`` is given what to say when a zone is left or a measure is missing."""

    def __init__(self, vocabulary: Vocabulary, zones_aloud: bool, answer: Callable[[str], None]) -> None:
        self.view = View()
        self.open: list[Open] = []
        self._vocabulary = vocabulary
        self._zones_aloud = zones_aloud
        self._answer = answer
        self._lines: list[ChecklistLine] = []
        self._zone_at_s = -1.0
        self._asked: set[str] = set()
        self._now_s = 0.0
        self._corrected_at_s = self._answered_at_s = 0.0
        self._told_at_s: list[float] = []

    def show(self, findings: Sequence[Finding]) -> None:
        """Bring the view in line with the findings."""
        self._lines = checklist(self._vocabulary, findings)
        self.open = open_parts(self._vocabulary, self._lines)
        last, view = last_of(findings), self.view
        if last is None:
            view.part = view.said = view.state = ""
        else:
            view.part, view.said, view.state = with_side(last.part, last.side), said_of(last), last.state
            self.entered(last.zone, last.evidence[-1].end_s or 0.0)
        view.open_in_all = len(self.open)
        view.open_here = [name for _, name in open_parts(self._vocabulary, self._lines, view.zone)]
        self._ask_for_measures(findings)

    def entered(self, zone: str, at_s: float) -> None:
        """The walker is in a zone, by a command or by what was found there; older news move nobody."""
        if at_s < self._zone_at_s - _SAME_S:
            return
        self._zone_at_s = max(at_s, self._zone_at_s)
        before, self.view.zone = self.view.zone, zone
        if before and zone != before and self._zones_aloud:
            left = open_parts(self._vocabulary, self._lines, before)
            if left:
                self._answer(f"Still open. {told(left)}")

    def correct(self, text: str) -> None:
        """Show what the careful ears put right."""
        self.view.corrected, self._corrected_at_s = text, self._now_s

    def answered(self, text: str, parts: Sequence[Open] = ()) -> None:
        """Show an answer; ``parts`` are those that it names."""
        self.view.answer, self._answered_at_s = text, self._now_s
        self.view.answer_parts = [name for _, name in parts]

    def tell(self, notice: str) -> None:
        """Show something worth knowing."""
        self.view.notices.append(notice)
        self._told_at_s.append(self._now_s)
        del self.view.notices[:-3], self._told_at_s[:-3]

    def grow_old(self, now_s: float) -> None:
        """Take away what has been there long enough."""
        self._now_s, view = now_s, self.view
        if now_s - self._corrected_at_s > CORRECTED_S:
            view.corrected = ""
        if now_s - self._answered_at_s > ANSWER_S:
            self.answered("")
        view.answer_is_new = bool(view.answer) and now_s - self._answered_at_s < NEW_ANSWER_S
        while self._told_at_s and now_s - self._told_at_s[0] > NOTICE_S:
            del self.view.notices[0], self._told_at_s[0]

    def _ask_for_measures(self, findings: Sequence[Finding]) -> None:
        for question in worn(self._vocabulary, findings):
            asked = in_three_words(question)
            if asked and question.id not in self._asked:
                self._asked.add(question.id)
                self._answer(asked)


def last_of(findings: Sequence[Finding]) -> Finding | None:
    """What was found last."""
    return max(findings, key=lambda one: one.evidence[-1].end_s or 0.0, default=None)
