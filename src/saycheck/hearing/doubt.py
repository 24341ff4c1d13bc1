"""Words that weigh much and were not heard surely: numbers, sides and denials.

A wrong "seal" is seen by whoever reads it; a wrong "forty", "left" or "no" reads as well as the right one.
So these words are marked where the ears differ on them or where the fused confidence is low, and the
finding that rests on them goes to a person with both readings.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from saycheck.hearing.spoken import plain
from saycheck.models.hearing import OtherReading
from saycheck.models.walk import Finding, Transcript, Word

SURE = 0.9
"""Confidence from which a weighty word is taken as heard; see ``bench/hear_figures.py`` for what it marks."""

HARDLY = 0.3
"""Confidence up to which another ear's reading is not worth a person's time."""

_NUMBERS = frozenset(
    "zero nought oh two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen"
    " seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred thousand"
    " point half quarter quarters third thirds eighth eighths sixteenth sixteenths minus".split()
)
_SIDES = frozenset("left right both neither left-hand right-hand".split())
_DENIALS = frozenset("no not none never nothing without".split())


@dataclass(frozen=True)
class Doubt:
    """A place in the transcript whose weighty words were not heard surely, and why in plain words."""

    char_start: int
    char_end: int
    why: str


def weighty(text: str) -> tuple[str, ...]:
    """The numbers, sides and denials among the words of a text; a lone "one" is no number."""
    words = [plain(word) for word in text.split()]
    found = [w for w in words if w in _NUMBERS or w in _SIDES or w in _DENIALS or _denied(w) or _figure(w)]
    if any(w in _NUMBERS or _figure(w) for w in found):
        found = [w for w in words if w in found or w == "one"]
    return tuple(found)


def _figure(word: str) -> bool:
    return any(letter.isdigit() for letter in word)


def _denied(word: str) -> bool:
    return word.endswith(("n't", "n\u2019t"))


def doubts(transcript: Transcript) -> list[Doubt]:
    """The doubtful places of a transcript in the order of its text, at most one a place."""
    found = [doubt for reading in transcript.readings if (doubt := _two_ways(transcript, reading))]
    for word in transcript.words:
        unsure = word.confidence is not None and word.confidence < SURE and weighty(word.text)
        if unsure and not any(_touches(word, one) for one in found):
            found.append(Doubt(word.char_start, word.char_end, f"'{_bare(word.text)}' was not heard surely"))
    return sorted(found, key=lambda one: one.char_start)


def with_doubts(findings: Sequence[Finding], transcript: Transcript) -> list[Finding]:
    """The findings, those that rest on doubtful words sent to a person, with the reason."""
    found = doubts(transcript)
    return [_looked_at(one, [doubt.why for doubt in found if _under(one, doubt)]) for one in findings]


def _looked_at(finding: Finding, why: list[str]) -> Finding:
    if not why:
        return finding
    reasons = [*finding.review_reasons, *(one for one in why if one not in finding.review_reasons)]
    return finding.model_copy(update={"needs_review": True, "review_reasons": reasons})


def _under(finding: Finding, doubt: Doubt) -> bool:
    """Whether the words of a finding hold the doubtful place; one between two words touches both."""
    return any(
        doubt.char_start <= one.char_end and one.char_start <= max(doubt.char_end, doubt.char_start + 1)
        for one in finding.evidence
    )


def _two_ways(transcript: Transcript, reading: OtherReading) -> Doubt | None:
    taken = transcript.text[reading.char_start : reading.char_end]
    if weighty(taken) == weighty(reading.text) or reading.confidence <= HARDLY:
        return None
    if _lowest(transcript.words, reading) >= SURE:
        return None
    why = f"heard two ways: '{_bare(taken) or 'nothing'}' or '{_bare(reading.text) or 'nothing'}'"
    return Doubt(reading.char_start, reading.char_end, why)


def _lowest(words: Sequence[Word], reading: OtherReading) -> float:
    """The least confidence of the words taken; 0 where none were."""
    inside = [
        word.confidence or 0.0
        for word in words
        if word.char_start < reading.char_end and reading.char_start < word.char_end
    ]
    return min(inside, default=0.0)


def _touches(word: Word, doubt: Doubt) -> bool:
    return word.char_start < doubt.char_end and doubt.char_start < word.char_end


def _bare(text: str) -> str:
    return text.strip(" .,?!;:")
