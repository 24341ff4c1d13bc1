"""Cuts the transcript into sentences: at marks, at long pauses, and where none are given, by words.

A transcript without marks (as most recognisers give it) is cut by ``boundaries.py``, a small trained
part, or failing that at words that open a new thought.
"""

from saycheck.understanding.text import SENTENCE_ENDS, Reading

LONG_PAUSE_S = 0.7


def cut(reading: Reading) -> list[tuple[int, int]]:
    """Sentences as (start, end) in tokens, in order, covering every token."""
    out, start = [], 0
    tokens = reading.tokens
    for i, token in enumerate(tokens):
        after = tokens[i + 1] if i + 1 < len(tokens) else None
        ends = token.text in SENTENCE_ENDS or token.text == ";"
        if after and "\n" in reading.text[token.end : after.start]:
            ends = True
        if after and after.pause >= LONG_PAUSE_S:
            ends = True
        if ends and after and after.text in SENTENCE_ENDS:
            ends = False
        if ends or after is None:
            out.append((start, i + 1))
            start = i + 1
    return out
