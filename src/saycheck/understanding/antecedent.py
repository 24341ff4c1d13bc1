"""Of which part something is said where another name stands nearer: small trained parts beside the rules.

"Handrail though, waggle that, top bolt's out of it": what is said belongs to what the talk is about, not always to
the name that stands beside it. The rules (``attach``) take the nearest; two models have learned from labelled
narrations when a part named before is meant instead: one by the words that stand around (trained by
``bench/train_antecedents.py``), one by what they mean where they stand (``bench/train_encoder.py``). Without weights
the rules decide.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import log1p
from typing import ClassVar

import numpy as np

from saycheck.understanding import encoder
from saycheck.understanding.arrays import shared
from saycheck.understanding.attach.subjects import carried_on
from saycheck.understanding.encoder import Array, Read
from saycheck.understanding.linear import trained
from saycheck.understanding.phrases import singular
from saycheck.understanding.statements import Statement, Subject
from saycheck.understanding.text import Reading, plain_words

# How many parts named before are weighed, and how many sentences back.
MOST, REACH = 3, 3
# Another part is meant above this probability; best F1 on the tuning narrations, writers left out.
ANOTHER_ABOVE = 0.42
# The same for what the encoder is asked.
POINTED_MOST, POINTED_REACH = 5, 4
# What the encoder counts beside the words that stand around.
MEANING_COUNTS = 0.5
PRONOUNS = frozenset(
    "it it's its that that's this they they're them those these he he's she she's one ones there there's".split()
)
DETERMINERS = frozenset(
    "the a an my your this that these those its his her their every each no any some".split()
)
# How far off a part is taken to be that no words name.
UNNAMED_APART = 60
NEAR, FAR = (2, 4, 7, 12, 20), "far"


@dataclass(frozen=True)
class Named:
    """A part as it was named: the subject, its sentence, the words before and behind its name."""

    subject: Subject
    sentence: int
    determiner: str
    before: str
    behind: str
    opens: bool


@dataclass(frozen=True)
class Choice:
    """A part that a statement may be about, as the encoder is asked: the words ``start`` to ``end`` (half-open) that
    name it, -1 where none do, and what else is ``told`` of it, a number for each of ``TOLD``.
    """

    TOLD: ClassVar[tuple[str, ...]] = (
        "own", "carried", "pointer", "named", "ago", "rank", "far", "opens", "determiner", "sure",
    )  # fmt: skip

    subject: Subject
    start: int
    end: int
    told: tuple[float, ...]

    def counted_from(self, first: int) -> "Choice":
        """The same with its words counted from another one on."""
        return self if self.start < 0 else replace(self, start=self.start - first, end=self.end - first)


class Antecedents:
    """The parts named in a reading, to be asked which of them a statement is about."""

    def __init__(self, reading: Reading, statements: Sequence[Statement]) -> None:
        self.words = plain_words(reading)
        self.starts = [start for start, _ in reading.sentences]
        spoken: Sequence[Subject] = reading.data.get("spoken", ())
        self.named = [self.named_at(subject) for subject in spoken if subject.start >= 0]
        self.said: dict[tuple[int, int], set[int]] = {}
        for statement in statements:
            said = self.said.setdefault((statement.subject.start, statement.subject.end), set())
            said |= {claim.mention.start for claim in statement.claims}

    def named_at(self, subject: Subject) -> Named:
        """How a subject was named."""
        words = self.words
        sentence = bisect_right(self.starts, subject.start) - 1
        first = self.starts[sentence]
        at = subject.start - 1
        determiner = words[at] if at >= first and words[at] in DETERMINERS else "-"
        at -= determiner != "-"
        return Named(
            subject,
            sentence,
            determiner,
            words[at] if at >= first else "#",
            words[subject.end] if subject.end < len(words) else "#",
            at < first,
        )

    def own(self, statement: Statement) -> Named | None:
        """How the part of the statement was named last."""
        subject = statement.subject
        end = statement.end if subject.start >= 0 else statement.start
        same = (n for n in reversed(self.named) if n.subject.start < end and alike(n.subject, subject))
        return next(same, None)

    def others(self, statement: Statement, most: int = MOST, reach: int = REACH) -> list[Named]:
        """The parts named before the statement that it may be about instead, the last named first; at most so many,
        within so many sentences.
        """
        subject = statement.subject
        end = subject.start if subject.start >= 0 else statement.start
        found: list[Named] = []
        for named in reversed(self.named):
            if named.subject.start >= end:
                continue
            if statement.sentence - named.sentence > reach or len(found) == most:
                break
            known = any(alike(named.subject, s) for s in (subject, *(f.subject for f in found)))
            if not known and not self.is_listed_with(named, statement):
                found.append(named)
        return found

    def is_listed_with(self, named: Named, statement: Statement) -> bool:
        """Whether the same words are said of the part as well: "hoses, pins and clips all good"."""
        said = self.said.get((named.subject.start, named.subject.end), set())
        return any(claim.mention.start in said for claim in statement.claims)

    def choices(self, statement: Statement) -> list[tuple[Named, list[str]]]:
        """Each of the others with the features of "the statement is about it"."""
        others = self.others(statement)
        own = self.own(statement) if others else None
        return [(other, self.features(statement, own, other, rank)) for rank, other in enumerate(others)]

    def pointed(self, statement: Statement) -> list[Choice]:
        """What the encoder is asked: the statement's own part first, then the others."""
        own = self.own(statement)
        others = self.others(statement, POINTED_MOST, POINTED_REACH)
        return [
            self.choice(statement, own, 0),
            *(self.choice(statement, other, rank) for rank, other in enumerate(others, 1)),
        ]

    def choice(self, statement: Statement, named: Named | None, rank: int) -> Choice:
        """The part as it was named for the encoder; the ``rank`` of the statement's own is 0."""
        subject = statement.subject if rank == 0 or named is None else named.subject
        kind = kind_of(statement.subject)
        place = subject if subject.start >= 0 or named is None else named.subject
        start, end = (place.start, place.end) if place.start >= 0 else (-1, -1)
        ago = min(statement.sentence - named.sentence, POINTED_REACH) if named else POINTED_REACH
        apart = abs(statement.start - named.subject.end) if named else UNNAMED_APART
        told = (
            rank == 0, kind == "carried", kind == "pointer", kind == "named", ago / POINTED_REACH,
            rank / POINTED_MOST, log1p(apart) / 4, named is not None and named.opens,
            named is not None and named.determiner != "-", named.subject.sure if named else 0.0,
        )  # fmt: skip
        return Choice(subject, start, end, tuple(map(float, told)))

    def features(self, statement: Statement, own: Named | None, other: Named, rank: int) -> list[str]:
        """Names of the binary features of "the statement is about ``other``", the ``rank``-th of the others.

        ``own`` is its part as it was named last.
        """
        subject, words = statement.subject, self.words
        kind = kind_of(subject)
        ago = min(statement.sentence - other.sentence, REACH)
        said = (other.subject.start, other.subject.end) in self.said
        head, heading = head_of(subject), head_of(other.subject)
        first = words[statement.start] if statement.start < len(words) else "#"
        pronouns = [w for w in words[statement.start : statement.end] if w in PRONOUNS][:2]
        conditions = (
            [f"{c.said.condition.name}/{c.denied}" for c in statement.claims]
            or [f"qty {q.quantity}" for q, _ in statement.quantities]
            or ["none"]
        )
        listed = subject.part.part is not None and not subject.part.component
        found = other.subject.part.part is not None and not other.subject.part.component
        place = f"{own.before if own else '-'} {own.determiner if own else '-'}"
        out = [
            f"kind={kind}", f"kind={kind}/{ago}/{rank}/{said}", f"kind={kind}/{listed}/{found}",
            f"head={head}", f"head={head}/{kind}", f"other={heading}", f"other={heading}/{ago}",
            f"both={head}/{heading}",
            f"place={place}", f"before={own.before if own else '-'}", f"det={own.determiner if own else '-'}",
            f"place={place}/{kind}/{ago}",
            f"opens={own.opens if own else '-'}/{kind}", f"behind={own.behind if own else '-'}/{kind}",
            f"at={other.before} {other.determiner}", f"at={other.opens}/{other.behind}/{said}", f"said={said}/{ago}",
            f"obefore={other.before}", f"odet={other.determiner}", f"obehind={other.behind}",
            f"far={far(statement.start - other.subject.end)}/{kind}", f"first={first}", f"first={first}/{kind}/{ago}",
            f"plural={subject.plural}/{other.subject.plural}", f"sure={int(subject.sure * 10)}/{kind}",
            f"osure={int(other.subject.sure * 10)}", f"listed={listed}/{found}/{ago}/{said}",
            f"zone={subject.part.zone == other.subject.part.zone}", f"under={bool(subject.under)}/{rank}",
            f"ago={ago}/{own is not None and statement.sentence - own.sentence}/{kind}",
        ]  # fmt: skip
        for pronoun in pronouns:
            out += [f"pro={pronoun}/{subject.plural}/{other.subject.plural}", f"pro={pronoun}/{kind}/{ago}"]
        for condition in conditions:
            out += [f"c={condition}/{head}", f"oc={condition}/{heading}", f"c={condition}/{kind}"]
            out += [f"lc={condition}/{like(subject)}", f"olc={condition}/{like(other.subject)}"]
        out += [f"mark={m}/{kind}" for m in statement.marks]
        out += [f"w={w}" for w in words[statement.start : statement.end]]
        return out


