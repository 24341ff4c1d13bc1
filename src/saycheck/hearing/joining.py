"""What the ears heard in one phrase made one row of words, with what they disagree on beside it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher

from saycheck.hearing.spoken import plain
from saycheck.models.hearing import HeardWord, Hearing, OtherReading


@dataclass(frozen=True)
class Other:
    """Another ear's words in the place of words ``first`` to ``after`` (half-open) of a row of words."""

    first: int
    after: int
    text: str
    ear: str
    confidence: float

    def moved(self, places: int) -> "Other":
        """The same so many words later."""
        return replace(self, first=self.first + places, after=self.after + places)

    def reading(self, starts: Sequence[int], length: int) -> OtherReading:
        """The same in characters; ``starts`` tells where each word begins, ``length`` how long the text is."""
        start = min(starts[self.first], length)
        end = min(max(starts[self.after] - 1, start), length)
        return OtherReading(
            char_start=start, char_end=end, text=self.text, ear=self.ear, confidence=round(self.confidence, 3)
        )


def joined(hearings: Sequence[Hearing]) -> tuple[list[HeardWord], list[Other]]:
    """The words of the first ear, and where another one differs, its words as another reading."""
    first, *rest = hearings
    others: list[Other] = []
    for hearing in rest:
        mine, theirs = [plain(w.text) for w in first.words], [plain(w.text) for w in hearing.words]
        for kind, a, b, c, d in SequenceMatcher(None, mine, theirs, autojunk=False).get_opcodes():
            if kind != "equal":
                heard = hearing.words[c:d]
                confidence = sum(word.confidence for word in heard) / len(heard) if heard else 0.0
                text = " ".join(word.text for word in heard)
                others.append(Other(a, b, text, hearing.ear, confidence))
    return first.words, others
