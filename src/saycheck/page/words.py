"""The transcript in paragraphs to read and to select from, each stretch with what became of it."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import attrgetter

from saycheck.models.walk import Span, Walk, Word
from saycheck.page.once import Once
from saycheck.reporting.wording import clock, plain

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
    """A paragraph; ``key`` stays the same whatever becomes of its words.

    ``begins`` names the recording whose first words these are, where several were joined.
    """

    key: str
    at: str
    start: int
    stretches: tuple[Stretch, ...]
    begins: str = ""


def paragraphs(walk: Walk, before: tuple[Walk, list[Paragraph]] | None = None) -> list[Paragraph]:
    """All words of a walk in order; together the paragraphs hold the text without gaps.

    ``before`` is the walk before an edit with its paragraphs; those to whose words nothing has happened since
    are taken over.
    """
    transcript = walk.transcript
    spans = transcript.spans or [
        Span(char_start=0, char_end=len(transcript.text), disposition="talk", why="")
    ]
    was, known = before or (None, [])
    if was and was.transcript.words is transcript.words and was.transcript.spans:
        first, last = _changed(was.transcript.spans, spans)
    else:
        first, last, known = 0, len(transcript.text), []
    named = {one.char_start: plain(one.source.name) for one in walk.joined}
    if named:
        named[0] = plain(walk.source.name)
    out = []
    cuts = _cuts(Once(transcript.words), len(transcript.text), tuple(named))
    for number, (start, end, word) in enumerate(cuts):
        if known and (end <= first or start >= last):
            out.append(known[number])
        else:
            begins = next((name for at, name in named.items() if start <= at < end), "")
            out.append(_paragraph(transcript.text, spans, start, end, word, begins))
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


def _paragraph(text: str, spans: Sequence[Span], start: int, end: int, first: Word, begins: str) -> Paragraph:
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
    return Paragraph(f"w-{start}", at, start, tuple(stretches), begins)


@lru_cache(maxsize=4)
def _cuts(once: Once[Word], length: int, recordings: tuple[int, ...]) -> list[tuple[int, int, Word]]:
    """Start and end of each paragraph, and its first word; one begins where a recording does."""
    words = once.items
    out: list[tuple[int, int, Word]] = []
    if not words:
        return out
    first = 0
    for number in range(1, len(words) + 1):
        count = number - first
        if number < len(words):
            before, word = words[number - 1], words[number]
            joined = any(before.char_start < at <= word.char_start for at in recordings)
            if not joined and not _breaks(before, word, count):
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