def kind_of(subject: Subject) -> str:
    """How a statement comes by its part: no word names it, a word points at it, or it is named."""
    return "carried" if subject.start < 0 else "pointer" if subject.carried else "named"


Question = tuple[range, Sequence[Choice]]
"""The words of a statement and the parts that they may be about, its own first."""


def likelihoods(made: Read, questions: Sequence[Question]) -> list[Array]:
    """Of each question how likely each of its choices is meant, all together 1."""
    said, named, read, there = [], [], [], []
    for words, choices in questions:
        first = min([words.start, *(choice.start for choice in choices if choice.start >= 0)])
        number = made.around(first, words.stop)
        begins = made.stretches[number][0]
        said += [(number, words.start, words.stop)] * len(choices)
        for i, choice in enumerate(choices):
            is_read = choice.start >= begins and choice.start >= 0
            read.append(is_read)
            # Its own part is always one of them; where the name was not read together with it, as one unnamed.
            there.append(i == 0 or is_read)
            named.append((number, choice.start, choice.end) if is_read else said[-1])
    statements = made.means(said)
    names = np.where(np.array(read)[:, None], made.means(named), made.heads["unnamed"])
    told = np.array([choice.told for _, choices in questions for choice in choices], np.float32)
    asked = np.concatenate([statements, names, statements * names, told], axis=1)
    scores = made.scores(asked, "asked", "answer")[:, 0]
    scores = np.where(there, scores, -np.inf).astype(np.float32)
    ends = np.cumsum([len(choices) for _, choices in questions])[:-1]
    return [shared(some) for some in np.split(scores, ends)]


