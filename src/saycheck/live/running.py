"""What has been understood so far, made anew with every utterance, in memory and time that stay the same.

Only the last few hundred words are read again; findings from before them stand. The walk that is written
at the end is understood from all words at once.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from saycheck.live.commands import Command
from saycheck.live.marked import Stretch, marked
from saycheck.models.hearing import HeardWord
from saycheck.models.walk import Finding, Transcript, Word
from saycheck.unclear import asked_again, held_back
from saycheck.vocabulary.compiled import Vocabulary

if TYPE_CHECKING:
    from saycheck.understanding.pipeline import Understood

MOST_WORDS = 500
"""Words read again at most; beyond that the older half is done with."""

_SENTENCE_S = 0.8


Key = tuple[str | bool | None, ...]
"""What makes two findings the same for the checklist and for what is asked."""


class Running:
    """Takes words as they are heard, quickly and then carefully, and tells what they mean."""

    def __init__(self, vocabulary: Vocabulary, lead: Sequence[str]) -> None:
        self._kind, self._unit = vocabulary.kind, vocabulary.unit
        self._lead = lead
        self._settled: list[HeardWord] = []
        self._settled_s = 0.0
        self._quick: list[HeardWord] = []
        self._before: dict[Key, Finding] = {}
        self.count = 0
        """Findings so far, those done with included."""
        self._count_before = 0
        self.paused_s: float | None = None
        """Since when what is said does not count."""
        self.commands: list[Command] = []
        self.stretches: list[Stretch] = []

    def said(self, words: Sequence[HeardWord]) -> None:
        """Take the words of an utterance, quickly heard."""
        self._quick += [word for word in words if word.start_s >= self._settled_s]

    def heard(self, end_s: float, words: Sequence[HeardWord]) -> None:
        """Take the words of a phrase as they stay; what was quickly heard up to its end is forgotten."""
        self._settled += words
        self._settled_s = end_s
        self._quick = [word for word in self._quick if word.end_s > end_s]

    def findings(self) -> list[Finding]:
        """All findings so far, in order of speech; of those done with that say the same, only the last."""
        words = [*self._settled, *self._quick]
        transcript = _transcript(words)
        found = self._understood(transcript).findings
        self.count = self._count_before + len(found)
        if len(self._settled) > MOST_WORDS:
            found = self._done_with(found)
        return [*self._before.values(), *found]

    def _understood(self, transcript: Transcript) -> "Understood":
        from saycheck.understanding.pipeline import understand  # spaCy takes a second; sound is kept before

        stretches = list(self.stretches)
        if self.paused_s is not None:
            stretches.append(Stretch(self.paused_s, float("inf"), "talk", "said while paused"))
        made = marked(transcript, self.commands, self._lead, stretches).transcript
        text, clear = held_back(made)
        return understand(text, self._kind, clear, self._unit, asked_again(made))

    def _done_with(self, found: list[Finding]) -> list[Finding]:
        """Forget the older half of the settled words and keep its findings; return those that are left."""
        cut = _sentence_end(self._settled, len(self._settled) // 2)
        end_s = self._settled[cut - 1].end_s
        old = [one for one in found if (one.evidence[-1].end_s or 0.0) <= end_s]
        for one in old:
            self._count_before += 1
            self._before.pop(_key(one), None)  # the last one stands in its place
            self._before[_key(one)] = one.model_copy(update={"id": f"b{self._count_before}"})
        self._settled = self._settled[cut:]
        self.commands = [one for one in self.commands if one.end_s > end_s]
        self.stretches = [one for one in self.stretches if one.end_s > end_s]
        gone = {id(one) for one in old}
        return [one for one in found if id(one) not in gone]


def _key(finding: Finding) -> Key:
    measured = any(one.unit != "count" for one in finding.measurements)
    return (
        finding.zone, finding.line, finding.part, finding.side, finding.state, finding.condition,
        finding.denied, measured,
    )  # fmt: skip


def _transcript(words: Sequence[HeardWord]) -> Transcript:
    made: list[Word] = []
    at = 0
    for word in words:
        made.append(
            Word(
                text=word.text,
                char_start=at,
                char_end=at + len(word.text),
                start_s=word.start_s,
                end_s=word.end_s,
                confidence=word.confidence,
            )
        )
        at += len(word.text) + 1
    return Transcript(text=" ".join(word.text for word in made), words=made)


def _sentence_end(words: Sequence[HeardWord], about: int) -> int:
    """The place after a word near ``about`` where a sentence ends, by its mark or the pause behind it."""
    for cut in range(about, len(words)):
        ends = words[cut - 1].text.endswith((".", "!", "?"))
        if ends or words[cut].start_s - words[cut - 1].end_s > _SENTENCE_S:
            return cut
    return len(words)
