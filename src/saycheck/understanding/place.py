"""Where the walker stands: zone and side, carried along as the walk goes on.

A place is told ("coming round the back", "on the left side"), or shows from a part that stands in one
zone only. "Other side" turns the side round. A word like "left" is a side only where it can be one:
"what's left" and "right then" are not.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from saycheck.understanding.parts import LEFT, RIGHT
from saycheck.understanding.phrases import PhraseTable
from saycheck.understanding.text import Reading
from saycheck.vocabulary.compiled import Vocabulary

OTHER = {"left": "right", "right": "left"}
MOVES = frozenset(
    "coming come going go moving move round around over down along up on at to now onto into in starting start"
    " walking walk back next working same".split()
)
SMALL_WORDS = frozenset(
    "the a an and so okay ok right then now we i i'm we're let's on to at in of it it's here there this that up down"
    " coming going moving round around over along start starting with next , . ; : - — – ! … back side hand all alright"
    " well into onto from out side's walking start let us have a look get me first finally last end machine her his".split()
)
# "left" after these is what remains; "right" before these is no side.
REMAINS = frozenset(
    "much life meat plenty lots half inch mm mil tread what's it's quarter eighths sixteenths bit percent more some is that's nothing loads any none enough few six five four three two one eighth sixteenth been are there's were".split()
)
NOT_SIDE_AFTER = frozenset(
    "through on down up away then now there in out round so where over off into along across behind as to under back before at above below in next good".split()
)
NOUNISH = frozenset("side hand one ones front rear hand-side lower upper".split())


@dataclass
class Where:
    """The walker's place as understood so far. ``side`` is left, right or None."""

    zone: str
    side: str | None = None
    told: bool = False


def is_side_word(words: Sequence[str], at: int, ends_here: frozenset[int] = frozenset()) -> str | None:
    """left or right where the word at ``at`` is a side, else None."""
    word = words[at]
    before = words[at - 1] if at else ""
    after = words[at + 1] if at + 1 < len(words) else ""
    if word in LEFT:
        if word != "left" or before in ("the", "on", "front", "rear", "back", "upper", "lower"):
            return "left"
        return None if before in REMAINS or (at in ends_here) else "left"
    if word in RIGHT:
        if word != "right":
            return "right"
        if before in (
            "all",
            "sits",
            "that's",
            "sitting",
            "is",
            "looks",
            "quite",
            "it's",
            "put",
            "not",
            "just",
            "closes",
            "set",
        ):
            return None
        if before in ("the", "on", "front", "rear", "back", "upper", "lower", "left"):
            return "right"
        if after in NOT_SIDE_AFTER:
            return None
        if after == "," and before in ("", ".", "!", "?", "…"):
            return None
        return "right"
    return None


class Places:
    """Finds where a sentence says the walker is."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.zones = vocabulary.zones
        self.table: PhraseTable[str] = PhraseTable()
        for zone in vocabulary.zones:
            self.table.add_all(zone.sayings, zone.name)
            self.table.add_all([f"the {s}" for s in zone.sayings], zone.name)
        self.side_of = {z.name: z.side for z in vocabulary.zones}

    def heading(self, reading: Reading, start: int, end: int) -> tuple[str | None, str | None]:
        """(zone, side) where the tokens do nothing but say a place, else (None, None)."""
        words = reading.words(start, end)
        zone = side = None
        rest = []
        at = 0
        while at < len(words):
            hit = self.table.longest(words, at)
            if hit:
                zone = hit[1][0]
                at = hit[0]
                continue
            if words[at] == "other" and words[at + 1 : at + 2] in (["side"], ["end"]):
                side = "other"
                at += 2
                continue
            if is_side_word(words, at):
                side = is_side_word(words, at)
            elif words[at] not in SMALL_WORDS:
                rest.append(words[at])
            at += 1
        if rest or (zone is None and side is None):
            return None, None
        return zone, side

    def moves(self, reading: Reading, start: int, end: int) -> tuple[str | None, str | None, int]:
        """A move at the head of a sentence ("down the left side ...", "nearside then"): zone, side, end."""
        words = reading.words(start, end)
        for at in range(len(words)):
            if at + 1 < len(words) and words[at] == "other" and words[at + 1] in ("side", "hand"):
                if self.leads(words, at):
                    return None, "other", start + at + 2
                continue
            side = is_side_word(words, at)
            if side and self.is_place(words, at):
                return None, side, start + at + 1
            if words[at] in (
                "round",
                "around",
                "to",
                "into",
                "in",
                "under",
                "up",
                "at",
                "behind",
                "on",
                "inside",
            ):
                hit = self.table.longest(words, at) or self.table.longest(words, at + 1)
                lead_in = words[:at] == [] or all(w in SMALL_WORDS for w in words[:at])
                if hit and hit[0] < len(words) and lead_in:
                    return hit[1][0], None, start + hit[0]
        return None, None, start

    def leads(self, words: Sequence[str], at: int) -> bool:
        """Whether only small words and words of moving stand before."""
        return all(w in SMALL_WORDS or w in MOVES for w in words[:at])

    def is_place(self, words: Sequence[str], at: int) -> bool:
        """Whether a side word names where the walker goes, not a part's side."""
        after = [w for w in words[at + 1 : at + 4] if w not in ("-", "hand")]
        sided = after[:1] in (["side"], ["side's"])
        before = [w for w in words[max(0, at - 5) : at] if w not in ("the", "this", "my", "her")]
        moved = any(
            w in ("down", "up", "round", "around", "along", "over", "going", "coming", "standing", "onto")
            for w in before
        )
        closed = after[1:2] if sided else after[:1]
        marks = not closed or closed[0] in (",", ".", ":", ";", "now", "then", "and", "!", "…", "—")
        if sided and moved:
            return True
        if (
            sided
            and self.leads(words, at)
            and at <= 6
            and (marks or closed[0] not in ("of", "is", "has", "had", "one"))
        ):
            return True
        nearside = words[at] in ("nearside", "offside")
        return nearside and (
            moved
            or (
                at <= 1 and bool(closed) and closed[0] in ("now", "then", "first", "next", "working", "again")
            )
        )
