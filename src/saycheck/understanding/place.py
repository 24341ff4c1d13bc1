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
    " forward forwards forrard backward backwards toward towards heading across unit"
    " i've we've i'll we'll i'd we'd gone been come came went go walked"
    ' machine her his " “ ”'.split()
)
# "Left" after these is what remains.
REMAINS = frozenset(
    "much life meat plenty lots half inch mm mil tread what's it's quarter eighths sixteenths bit percent more"
    " some is that's nothing loads any none enough few six five four three two one eighth sixteenth been are"
    " there's were was inches millimetres cent".split()
)
# Before "of ... left" these tell how much.
AMOUNTS = frozenset(
    "inch inches mil mm millimetre millimetres plenty lot lots half quarter eighth eighths bit much".split()
)
# Who "left" something: "I left it for Monday", "somebody's left a bolt in it".
LEAVES = frozenset(
    "i we you they he she who somebody someone nobody i've we've you've they've i'd we'd they'd".split()
)
SOMEONE = frozenset("somebody someone nobody who".split())
# What they left, or until when; behind "I've" it need not be told.
LEFT_WHAT = frozenset(
    "it them 'em that the a his her my your their some for till until while out off".split()
)
# "Right" after these is what is correct, and before those is no side.
CORRECT = frozenset(
    "all sits that's sitting is looks quite it's put not just closes set be being was were you're they're".split()
)
# "That's right", "she's right": with "is" behind them.
IS_CORRECT = frozenset("that it she he all everything".split())
# "Coolant's right.", "the levels are right": of a thing, at the end of its clause; "the wet one's right" is a side.
IS, WHICH_ONE, ENDS_CLAUSE = frozenset(["'s", "is", "are"]), frozenset(["one", "ones"]), frozenset(".,;!")
NOT_SIDE_BEFORE = frozenset(
    "through on down up away then now there in out round so where over off into along across behind as to"
    " under back before at above below next good here there for by enough behind between across around".split()
)
# "Left" and "right" after these are sides.
SIDE_AFTER = frozenset("the on front rear back upper lower".split())
# Before these they are sides.
SIDE_BEHIND = frozenset("hand side front rear back one".split())
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
BETWEEN_CLAUSES = frozenset(".,:;!?…")
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
    said = words[at - 2] if at > 1 else ""
    if word in LEFT:
        if word != "left" or before in SIDE_AFTER or after in SIDE_BEHIND:
            return "left"
        return None if remains(words, at) or is_leaving(words, at) else "left"
    if word in RIGHT:
        if word != "right":
            return "right"
        if before in CORRECT or (before == "'s" and said in IS_CORRECT and after not in SIDE_BEHIND):
            return None
        if before in IS and said not in WHICH_ONE and after in ENDS_CLAUSE:
            return None
        if before in SIDE_AFTER or before == "left":
            return "right"
        opens = after in (",", "…", "...") and (before or ".") in BETWEEN_CLAUSES
        if opens and contrasts(words, at):
            return "right"
        return None if opens or after in NOT_SIDE_BEFORE else "right"
    return None


def remains(words: Sequence[str], at: int) -> bool:
    """Whether "left" is what remains: "half an inch left", "thirty mil of bar left", "what's left"."""
    before = list(words[max(0, at - 3) : at])
    if before[-1:] == ["'s"] and before[-2:-1] in (["what"], ["there"]):
        return True
    return before[-1:] != [] and (before[-1] in REMAINS or (before[1:2] == ["of"] and before[0] in AMOUNTS))


def is_leaving(words: Sequence[str], at: int) -> bool:
    """Whether someone left something: "I left it open", "somebody's left a bolt in it", "which I've left"."""
    before, after = words[at - 1] if at else "", words[at + 1] if at + 1 < len(words) else ""
    if before == "'s" and at > 1:
        return words[at - 2] in SOMEONE
    return before in LEAVES and (before.endswith("'ve") or after in LEFT_WHAT)


def is_comparison(words: Sequence[str], at: int) -> bool:
    """ "Same as the left": that side is what is compared with, not where the part is."""
    return bool(COMPARES & set(words[max(0, at - 3) : at]))


def contrasts(words: Sequence[str], at: int) -> bool:
    """Whether "left" was the last side said, not long ago: then "Right, ..." is the other one."""
    near = words[max(0, at - CONTRAST_WORDS) : at]
    last = next((w for w in reversed(near) if w in LEFT or w in RIGHT), None)
    return last in LEFT


def opens_talk(words: Sequence[str], at: int) -> bool:
    """Whether "right" tells no side but begins to speak: "Right, here we go", "Right." where no left was before it."""
    before, after = words[at - 1] if at else ".", words[at + 1] if at + 1 < len(words) else "."
    if words[at] != "right" or before not in BETWEEN_CLAUSES or after not in BETWEEN_CLAUSES:
        return False
    if after == ",":
        return not contrasts(words, at)
    last = next((w for w in reversed(words[:at]) if w in LEFT or w in RIGHT), None)
    return last not in LEFT


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
        at = 0
        while at < len(words):
            if opens_talk(reading.all_words, start + at):
                at += 1
                continue
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
                return None, None
            at += 1
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
            if side and (self.is_place(words, at) or self.is_way(words, at)):
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
        if side is None or is_comparison(words[start:at], at - start):
            return None
        behind = at + 1
        while behind < end and words[behind] in ("-", "hand", "side"):
            behind += 1
        sided = "side" in words[at + 1 : behind]
        before = words[max(start, at - 5) : at]
        if {"was", "were"} & set(before[-2:]):
            return None  # "I said dry, that was the nearside": the walker speaks of before
        ahead = words[behind] if behind < end else ""
        if before[-3:] == ["this", "is", "the"]:
            return side, ahead in CLAUSE_BEGINS
        if before[-4:-2] == ["this", "side"] or before[-3:-1] == ["this", "side"]:
            return side, not set(before[-2:]) - {",", "the", "-"}
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

    def is_way(self, words: Sequence[str], at: int) -> bool:
        """Whether a side word names the way that a sentence begins with: "down the left tandem", "offside of the
        trailer, tyres are good".
        """
        if at > 1 and words[at - 1] == "the" and words[at - 2] in ALONG:
            return self.leads(words, at - 2)
        of_it = words[at + 1 : at + 3] == ["of", "the"] and words[at + 4 : at + 5] == [","]
        return of_it and self.leads(words, at)

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
