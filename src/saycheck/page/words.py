"""The transcript in paragraphs to read and to select from, each stretch with what became of it."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import attrgetter

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


def paragraphs(
    transcript: Transcript, before: tuple[Transcript, list[Paragraph]] | None = None
) -> list[Paragraph]:
    """All words of a walk in order; together the paragraphs hold the text without gaps.

    ``before`` is the transcript before an edit with its paragraphs; those to whose words nothing has happened
    since are taken over.
    """
    spans = transcript.spans or [
        Span(char_start=0, char_end=len(transcript.text), disposition="talk", why="")
    ]
    was, known = before or (None, [])
    if was and was.words is transcript.words and was.spans:
        first, last = _changed(was.spans, spans)
    else:
        first, last, known = 0, len(transcript.text), []
    out = []
    for number, (start, end, word) in enumerate(_cuts(Once(transcript.words), len(transcript.text))):
        as_before = known and (end <= first or start >= last)
        out.append(known[number] if as_before else _paragraph(transcript.text, spans, start, end, word))
    return out


def _changed(was: Sequence[Span], now: Sequence[Span]) -> tuple[int, int]:
    """From where to where spans of the same text differ; 0 and 0 where they do not."""
    most = min(len(was), len(now))
    first = next((n for n in range(most) if not _same(was[n], now[n])), most)
    if first == len(was) == len(now):
        return 0, 0
    if first == most:
        return 0, now[-1].char_end
    last = next((n for n in range(most - first) if not _same(was[-1 - n], now[-1 - n])), most - first)
    return now[first].char_start, now[-1 - last].char_end


def _same(one: Span, other: Span) -> bool:
    return one is other or one == other


def _paragraph(text: str, spans: Sequence[Span], start: int, end: int, first: Word) -> Paragraph:
    """The paragraph between two places."""
    stretches = []
    for number in range(bisect_right(spans, start, key=attrgetter("char_end")), len(spans)):
        span = spans[number]
        if span.char_start >= end:
            break
        a, b = max(span.char_start, start), min(span.char_end, end)
        finding = span.finding_ids[0] if span.finding_ids else ""
        stretches.append(Stretch(text[a:b], span.disposition, a, span.why, finding))
    at = clock(first.start_s) if first.start_s is not None else ""
    return Paragraph(f"w-{start}", at, start, tuple(stretches))


@lru_cache(maxsize=4)
def _cuts(once: Once[Word], length: int) -> list[tuple[int, int, Word]]:
    """Start and end of each paragraph, and its first word."""
    words = once.items
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
