"""What a statement is: one thing said about one part, before it is judged."""

from dataclasses import dataclass, field

from saycheck.understanding.conditions import Said
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.resolve import Resolved
from saycheck.understanding.text import Mention


@dataclass
class Subject:
    """The part a statement is about, and the tokens that name it (none where it is carried over)."""

    part: Resolved
    side: str | None
    start: int
    end: int
    plural: bool = False
    carried: bool = False
    count: tuple[int, Mention] | None = None
    told_side: bool = False
    spoken: str = ""


@dataclass(frozen=True)
class Claim:
    """A condition with how it was said: denied or not, made little or much of."""

    said: Said
    mention: Mention
    denied: bool = False
    degree: str | None = None


@dataclass
class Statement:
    """One thing said about one part. Token ranges are half-open; ``marks`` holds hidden, later,
    keep-an-eye, needs-work, same, reading."""

    subject: Subject
    sentence: int
    start: int
    end: int
    claims: list[Claim] = field(default_factory=list)
    quantities: list[tuple[Quantity, Mention]] = field(default_factory=list)
    marks: set[str] = field(default_factory=set)
    context: dict[str, str] = field(default_factory=dict)
    count: tuple[int, Mention] | None = None
    taken_back: str | None = None
    copied_from: "Statement | None" = None
    zone: str = ""

    def stretch(self, start: int, end: int) -> None:
        self.start, self.end = min(self.start, start), max(self.end, end)
