"""What a statement is: one thing said about one part, before it is judged."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from saycheck.models.walk import State
from saycheck.understanding.conditions import Said
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.resolve import Resolved
from saycheck.understanding.text import Mention, Reading

Made = TypeVar("Made")


@dataclass
class Subject:
    """The part a statement is about, and the tokens that name it (-1 where none do).

    ``side`` is left, right, both or None; ``told_side`` whether it was said with the part. ``carried``
    tells that the part was named earlier, ``count`` how many are meant and where that was said, ``sure``
    how likely its words name a part (1 where no model has told), ``under`` the heading that it was named under
    ("quick hitch" of "quick hitch, the pin's in"), ``owner`` how the part was called that it is one of, where it was
    named before ("tilt rams" of "tilt rams are dry. Rods clean").
    """

    part: Resolved
    side: str | None
    start: int
    end: int
    plural: bool = False
    carried: bool = False
    count: tuple[int, Mention] | None = None
    told_side: bool = False
    spoken: str = ""
    sure: float = 1.0
    under: str = ""
    owner: str = ""


@dataclass(frozen=True)
class Stood:
    """Where the walker stood as something was said: the ``side`` (left, right or None) and ``how`` it is known:
    told, shown by a part, left (they went where there is no side) or never said; ``ago`` counts the sentences since.
    """

    side: str | None = None
    how: str = "never"
    ago: int = 99


@dataclass(frozen=True)
class Claim:
    """A condition with how it was said: denied or not, made little or much of."""

    said: Said
    mention: Mention
    denied: bool = False
    degree: str | None = None


@dataclass
class Statement:
    """One thing said about one part, in tokens ``start`` to ``end`` (half-open) of a sentence.

    ``marks`` tell how it is meant: hidden, later, keep-an-eye, needs-work; absent or has (a part that is
    not there or is); same, exception, side-corrected; unworded where no table knows what is said; read where only
    the encoder sees that something is said.
    ``held`` is what its measurement is beside a limit that was told with it ("max is two"), None where none was.
    ``taken_back`` holds the words that take it back, ``copied_from`` what "same again" repeats, ``stood`` where
    the walker stood.
    """

    subject: Subject
    sentence: int
    start: int
    end: int
    claims: list[Claim] = field(default_factory=list)
    quantities: list[tuple[Quantity, Mention]] = field(default_factory=list)
    marks: set[str] = field(default_factory=set)
    count: tuple[int, Mention] | None = None
    taken_back: str | None = None
    copied_from: "Statement | None" = None
    stood: Stood = Stood()
    held: State | None = None

    def stretch(self, start: int, end: int) -> None:
        """Take in the tokens ``start`` to ``end`` as well."""
        self.start, self.end = min(self.start, start), max(self.end, end)


def region_end(reading: Reading, statement: Statement, others: Sequence[Statement]) -> int:
    """Where the words that can belong to the statement end: the next statement or the sentence."""
    _, end = reading.sentences[statement.sentence]
    later = [s.start for s in others if s.sentence == statement.sentence and s.start >= statement.end]
    return min([end, *later])


def says_fault(statement: Statement) -> bool:
    """Whether a fault is said of the part and not denied."""
    return any(c.said.condition.form == "fault" and not c.denied for c in statement.claims)


def made_once(
    reading: Reading,
    what: str,
    statement: Statement,
    others: Sequence[Statement],
    make: Callable[[], Iterable[Made]],
) -> Made:
    """Of ``what`` is made for all statements of a walk at once, that of one; kept on ``reading.data``."""
    made: dict[int, Made] = reading.data.get(what, {})
    if id(statement) not in made:
        made = {id(s): one for s, one in zip(others, make(), strict=True)}
        reading.data[what] = made
    return made[id(statement)]
