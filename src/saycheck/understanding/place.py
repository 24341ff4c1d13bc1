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

# How far back "left" may stand for a "Right, ..." to be its other side, in words.
CONTRAST_WORDS = 14
OPPOSITE = frozenset(["other", "far", "opposite"])
OTHER = {"left": "right", "right": "left"}
MOVES = frozenset(
    "coming come going go moving move round around over down along up on at to now onto into in starting"
    " start walking walk back next working same".split()
)
SMALL_WORDS = frozenset(
    "the a an and so okay ok right then now we i i'm we're let's on to at in of it it's here there this that"
    " up down"
    " coming going moving round around over along start starting with next , . ; : - — – ! … back side hand"
    " all alright well into onto from out side's walking let us have look get me first finally last end"
    ' machine her his " “ ”'.split()
)
# "Left" after these is what remains.
REMAINS = frozenset(
    "much life meat plenty lots half inch mm mil tread what's it's quarter eighths sixteenths bit percent more"
    " some is that's nothing loads any none enough few six five four three two one eighth sixteenth been are"
    " there's were".split()
)
# "Right" after these is what is correct, and before those is no side.
CORRECT = frozenset("all sits that's sitting is looks quite it's put not just closes set".split())
NOT_SIDE_BEFORE = frozenset(
    "through on down up away then now there in out round so where over off into along across behind as to"
    " under back before at above below next good here there for by enough behind".split()
)
# "Left" and "right" after these are sides.
SIDE_AFTER = frozenset("the on front rear back upper lower".split())
LEADS_TO_ZONE = frozenset("round around to into in under up at behind on inside".split())
WE_ARE = frozenset("i'm we're am are standing stood".split())
WENT = frozenset("down up round around along over going coming standing onto".split())
GOES = frozenset(
    "coming come going go goin moving move walking walk walkin working work heading carry carrying over next".split()
)
ALONG = frozenset("down up along round around".split())
CLAUSE_BEGINS = frozenset(
    ["", ".", ",", ";", ":", "!", "?", "…", "now", "and", "so", "then", "first", "next"]
)
# Before "left side" these tell where something is, not where the walker goes.
LIES = frozenset("on of this that its his her at from to in off same opposite other".split())
COMPARES = frozenset(["as", "than", "like"])


@dataclass
class Where:
    """The walker's place as understood so far. ``side`` is left, right or None."""

    zone: str
    side: str | None = None
    told: bool = False


def is_side_word(words: Sequence[str], at: int) -> str | None:
    """left or right where the word at ``at`` is a side, else None."""
    word = words[at]
    before = words[at - 1] if at else ""
    after = words[at + 1] if at + 1 < len(words) else ""
    if word in LEFT:
        remains = word == "left" and before not in SIDE_AFTER and before in REMAINS
        return None if remains else "left"
    if word in RIGHT:
        if word != "right":
            return "right"
        if before in CORRECT:
            return None
        if before in SIDE_AFTER or before == "left":
            return "right"
        opens = after in (",", "…", "...") and before in ("", ".", "!", "?", "…", ":", ";", ",")
        if opens and contrasts(words, at):
            return "right"
        return None if opens or after in NOT_SIDE_BEFORE else "right"
    return None


def contrasts(words: Sequence[str], at: int) -> bool:
    """Whether "left" was the last side said, not long ago: then "Right, ..." is the other one."""
    near = words[max(0, at - CONTRAST_WORDS) : at]
    last = next((w for w in reversed(near) if w in LEFT or w in RIGHT), None)
    return last in LEFT


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
                # The first place counts: "nearside, working back"; "left side, the cab side" is no cab.
                stands = self.side_of[hit[1][0]]
                of_side = words[hit[0] : hit[0] + 1] == ["side"] and stands == "none"
                if zone and side is None and stands != "none":
                    side = stands
                zone = zone if zone or side or of_side else hit[1][0]
                at = hit[0]
                continue
            if words[at] in OPPOSITE and words[at + 1 : at + 2] in (["side"], ["end"], ["hand"]):
                side = "other"
                at += 2
                continue
            if is_side_word(words, at):
                side = is_side_word(words, at)
            elif words[at] not in SMALL_WORDS and words[at] not in MOVES:
                rest.append(words[at])
            at += 1
        if rest or (zone is None and side is None):
            return None, None
        return zone, side

    def moves(self, reading: Reading, start: int, end: int) -> tuple[str | None, str | None, int]:
        """(zone, side, token) of a move in a sentence ("down the left side ...", "nearside then")."""
        words = reading.words(start, end)
        for at in range(len(words)):
            if at + 1 < len(words) and words[at] in OPPOSITE and words[at + 1] in ("side", "hand"):
                if self.leads(words, at):
                    return None, "other", start + at
                continue
            side = is_side_word(words, at)
            if side and self.is_place(words, at):
                return None, side, start + at
            if words[at] in LEADS_TO_ZONE and all(w in SMALL_WORDS for w in words[:at]):
                hit = self.table.longest(words, at) or self.table.longest(words, at + 1)
                if hit and hit[0] < len(words):
                    return hit[1][0], None, start + at
        return None, None, end

    def passing(self, reading: Reading, at: int, start: int, end: int) -> tuple[str, bool] | None:
        """The side that the word at ``at`` of a sentence names, and whether the walker is told to be there.

        None where it names none, or only one to compare with ("same as the left").
        """
        words = reading.all_words
        side = is_side_word(words, at)
        if side is None or COMPARES & set(words[max(start, at - 3) : at]):
            return None
        behind = at + 1
        while behind < end and words[behind] in ("-", "hand", "side"):
            behind += 1
        sided = "side" in words[at + 1 : behind]
        before = words[max(start, at - 5) : at]
        ahead = words[behind] if behind < end else ""
        if before[-3:] == ["this", "is", "the"]:
            return side, ahead in CLAUSE_BEGINS
        along = before[-1:] == ["the"] and set(before[-3:-1]) & ALONG
        if along and (GOES & set(before) or self.leads(words[start:at], at - start)):
            return side, ahead != "of"
        if sided and before[-1:] and before[-1] in LIES:
            return side, False
        if sided and ahead in ("now", "then", "first", "next", "come"):
            return side, True
        if sided and not any(m.end == at for m in reading.of("part")):
            return side, any(m.start == behind for m in reading.of("part"))
        return side, False

    def leads(self, words: Sequence[str], at: int) -> bool:
        """Whether only small words and words of moving stand before."""
        return all(w in SMALL_WORDS or w in MOVES for w in words[:at])

    def is_place(self, words: Sequence[str], at: int) -> bool:
        """Whether a side word names where the walker goes, not a part's side."""
        after = [w for w in words[at + 1 : at + 4] if w not in ("-", "hand")]
        sided = after[:1] in (["side"], ["side's"])
        moved = any(w in WENT for w in words[max(0, at - 5) : at])
        behind = next(iter(after[1:2] if sided else after[:1]), "")
        if sided:
            opens = at <= 6 and self.leads(words, at) and behind not in ("of", "is", "has", "had", "one")
            if moved or opens:
                return True
        if words[max(0, at - 2) : at] == ["on", "the"] and set(words[max(0, at - 5) : at - 2]) & WE_ARE:
            return behind in ("", ".", ",", "now", "and", "so", ";")
        if words[at] not in ("nearside", "offside"):
            return False
        return moved or (at <= 1 and behind in ("now", "then", "first", "next", "working", "again"))
