"""On which side a part is where no word with it tells: a small trained part beside the rules.

A walker on the left passes the left tyre and, without another word, the belly guard and the radiator: what
the labels call "left" and what they give no side hangs on the part, on how surely and how long ago a side
was told, and on the words around. The rules (``attach.sides``) guess; the model has learned from labelled
narrations when to believe them. Trained by ``bench/train_sides.py``; without weights the rules decide.
"""

from typing import cast

from saycheck.models.walk import Side
from saycheck.understanding.linear import trained
from saycheck.understanding.place import OTHER
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading, plain_words

# What "no side" keeps of its share, for a part on the list as it is and for one of its components or a part of no
# list: a side left out of a write-up sends a fitter to the wrong wheel, one too many only looks odd. On the tuning
# narrations, writers left out, this beats the rules both where the labels have a side and over all.
NONE_COUNTS, NONE_COUNTS_BESIDE = 0.5, 0.25
# Steps of how many sentences ago the side was named, and how long a sentence is looked round for small words.
AGO = (0, 1, 2, 4, 8, 16)
AROUND = 3


def relative(side: str | None, here: str | None) -> str:
    """A side as seen from where the walker is: here, other, both or none."""
    if side in (None, "none", "both"):
        return side or "none"
    return "here" if side == here else "other"


def absolute(side: str, here: str | None) -> Side | None:
    """The side of the machine that a relative one is; None where nobody can tell."""
    if side == "both":
        return "both"
    if side == "none":
        return "none"
    told = here if side == "here" else OTHER.get(here or "")
    return "left" if told == "left" else "right" if told == "right" else None


def near(statement: Statement, other: Statement | None, here: str | None) -> list[str]:
    """Features of a neighbouring statement: its side, how it was told, whether it is on the same part."""
    if other is None:
        return ["-"]
    side = relative(other.subject.side, here)
    same = other.subject.part.name == statement.subject.part.name
    told = "told" if other.subject.told_side else "not"
    far = min(abs(other.sentence - statement.sentence), 3)
    return [side, f"{side}/{told}", f"{side}/{told}/{far}", f"{side}/{same}/{told}"]


def features(
    reading: Reading, statement: Statement, before: Statement | None, after: Statement | None
) -> list[str]:
    """Names of the binary features of a statement, ``before`` and ``after`` it those said next to it."""
    subject, stood = statement.subject, statement.stood
    part = subject.part
    words = plain_words(reading)
    rule = relative(subject.side, stood.side)
    ago = next((str(step) for step in AGO if stood.ago <= step), "long")
    how = stood.how
    head = part.name.split()[-1]
    kind = (
        f"sided={part.sided}" if part.part else "own" if not subject.carried else "carried"
    ) + f"/{bool(part.component)}/{subject.plural}"
    out = [
        f"rule={rule}", f"how={how}", f"ago={how}/{ago}", f"kind={kind}", f"rule={rule}/{how}/{ago}",
        f"kind={kind}/{how}", f"kind={kind}/{rule}", f"part={part.name}", f"part={part.name}/{how}",
        f"part={part.name}/{rule}", f"head={head}", f"head={head}/{how}", f"head={head}/{rule}",
        f"zone={part.zone}/{how}", f"zone={part.zone}/{rule}", f"like={part.part.like if part.part else '-'}/{how}",
        f"carried={subject.carried}/{rule}", f"count={statement.count is not None}/{rule}",
    ]  # fmt: skip
    start, end = reading.sentences[statement.sentence]
    first = subject.start if subject.start >= 0 else statement.start
    out += [f"before={w}" for w in words[max(start, first - AROUND) : first]]
    out += [f"behind={w}" for w in words[statement.end : min(end, statement.end + AROUND)]]
    out += [f"word={w}" for w in words[statement.start : statement.end]]
    out += [f"last={told}" for told in near(statement, before, stood.side)]
    out += [f"next={told}" for told in near(statement, after, stood.side)]
    out += [
        f"in={a} {b}" for a, b in zip(words[start:end], words[start + 1 : end], strict=False) if b == "side"
    ]
    return out


def side_of(
    reading: Reading, statement: Statement, before: Statement | None, after: Statement | None
) -> Side:
    """The side of a statement's part: as told, or the likeliest where it is not told; ``before`` and ``after`` as
    in ``features``.
    """
    subject, stood = statement.subject, statement.stood
    ruled = cast(Side, subject.side or "none")
    model = trained("sides")
    if subject.told_side or statement.copied_from or model is None:
        return ruled
    shares = model.shares(features(reading, statement, before, after))
    listed = subject.part.part is not None and not subject.part.component
    shares["none"] *= NONE_COUNTS if listed else NONE_COUNTS_BESIDE
    possible = {side: told for side in shares if (told := absolute(side, stood.side))}
    return possible[max(possible, key=lambda side: shares[side])]
