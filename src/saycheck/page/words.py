"""The transcript in paragraphs to read and to select from, each stretch with what became of it."""

from dataclasses import dataclass
from functools import lru_cache

from saycheck.models.walk import Span, Transcript, Word
from saycheck.page.once import Once
from saycheck.reporting.wording import clock

PAUSE_S = 1.2
"""A pause in seconds that begins a paragraph."""
WORDS_LEAST = 12
WORDS_MOST = 70


@dataclass(frozen=True)
class Stretch:
    """Words of one disposition; ``at`` is the offset of their first character."""

    text: str
    disposition: str
    at: int
    why: str = ""
    finding: str = ""


@dataclass(frozen=True)
class Paragraph:
    """A paragraph; ``key`` stays the same whatever becomes of its words."""

    key: str
    at: str
    start: int
    stretches: tuple[Stretch, ...]


def paragraphs(transcript: Transcript) -> list[Paragraph]:
    """All words of a walk in order; together the paragraphs hold the text without gaps."""
    out = []
    spans = transcript.spans or [
        Span(char_start=0, char_end=len(transcript.text), disposition="talk", why="")
    ]
    place = 0
    for start, end, first in _cuts(Once(transcript.words), len(transcript.text)):
        while place and spans[place - 1].char_end > start:
            place -= 1
        while place < len(spans) and spans[place].char_end <= start:
            place += 1
        stretches = []
        for number in range(place, len(spans)):
            span = spans[number]
            if span.char_start >= end:
                break
            a, b = max(span.char_start, start), min(span.char_end, end)
            ids = span.finding_ids
            stretches.append(
                Stretch(transcript.text[a:b], span.disposition, a, span.why, ids[0] if ids else "")
            )
        at = clock(first.start_s) if first.start_s is not None else ""
        out.append(Paragraph(f"w-{start}", at, start, tuple(stretches)))
    return out


@lru_cache(maxsize=4)
def _cuts(once: Once, length: int) -> list[tuple[int, int, Word]]:
    """Start and end of each paragraph, and its first word."""
    words = once.words
    out: list[tuple[int, int, Word]] = []
    if not words:
        return out
    first = 0
    for number in range(1, len(words) + 1):
        count = number - first
        if number < len(words) and not _breaks(words[number - 1], words[number], count):
            continue
        start = words[first].char_start if first else 0
        end = words[number].char_start if number < len(words) else length
        out.append((start, end, words[first]))
        first = number
    return out


def _breaks(before: Word, word: Word, count: int) -> bool:
    if count >= WORDS_MOST:
        return True
    if count < WORDS_LEAST:
        return False
    if before.end_s is not None and word.start_s is not None and word.start_s - before.end_s >= PAUSE_S:
        return True
    return count >= WORDS_MOST // 2 and before.text.endswith((".", "!", "?"))
