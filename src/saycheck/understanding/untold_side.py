"""On which side a part is where no word with it tells: a small trained part beside the rules.

A walker on the left passes the left tyre and, without another word, the belly guard and the radiator: what
the labels call "left" and what they give no side hangs on the part, on how surely and how long ago a side
was told, and on the words around. The rules (``attach.sides``) guess; the model has learned from labelled
narrations when to believe them. Trained by ``bench/train_sides.py``; without weights the rules decide.
"""

from typing import cast

import numpy as np

from saycheck.models.walk import Side
from saycheck.understanding import encoder
from saycheck.understanding.arrays import agreed, shared
from saycheck.understanding.encoder import Read
from saycheck.understanding.linear import trained
from saycheck.understanding.place import OTHER
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading, plain_words
from saycheck.understanding.throughout import Place, meant_at, up_to

# What "no side" keeps of its share, for a part on the list as it is and for one of its components or a part of no
# list: a side left out of a write-up sends a fitter to the wrong wheel, one too many only looks odd. On the tuning
# narrations, writers left out, this beats the rules both where the labels have a side and over all.
NONE_COUNTS, NONE_COUNTS_BESIDE = 0.5, 0.25
# What the encoder counts beside the words that stand around.
MEANING_COUNTS = 0.4
# Steps of how many sentences ago the side was named, and how long a sentence is looked round for small words.
AGO = (0, 1, 2, 4, 8, 16)
AROUND = 3


SIDES = ("here", "other", "both", "none")
"""Sides as seen from where the walker is."""
HOWS = ("told", "shown", "left", "never")
"""How it is known where that is (``Stood.how``)."""
LONG_AGO = 16


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


def known_of(statement: Statement, before: Statement | None, after: Statement | None) -> tuple[float, ...]:
    """What the encoder is told of a statement beside its words, ``TOLD`` numbers; the rest as in ``features``."""
    subject, stood = statement.subject, statement.stood
    part = subject.part
    rule = relative(subject.side, stood.side)
    given = (
        *(rule == side for side in SIDES), *(stood.how == how for how in HOWS),
        min(stood.ago, LONG_AGO) / LONG_AGO, stood.ago == 0, part.part is not None, part.sided, bool(part.component),
        subject.plural, subject.carried, statement.count is not None,
        *known_beside(statement, before), *known_beside(statement, after),
    )  # fmt: skip
    return tuple(map(float, given))


def known_beside(statement: Statement, other: Statement | None) -> tuple[float, ...]:
    """The same of a neighbouring statement."""
    if other is None:
        return (0.0,) * (len(SIDES) + 3)
    side = relative(other.subject.side, statement.stood.side)
    same = other.subject.part.name == statement.subject.part.name
    far = min(abs(other.sentence - statement.sentence), 3) / 3
    return (*(float(side == one) for one in SIDES), float(same), float(other.subject.told_side), far)


TOLD = 2 * (len(SIDES) + 3) + len(SIDES) + len(HOWS) + 8
"""How many numbers the encoder is told of a statement."""


def shares(made: Read, place: Place, given: tuple[float, ...]) -> dict[str, float]:
    """The likelihood of each of ``SIDES`` by what a statement means."""
    asked = np.concatenate([meant_at(made, [place])[0], np.array(given, np.float32)])
    scores = made.scores(asked, "sided", "siding")
    return dict(zip(SIDES, map(float, shared(scores)), strict=True))


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
    likely = model.shares(features(reading, statement, before, after))
    made = encoder.read(reading)
    if made is not None:
        meaning = shares(made, up_to(statement.end, statement), known_of(statement, before, after))
        likely = agreed((likely, 1 - MEANING_COUNTS), (meaning, MEANING_COUNTS))
    listed = subject.part.part is not None and not subject.part.component
    likely["none"] *= NONE_COUNTS if listed else NONE_COUNTS_BESIDE
    possible = {side: where for side in likely if (where := absolute(side, stood.side))}
    return possible[max(possible, key=lambda side: likely[side])]
