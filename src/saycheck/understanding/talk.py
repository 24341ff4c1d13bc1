"""Whether a statement is about this machine now, or is teaching, hypothesis, story, another machine.

A cue speaks for its clause: from itself to the end of the sentence, or to words that bring the talk
back to this machine ("and this one here", "but"). A question is talk, unless its answer follows.
"""

from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading

TALK = ("teach", "hypothesis", "story", "other-machine")
STORY = ("story", "other-machine")
BREAKS = frozenset(["but", ";", "—", "–", ":"])
BREAKS_BEHIND = BREAKS | {",", "and"}


def context_of(reading: Reading, statement: Statement) -> str | None:
    """The kind of talk a statement belongs to, or None where it is a finding."""
    _, end = reading.sentences[statement.sentence]
    words = reading.all_words
    for cue in reading.by_sentence(TALK)[statement.sentence]:
        if cue.start >= statement.end:
            stands_behind = not set(words[statement.end : cue.start]) & BREAKS_BEHIND
            if cue.kind != "hypothesis" and stands_behind:
                return cue.kind
            continue
        between = range(cue.end, max(cue.end, statement.start))
        if any(words[i] in BREAKS for i in between) or released(reading, cue.end, statement.start):
            continue
        return cue.kind
    if words[end - 1] == "?" and statement.end <= end:
        return "question"
    return None


def end_before_story(reading: Reading, statement: Statement) -> None:
    """End a statement where a story, or another machine, is begun of which more is said than of the part.

    "Comes off today | last year we ran one like that and it burst": without a mark between, both are one sentence.
    """
    said = [c.mention for c in statement.claims] + [m for _, m in statement.quantities]
    begun = [m.start for kind in STORY for m in reading.inside(kind, statement.start, statement.end)]
    cut = min((at for at in begun if any(m.end <= at for m in said)), default=None)
    if cut is None or not any(m.start >= cut for m in said):
        return
    last = max(m.end for m in said if m.end <= cut)
    # A mark that nobody wrote has no width.
    if any(token.is_mark and token.end > token.start for token in reading.tokens[last:cut]):
        return
    statement.claims = [c for c in statement.claims if c.mention.end <= cut]
    statement.quantities = [(q, m) for q, m in statement.quantities if m.end <= cut]
    statement.end = cut


def released(reading: Reading, start: int, end: int) -> bool:
    """Whether words between the cue and the statement bring the talk back to this machine."""
    return any(start <= m.start and m.end <= end + 1 for m in reading.of("here"))