def alike(one: Subject, other: Subject) -> bool:
    """Whether two subjects are one part by name."""
    return one.part.name == other.part.name


def head_of(subject: Subject) -> str:
    """The last word that a part is named by, in the singular."""
    spoken = subject.spoken.lower().split()
    return singular(spoken[-1]) if spoken else "-"


def like(subject: Subject) -> str:
    """What a listed part is one of."""
    return (subject.part.part.like or subject.part.part.name) if subject.part.part else "-"


def far(distance: int) -> str:
    """A distance in tokens, in steps."""
    return next((str(step) for step in NEAR if distance <= step), FAR)


def moved(statement: Statement, there: Subject) -> Subject:
    """The other part as the subject of the statement, which does not name it."""
    subject = statement.subject
    side = subject.side if subject.told_side else there.side
    return replace(carried_on(there), side=side, told_side=subject.told_side)


class Meant:
    """Says which other part a statement is about, and how likely that is, by whichever models were trained."""

    def __init__(self, reading: Reading, statements: Sequence[Statement]) -> None:
        self.known = Antecedents(reading, statements)
        self.model = trained("antecedents")
        self.meaning = self.by_meaning(reading, statements)

    def likeliest(self, statement: Statement) -> tuple[float, Subject | None]:
        """The likeliest other part, None where there is none, and how likely it is meant."""
        said, meaning = self.by_words(statement), self.meaning.get(id(statement), {})
        counts = MEANING_COUNTS if meaning else 0
        rated = {
            at: (1 - counts) * said.get(at, 0) + counts * meaning.get(at, 0) for at in {**said, **meaning}
        }
        if not rated:
            return 0.0, None
        best = max(rated, key=lambda at: rated[at])
        return rated[best], next(n.subject for n in self.known.named if n.subject.start == best)

    def by_words(self, statement: Statement) -> dict[int, float]:
        """How likely each other part is meant by the words that stand around, by the token where its name begins."""
        if self.model is None:
            return {}
        choices = self.known.choices(statement)
        return {o.subject.start: self.model.shares(features)["another"] for o, features in choices}

    def by_meaning(self, reading: Reading, statements: Sequence[Statement]) -> dict[int, dict[int, float]]:
        """The same by what the words mean where they stand, of all statements, by the identity of each."""
        made = encoder.read(reading)
        if made is None:
            return {}
        asked = {id(s): (range(s.start, s.end), self.known.pointed(s)) for s in statements if s.start < s.end}
        asked = {one: question for one, question in asked.items() if len(question[1]) > 1}
        if not asked:
            return {}
        return {
            one: {c.subject.start: float(share) for c, share in zip(choices[1:], shares[1:], strict=True)}
            for (one, (_, choices)), shares in zip(
                asked.items(), likelihoods(made, [*asked.values()]), strict=True
            )
        }


def settle(reading: Reading, statements: Sequence[Statement]) -> None:
    """Give each statement that is about a part named before, not about the one beside it, that part."""
    meant = Meant(reading, statements)
    for statement in statements:
        if statement.copied_from is not None:
            continue
        share, other = meant.likeliest(statement)
        if other is not None and share > ANOTHER_ABOVE:
            statement.subject = moved(statement, other)
