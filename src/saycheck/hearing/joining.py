"""What the ears heard in one phrase made one row of words, with what they disagree on beside it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from saycheck.models.hearing import HeardWord, Hearing, OtherReading
from saycheck.vocabulary.compiled import Vocabulary

if TYPE_CHECKING:
    from saycheck.hearing.agreement import Agreement


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


Fuse = Callable[[Sequence[Hearing]], tuple[list[HeardWord], list[Other]]]
"""Makes one row of words of what the ears heard in a phrase, with what was not taken beside it."""


def fuse_for(vocabulary: Vocabulary) -> Fuse:
    """How hearings of a phrase are made one on a machine kind: one ear is believed, two are weighed."""

    @cache
    def agreement() -> "Agreement":
        from saycheck.hearing.agreement import Agreement

        return Agreement.for_machine(vocabulary)

    def fuse(hearings: Sequence[Hearing]) -> tuple[list[HeardWord], list[Other]]:
        return only(hearings) if len(hearings) < 2 else agreement().one_reading(hearings[0], hearings[1])

    return fuse


def only(hearings: Sequence[Hearing]) -> tuple[list[HeardWord], list[Other]]:
    """The words of the one ear there is."""
    return hearings[0].words, []
