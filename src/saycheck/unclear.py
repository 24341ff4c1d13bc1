"""Passages too noisy to trust: their words stay in the transcript, but nothing is understood from them.

A passage is unclear only where there is a word in it; what a cut leaves of one may be a blank or a stop.
"""

from collections.abc import Sequence

from saycheck.models.walk import Span, Transcript, Word

AGAIN = ("command", "same again")
"""Disposition and reason of the words that lead to such a command."""


def held_back(transcript: Transcript) -> tuple[str, list[Word]]:
    """Text and words to be understood: as long as the transcript, with blanks where it is unclear.

    The spans that hearing leaves in the transcript are the unclear ones. A full stop stands for the first
    letter of each, so that what is said before and after is not read as one sentence.
    """
    text = transcript.text
    for span in transcript.spans:
        blank = ".".ljust(span.char_end - span.char_start)
        text = text[: span.char_start] + blank + text[span.char_end :]
    clear = [word for word in transcript.words if not any(_touches(word, span) for span in transcript.spans)]
    return text, clear


def asked_again(transcript: Transcript) -> list[int]:
    """The characters behind which saycheck was asked to take the same again; the words of that follow there."""
    return [span.char_end for span in transcript.spans if (span.disposition, span.why) == AGAIN]


def with_unclear(spans: Sequence[Span], unclear: Sequence[Span], text: str) -> list[Span]:
    """The spans that understanding found in ``text``, cut where hearing had found it unclear."""
    cut = list(spans)
    for gap in unclear:
        cut = [piece for span in cut for piece in without(span, gap)]
    return wordless_as_talk(sorted([*cut, *unclear], key=lambda span: span.char_start), text)


def without(span: Span, gap: Span) -> list[Span]:
    """What is left of a span outside of another: none, one or two pieces."""
    if not _touches(span, gap):
        return [span]
    before = span.model_copy(update={"char_end": min(span.char_end, gap.char_start)})
    after = span.model_copy(update={"char_start": max(span.char_start, gap.char_end)})
    return [piece for piece in (before, after) if piece.char_start < piece.char_end]


def has_words(text: str) -> bool:
    """Whether there is a letter or a figure in it, not blanks and marks alone."""
    return any(sign.isalnum() for sign in text)


def wordless_as_talk(spans: Sequence[Span], text: str) -> list[Span]:
    """The spans of ``text``, talk where one is unclear without a word in it: nobody could settle that."""
    return [
        span.model_copy(update={"disposition": "talk", "why": "no word stands here"})
        if span.disposition == "unclear" and not has_words(text[span.char_start : span.char_end])
        else span
        for span in spans
    ]


def _touches(one: Span | Word, other: Span) -> bool:
    return one.char_start < other.char_end and other.char_start < one.char_end
