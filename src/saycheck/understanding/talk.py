"""Whether a statement is about this machine now, or is teaching, hypothesis, story, another machine.

A cue speaks for its clause: from itself to the end of the sentence, or to words that bring the talk
back to this machine ("and this one here", "but"). A question is talk, unless its answer follows.
"""

from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading

TALK = ("teach", "hypothesis", "story", "other-machine")
BREAKS = frozenset(["but", ";", "—", "–", ":"])


def context_of(reading: Reading, statement: Statement) -> str | None:
    """The kind of talk a statement belongs to, or None where it is a finding."""
    start, end = reading.sentences[statement.sentence]
    words = reading.all_words
    for kind in TALK:
        for cue in reading.inside(kind, start, end):
            if cue.start >= statement.end:
                if kind in ("teach", "story", "other-machine") and not set(
                    words[statement.end : cue.start]
                ) & (BREAKS | {",", "and"}):
                    return kind
                continue
            between = range(cue.end, max(cue.end, statement.start))
            if any(words[i] in BREAKS for i in between) or released(reading, cue.end, statement.start):
                continue
            return kind
    if words[end - 1] == "?" and statement.end <= end:
        return "question"
    return None


def released(reading: Reading, start: int, end: int) -> bool:
    """Whether words between the cue and the statement bring the talk back to this machine."""
    return any(start <= m.start and m.end <= end + 1 for m in reading.of("here"))
