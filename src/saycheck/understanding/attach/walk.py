"""The state carried along while one transcript is read, and the state of the sentence at hand."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from saycheck.understanding.conditions import Said
from saycheck.understanding.place import OTHER, Places, Where
from saycheck.understanding.resolve import Resolver
from saycheck.understanding.statements import Statement, Stood, Subject
from saycheck.understanding.text import Mention, Reading
from saycheck.vocabulary.schema import Clue

# The number of a sentence too far back for anything to reach.
LONG_AGO = -99


@dataclass(frozen=True)
class Rules:
    """What holds for every walk round one machine kind.

    ``stuff`` are nouns such as "oil" or "mud"; ``clues`` tell parts of one name apart.
    """

    resolver: Resolver
    places: Places
    stuff: dict[str, Said]
    clues: Sequence[Clue] = ()


@dataclass(frozen=True)
class WalkerSide:
    """The side the walker is on, as of ``sentence`` (its number). ``told`` by a move; else shown by a part."""

    side: str | None = None
    told: bool = False
    sentence: int = LONG_AGO


@dataclass
class Sentence:
    """One sentence while its events are gone through. ``start`` and ``end`` are tokens, half-open.

    ``group`` are the parts that are spoken of; while it is ``open`` no condition has closed it. What came
    before its part is ``waiting``. ``made`` are the statements so far. ``same``, ``excepting`` and
    ``correcting`` are the cues met, ``count`` a number of things whose name is still to come.
    """

    number: int
    start: int
    end: int
    events: list[Mention]
    moved: bool = False
    group: list[Subject] = field(default_factory=list)
    open: bool = False
    waiting: list[Mention] = field(default_factory=list)
    made: list[Statement] = field(default_factory=list)
    same: Mention | None = None
    excepting: Mention | None = None
    correcting: Mention | None = None
    count: tuple[int, Mention] | None = None

    def current(self, subject: Subject) -> Statement | None:
        """The last statement of this sentence about the subject: further words may join it."""
        return next((s for s in reversed(self.made) if s.subject is subject), None)

    def new(self, subject: Subject) -> Statement:
        """A new statement about the subject; where no token names it, its range is still to be stretched."""
        start, end = (subject.start, subject.end) if subject.start >= 0 else (self.end, self.start)
        statement = Statement(subject, self.number, start, end)
        self.made.append(statement)
        return statement

    def about(self, subject: Subject) -> Statement:
        """The statement of this sentence about the subject, a new one where there is none."""
        return self.current(subject) or self.new(subject)


class Walk:
    """What is remembered from sentence to sentence; ``now`` is the sentence at hand.

    ``where`` is the place the walker went to, ``side`` the side they are on as far as that shows, ``last_side``
    the side they last went to, ``named`` the one that a part was last named with. ``focus`` is the part last
    spoken of, in the sentence ``focus_sentence``, ``last_group`` the parts of the last sentence that had any.
    ``orphans`` belong to no part that could be told; ``taken`` are token ranges of numbers put right. ``spoken``
    are all parts named so far.
    """

    def __init__(self, rules: Rules, reading: Reading) -> None:
        self.rules = rules
        self.reading = reading
        self.words = reading.all_words
        self.where = Where(rules.places.zones[0].name if rules.places.zones else "")
        self.side = WalkerSide()
        self.last_side: str | None = None
        self.named = WalkerSide()
        self.focus: Subject | None = None
        self.focus_sentence = LONG_AGO
        self.last_group: list[Subject] = []
        self.spoken: list[Subject] = []
        self.statements: list[Statement] = []
        self.orphans: list[Mention] = []
        self.taken: list[tuple[int, int]] = []
        self.now = Sentence(-1, 0, 0, [])

    def move(self, zone: str | None, side: str | None) -> None:
        """Take note that the walker goes to another place; side "other" turns round."""
        if side == "other":
            side = OTHER.get(self.where.side or self.last_side or self.named.side or "")
        if zone and side is None:
            side = self.rules.places.side_of.get(zone, "none")
            side = None if side == "none" else side
        if side and not zone:
            zone = next((z.name for z in self.rules.places.zones if z.side == side), self.where.zone)
        self.where = Where(zone or self.where.zone, side, told=True)
        self.side = WalkerSide(side, told=True, sentence=self.now.number)
        self.last_side = side or self.last_side

    def stood(self) -> Stood:
        """Where the walker stands now; where that is on no side, the side they last went to or spoke of."""
        ago = self.now.number - self.side.sentence
        if self.side.side:
            return Stood(self.side.side, "told" if self.side.told else "shown", ago)
        if self.last_side:
            return Stood(self.last_side, "left", ago)
        return (
            Stood(self.named.side, "shown", self.now.number - self.named.sentence)
            if self.named.side
            else Stood()
        )

    @property
    def focus_ago(self) -> int:
        """How many sentences ago the part in focus was last spoken of, 0 in this one."""
        return self.now.number - self.focus_sentence

    def remember(self, subject: Subject) -> None:
        """Make the subject the one that later words without a part are about."""
        self.focus, self.focus_sentence = subject, self.now.number

    def gap(self, before: Mention | None, behind: Mention | None) -> list[str]:
        """The words between two mentions; none where one of them is missing."""
        return self.words[before.end : behind.start] if before and behind else []
