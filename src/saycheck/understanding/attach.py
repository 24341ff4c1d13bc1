"""Which condition and which number belongs to which part: walks through a sentence, event by event.

A part opens a group; parts in a list join it ("hoses, pins and retainers"); a condition behind closes
it and belongs to all of it. A condition before a part ("a loose bolt", "leak at the gland") waits for
it. What has no part in its own sentence goes to the part last spoken of.
"""

from dataclasses import replace

from saycheck.understanding.conditions import Said
from saycheck.understanding.denial import denied
from saycheck.understanding.events import Pointer, events
from saycheck.understanding.parts import ENDS, LEFT, RIGHT, PartName
from saycheck.understanding.place import OTHER, Places, Where, is_side_word
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.resolve import Resolved, Resolver
from saycheck.understanding.statements import Claim, Statement, Subject
from saycheck.understanding.text import Mention, Reading

PREPOSITIONS = frozenset(
    "on in at of from around round to under behind along through inside by near off across between for below above"
    " into onto up down with".split()
)
LIST_LINKS = frozenset([",", "and", "or", "plus", "&", "then", "nor"])
SMALL = frozenset(
    "the a an its it's this that these those his her their our both all each every any some one of side left right front"
    " rear back upper lower top bottom inner outer hand other same two three four".split()
)
BEFORE_ATTRIBUTE = frozenset(
    "a an some few couple two three four five six one no any got has have the with little bit".split()
)
FOCUS_SENTENCES = 3
MOST_COUNTED = 24
# For how many sentences a side named with a part still tells where the walker stands.
SIDE_SENTENCES = 8
COUNT_LINKS = frozenset(
    "of em them they all , and the is are 're 's 'em those these has have got were was been that which little small big loose".split()
)
ABSENT_WORDS = frozenset(["no", "a", "any"])
HAS_WORDS = frozenset(
    [
        "has",
        "have",
        "'s",
        "got",
        "had",
        "with",
        "its",
        "their",
        "it's",
        "a",
        "the",
        "all",
        "his",
        "her",
        "still",
        "both",
        "fresh",
        "new",
    ]
)
# Words that name stuff or a spot on the part before rather than a part, once a part is spoken of.
WEAK_WORDS = frozenset(
    "grease oil paint rubber glass cover wire thumb bar clay line hole mark hand screw stone nail water mud air bit".split()
)
WHERE_PREPOSITIONS = frozenset(
    "over behind under near along through by above below beside around round across between where".split()
)
POINTS_AT_ONE = frozenset(
    "this that the left right other front rear back top bottom upper lower inner outer middle first second third fourth last"
    " fifth sixth old new another which big little nearside offside lever no number good bad".split()
)
WHERE_WORDS = frozenset(["where", "when", "which", "that", "who", "near"])


class Attacher:
    """Goes through a reading once and leaves its statements, in order."""

    def __init__(self, resolver: Resolver, places: Places, stuff: dict[str, Said]) -> None:
        self.resolver = resolver
        self.places = places
        self.stuff = stuff

    def __call__(self, reading: Reading) -> list[Statement]:
        walk = Walk(self, reading)
        for number, (start, end) in enumerate(reading.sentences):
            walk.sentence(number, start, end)
        reading.data["places"] = walk.trail
        reading.data["orphans"] = walk.orphans
        reading.data["taken"] = walk.taken
        return walk.statements


class Walk:
    """The state carried along while one transcript is read."""

    def __init__(self, rules: Attacher, reading: Reading) -> None:
        self.rules = rules
        self.reading = reading
        self.words = [t.text for t in reading.tokens]
        self.where = Where(rules.places.zones[0].name if rules.places.zones else "")
        self.focus: Subject | None = None
        self.focus_sentence = -99
        self.last_group: list[Subject] = []
        self.side_now: str | None = None
        self.side_told_at = -99
        self.statements: list[Statement] = []
        self.trail: list[tuple[int, int, str | None, str | None]] = []
        self.orphans: list[Mention] = []
        self.taken: list[tuple[int, int]] = []

    # ---- one sentence

    def sentence(self, number: int, start: int, end: int) -> None:
        self.number = number
        zone, side = self.rules.places.heading(self.reading, start, end)
        if zone or side:
            self.move(zone, side, start, end)
            if not any(m for m in self.reading.of("condition") if start <= m.start < end):
                return
        zone, side, at = self.rules.places.moves(self.reading, start, end)
        self.moved = bool(zone or side)
        if zone or side:
            self.move(zone, side, start, at)
        self.group: list[Subject] = []
        self.open = False
        self.waiting: list[Mention] = []
        self.made: list[Statement] = []
        self.same: Mention | None = None
        self.excepting: Mention | None = None
        self.correcting: Mention | None = None
        self.count: tuple[int, Mention] | None = None
        self.events = events(self.reading, start, end)
        self.span = (start, end)
        previous: Mention | None = None
        for index, event in enumerate(self.events):
            following = self.events[index + 1] if index + 1 < len(self.events) else None
            getattr(self, f"on_{event.kind.replace('-', '_')}", self.on_mark)(event, previous, following)
            previous = event
        self.finish()

    def move(self, zone: str | None, side: str | None, start: int, end: int) -> None:
        """Take note that the walker goes to another place."""
        if side == "other":
            side = OTHER.get(self.where.side or "", None)
        if zone and side is None:
            side = self.rules.places.side_of.get(zone, "none")
            side = None if side == "none" else side
        if side and not zone:
            zone = next((z.name for z in self.rules.places.zones if z.side == side), self.where.zone)
        self.where = Where(zone or self.where.zone, side, told=True)
        self.side_now, self.side_told_at = side, 10**6
        self.trail.append((start, end, zone, side))

    # ---- parts

    def on_part(self, event: Mention, previous: Mention | None, following: Mention | None) -> None:
        name: PartName = self.with_end(event.value, event)
        if self.is_stuff(event, previous):
            claim = Mention("condition", event.start, event.end, self.rules.stuff[self.words[event.end - 1]])
            self.statement_for_all("condition", claim)
            return
        gap = self.words[previous.end : event.start] if previous else []
        if self.is_weak(name, event):
            return
        if self.waiting:
            subject = self.subject(name, event)
            self.start_group(subject)
            self.settle_waiting()
            return
        if previous and previous.kind == "part" and self.group:
            if gap and gap[0] in PREPOSITIONS and all(w in SMALL or w in PREPOSITIONS for w in gap):
                if gap[0] not in WHERE_PREPOSITIONS:
                    self.own(name, event)
                return
            if self.open and (not gap or all(w in LIST_LINKS or w in SMALL for w in gap)):
                self.group.append(self.subject(name, event))
                return
        if previous and previous.kind == "condition" and self.words[previous.end - 1] in PREPOSITIONS:
            gap = [self.words[previous.end - 1], *gap]
        if self.made and previous and self.is_detail(gap, previous):
            self.detail(name, event)
            return
        if self.possessed(previous, gap, following, event):
            self.statement_for_all("has", event)
            return
        self.start_group(self.subject(name, event))
        if self.is_absent(event, following):
            self.statement_for_all("absent", event)

    def is_stuff(self, event: Mention, previous: Mention | None) -> bool:
        """Whether "oil", "grease" or "mud" is what is on the part before, not a part."""
        if event.end - event.start != 1 or self.words[event.start] not in self.rules.stuff or not self.group:
            return False
        if previous is None or previous.start < self.group[-1].start:
            return False
        gap = self.words[previous.end : event.start]
        near = previous.end <= event.start and len(gap) <= 4
        return (
            near and self.open and not any(w in (",", "and", "the", ".", "then") for w in gap) and bool(gap)
        )

    def with_end(self, name: PartName, event: Mention) -> PartName:
        """Take in "on the left front" behind a part: front or rear is part of its name."""
        run = self.words[event.end : event.end + 4]
        if run[:2] != ["on", "the"] or len(run) < 4:
            return name
        ends = [ENDS[w] for w in run[2:4] if w in ENDS]
        sides = [w for w in run[2:4] if w in LEFT or w in RIGHT]
        if not (ends and sides) or ends[0] in name.words:
            return name
        return replace(name, words=(ends[0], *name.words), head=(ends[0], *name.head))

    def is_weak(self, name: PartName, event: Mention) -> bool:
        """Whether the words only name stuff on the part that is being spoken of ("rubber bald", "oil round it")."""
        if len(name.words) != 1 or name.words[0] not in WEAK_WORDS or not self.group or not self.open:
            return False
        before = self.words[event.start - 1] if event.start else ""
        return before not in LIST_LINKS or before == ","

    def possessed(
        self, previous: Mention | None, gap: list[str], following: Mention | None, event: Mention
    ) -> bool:
        """ "Drawbar pin has its clip": the part before is said to have this one, and nothing more."""
        if not (self.open and previous and previous.kind in ("part", "pointer") and gap):
            return False
        if following and following.kind in ("condition", "hidden", "later", "quantity"):
            return False
        has = any(w in ("has", "have", "got", "had") for w in gap)
        return has and all(w in HAS_WORDS for w in gap)

    def is_absent(self, event: Mention, following: Mention | None) -> bool:
        """Whether a bare "no" stands right before the part and nothing else is said of it."""
        if following and following.kind == "condition":
            return False
        return any(
            m.end == event.start for m in self.reading.of("deny") if self.words[m.end - 1] in ABSENT_WORDS
        )

    def is_detail(self, gap: list[str], previous: Mention) -> bool:
        """Whether a part behind a condition only says where ("chafed where it crosses the frame")."""
        if previous.kind not in ("condition", "quantity", "hidden"):
            return False
        if not gap or any(w in (",", "and", "but", ";", ".", "then") for w in gap):
            return False
        return gap[0] in PREPOSITIONS or gap[0] in WHERE_WORDS

    def detail(self, name: PartName, event: Mention) -> None:
        """A place on the part just spoken of: names its component where it is one."""
        statement = self.made[-1]
        component = None
        if not statement.subject.carried or True:
            component = self.rules.resolver.component_of(frozenset(name.words), statement.subject.part.part)
        if component and statement.subject.part.component is None and statement.subject.part.part:
            spoken = " ".join(name.words)
            owner = statement.subject.part.part
            statement.subject.part = Resolved(
                f"{owner.name} {spoken}", owner, statement.subject.part.zone, component
            )
        if name.side and not statement.subject.told_side:
            statement.subject.side = name.side
        statement.stretch(event.start, event.end)

    def own(self, name: PartName, event: Mention) -> None:
        """ "Gland on the left lift cylinder": the part before belongs to this one."""
        first = self.group[-1]
        spoken = first_words(self.words, first)
        joined = PartName(
            (*name.words, *spoken), tuple(spoken), name.side or first.side, name.words, first.plural
        )
        subject = self.subject(joined, Mention("part", first.start, event.end, joined))
        self.group[-1] = subject
        for statement in self.made:
            if statement.subject is first:
                statement.subject = subject
                statement.stretch(subject.start, subject.end)
        self.remember(subject)

    def start_group(self, subject: Subject) -> None:
        if self.open and self.group and self.has_words(self.group[-1].end, subject.start):
            self.say_rest(subject.start)
        self.group = [subject]
        self.open = True

    def subject(self, name: PartName, event: Mention) -> Subject:
        part = self.rules.resolver(name, self.where.zone, self.focus.part if self.focus else None)
        side, told = self.side_for(name, part, event)
        zone = self.rules.resolver.zone_of(part.part, side, self.where.zone) if part.part else self.where.zone
        part = Resolved(part.name, part.part, zone, part.component, part.score)
        spoken = self.reading.quote(event.start, event.end)
        subject = Subject(part, side, event.start, event.end, name.plural, told_side=told, spoken=spoken)
        if self.count:
            subject.count, self.count = self.count, None
        elif self.words[max(0, event.start - 3) : event.start] in (["one", "of", "the"], ["one", "of", "these"]):
            at = event.start - 3
            if not (at and self.words[at - 1] in POINTS_AT_ONE):
                subject.count = (1, Mention("quantity", at, at + 1))
        elif self.words[event.start] == "one" or (event.start and self.words[event.start - 1] == "one"):
            at = event.start if self.words[event.start] == "one" else event.start - 1
            if not (at and self.words[at - 1] in POINTS_AT_ONE):
                subject.count = (1, Mention("quantity", at, at + 1))
        if part.part and part.score >= 0.9 and zone != self.where.zone and not self.where.told:
            self.where = Where(zone, self.where.side)
        if told and side in ("left", "right") and self.side_told_at != 10**6:
            self.side_now, self.side_told_at = side, self.number
        elif (
            told
            and side in ("left", "right")
            and side != self.side_now
            and part.part
            and any(z.name in part.part.zones and z.side != "none" for z in self.rules.places.zones)
        ):
            self.side_now, self.side_told_at = side, self.number
        self.remember(subject)
        return subject

    def side_for(self, name: PartName, part: Resolved, event: Mention) -> tuple[str | None, bool]:
        """The side of a part: said with it, said behind it, the walker's, or the last one spoken of."""
        if name.side:
            return name.side, True
        behind = self.side_behind(event.end)
        if behind:
            return behind, True
        near = self.sentence_side()
        if near and (part.sided or part.part is None or part.component):
            return near, False
        if part.component and self.focus and self.focus.part.part is part.part:
            return self.focus.side, False
        if part.sided or part.part is None:
            walker = self.walker_side(name, part)
            if walker:
                return walker, False
        return ("both" if part.sided and name.plural else None), False

    def sentence_side(self) -> str | None:
        """The side told of an earlier part in this sentence."""
        for subject in reversed(self.group):
            if subject.told_side and subject.side in ("left", "right"):
                return subject.side
        return None

    def walker_side(self, name: PartName, part: Resolved) -> str | None:
        """The side the walker is on: as told, or as shown by a part named with its side not long ago."""
        if self.side_told_at == 10**6:
            return self.side_now
        if self.number - self.side_told_at > SIDE_SENTENCES or self.side_now is None:
            return None
        zones = {z.name: z.side for z in self.rules.places.zones}
        stands_aside = part.part is None or any(zones[z] != "none" for z in part.part.zones)
        if name.plural and not stands_aside:
            return None
        return self.side_now

    def side_behind(self, at: int) -> str | None:
        """A side right behind the part: "on the left", "left side", "both sides", "left hand"."""
        run = self.words[at : at + 5]
        if run[:1] and run[0] in ("on", "at", "to") and run[1:2] == ["the"] and at + 2 < len(self.words):
            return is_side_word(self.words, at + 2)
        if run[:1] == ["on"] and run[1:2] == ["both"]:
            return "both"
        if run[:2] in (["both", "sides"], ["each", "side"], ["either", "side"]) or run[:3] in (
            ["on", "each", "side"],
            [",", "both", "sides"],
        ):
            return "both"
        side = is_side_word(self.words, at) if at < len(self.words) else None
        if side and run[1:2] and run[1] in ("side", "hand"):
            return side
        return None

    def remember(self, subject: Subject) -> None:
        self.focus, self.focus_sentence = subject, self.number

    # ---- words that point back

    def on_pointer(self, event: Mention, previous: Mention | None, following: Mention | None) -> None:
        pointer: Pointer = event.value
        base = self.focus
        if pointer.ends and (pointer.side or not base) and self.is_tyre_talk(pointer, base):
            name = PartName((*pointer.ends, "tyre"), ("tyre",), pointer.side)
            self.pointed(self.subject(name, event))
            return
        if base is None:
            return
        side = pointer.side or (OTHER.get(base.side or "", None) if pointer.other else base.side)
        part = base.part
        if part.component and not (part.part and part.part.sided and pointer.side):
            part = base.part
        zone = self.rules.resolver.zone_of(part.part, side, self.where.zone) if part.part else part.zone
        part = Resolved(part.name, part.part, zone, part.component, part.score * 0.95)
        spoken = base.spoken
        self.pointed(
            Subject(
                part,
                side,
                event.start,
                event.end,
                side == "both",
                carried=True,
                told_side=True,
                spoken=spoken,
            )
        )

    def is_tyre_talk(self, pointer: Pointer, base: Subject | None) -> bool:
        """ "Left front" by itself is a tyre, unless the talk is of another part with ends."""
        if not set(pointer.ends) <= {"front", "rear"}:
            return False
        return (
            base is None
            or "tyre" in base.part.name
            or base.part.part is None
            or not pointer.ends == ()
            and not base.part.sided
            or "wheel" in base.part.name
        )

    def pointed(self, subject: Subject) -> None:
        if self.waiting:
            self.start_group(subject)
            self.settle_waiting()
        else:
            self.start_group(subject)
        self.remember(subject)

    # ---- conditions and numbers

    def on_condition(self, event: Mention, previous: Mention | None, following: Mention | None) -> None:
        if not event.value.condition.alone and not self.stands_close(event, previous):
            return
        if self.binds_forward(event, following):
            self.waiting.append(event)
            return
        if self.group and (self.open or self.continues(event, previous)):
            self.statement_for_all("condition", event)
            return
        self.waiting.append(event)

    def stands_close(self, event: Mention, previous: Mention | None) -> bool:
        """Whether a very common word ("on", "in") directly follows its part and ends the clause."""
        if previous is None or not self.open or previous.kind not in ("part", "pointer", "quantity"):
            return False
        gap = self.words[previous.end : event.start]
        after = self.words[event.end : event.end + 1]
        ends = (
            not after or after[0] in (".", ",", ";", "and", "!", "?", "—", "–") or event.end >= self.span[1]
        )
        return ends and all(w in ("is", "'s", "are", "all", "both", "still", "were", "was") for w in gap)

    def binds_forward(self, event: Mention, following: Mention | None) -> bool:
        """Whether a condition belongs to the part behind it: "a loose bolt", "leak at the gland"."""
        if following is None or following.kind not in ("part", "pointer"):
            return False
        gap = self.words[event.end : following.start]
        if not gap and event.value.attributive and following.kind == "part":
            if not self.open:
                return True
            at = event.start - 1
            while at > self.span[0] and any(
                m.start <= at < m.end for k in ("slight", "strong", "deny") for m in self.reading.of(k)
            ):
                at -= 1
            return self.words[at] in BEFORE_ATTRIBUTE or self.words[event.start - 1] in BEFORE_ATTRIBUTE
        if (
            gap
            and gap[0] in PREPOSITIONS
            and len(gap) <= 4
            and all(w in SMALL or w in PREPOSITIONS for w in gap)
        ):
            return not self.open
        return False

    def continues(self, event: Mention, previous: Mention | None) -> bool:
        """Whether a further condition still speaks of the group that has one already."""
        return True

    def settle_waiting(self) -> None:
        self.apply(self.waiting)
        self.waiting = []

    def apply(self, events: list[Mention]) -> None:
        """Give events that waited for a part to the group at hand."""
        for event in events:
            if event.kind == "quantity":
                self.number_for_all(event)
            elif event.kind in ("hidden", "later", "keep-an-eye", "needs-work"):
                self.mark_all(event)
            else:
                self.statement_for_all("condition", event)

    def claim(self, event: Mention) -> Claim:
        cue = denied(self.reading, event, self.events)
        degree = None
        for kind in ("slight", "strong"):
            for mention in self.reading.of(kind):
                near = 0 <= event.start - mention.end <= 1 or 0 <= mention.start - event.end <= 0
                if near and not (event.start <= mention.start and mention.end <= event.end):
                    degree = kind
        return Claim(event.value, event, cue is not None, degree)

    def statement_for_all(self, kind: str, event: Mention) -> None:
        """Say the same of every part of the group."""
        for subject in self.group:
            statement = self.current(subject) if kind == "condition" else None
            if kind == "condition":
                claim = self.claim(event)
                if statement is None or (statement.claims and not agrees(statement, claim)):
                    statement = self.new(subject)
                statement.claims.append(claim)
                statement.count = statement.count or self.count or subject.count or self.one_before(event)
            elif statement is None:
                statement = self.new(subject)
            if kind in ("absent", "has"):
                statement.marks.add(kind)
            statement.stretch(event.start, event.end)
            if kind == "absent":
                statement.context["absent"] = "no"
        self.open = False
        self.count = None

    def current(self, subject: Subject) -> Statement | None:
        """The statement of this sentence about the subject that further words may join."""
        for statement in reversed(self.made):
            if statement.subject is subject:
                return statement
        return None

    def new(self, subject: Subject) -> Statement:
        start, end = (subject.start, subject.end) if subject.start >= 0 else (self.span[1], self.span[0])
        statement = Statement(subject, self.number, start, end, zone=subject.part.zone)
        self.made.append(statement)
        return statement

    def on_quantity(self, event: Mention, previous: Mention | None, following: Mention | None) -> None:
        quantity: Quantity = event.value
        gap = self.words[event.end : following.start] if following else []
        if quantity.unit is None and self.is_count(quantity, event, following, gap):
            self.count = self.count or (int(quantity.value), event)
            return
        if self.excepting and quantity.unit is None and self.group and float(quantity.value).is_integer():
            self.count = (int(quantity.value), event)
            return
        if (
            not self.open
            and following
            and following.kind == "part"
            and gap
            and gap[0] in ("of", "on", "in")
            and len(gap) <= 3
        ):
            if quantity.unit is not None:
                self.waiting.append(event)
            return
        if self.group and quantity.unit is None and self.counts_group(quantity):
            self.count_group(event)
        elif self.group:
            self.number_for_all(event)
        else:
            self.waiting.append(event)

    def counts_group(self, quantity: Quantity) -> bool:
        """Whether a bare small number behind a plural part counts it: "teeth, eight, all there"."""
        small = 0 < quantity.value <= MOST_COUNTED and float(quantity.value).is_integer()
        part = self.group[-1].part
        return (
            small
            and self.group[-1].plural
            and not any(w in part.name for w in ("tyre", "track", "batter", "oil"))
        )

    def count_group(self, event: Mention) -> None:
        counted = (int(event.value.value), event)
        for subject in self.group:
            statement = self.current(subject)
            if statement:
                statement.count = statement.count or counted
            else:
                subject.count = subject.count or counted

    def one_before(self, event: Mention) -> tuple[int, Mention] | None:
        """ "One missing", "one of them is bent": a count of one, unless "one" points at something."""
        at = event.start - 1
        while at > self.span[0] and self.words[at] in COUNT_LINKS:
            at -= 1
        if at < self.span[0] or self.words[at] != "one" or (at and self.words[at - 1] in POINTS_AT_ONE):
            return None
        return 1, Mention("quantity", at, at + 1)

    def is_count(self, quantity: Quantity, event: Mention, following: Mention | None, gap: list[str]) -> bool:
        """Whether a bare number counts things: "two bolts", "two of the six", "one gone"."""
        if not (0 < quantity.value < 100 and float(quantity.value).is_integer()):
            return False
        if following is None or self.words[event.start : event.end] == ["a"]:
            return False
        if (
            following.kind in ("part", "quantity")
            and len(gap) <= 4
            and all(w in SMALL or w in COUNT_LINKS for w in gap)
        ):
            return following.kind == "part" or "of" in gap
        return following.kind == "condition" and len(gap) <= 3 and all(w in COUNT_LINKS for w in gap)

    def number_for_all(self, event: Mention) -> None:
        for subject in self.group:
            statement = self.current(subject) or self.new(subject)
            corrected = self.correcting is not None and statement.quantities
            if (
                corrected
                and self.correcting is not None
                and statement.quantities[-1][1].end <= self.correcting.start
            ):
                _, old = statement.quantities.pop()
                self.taken.append((old.start, old.end))
            statement.quantities.append((event.value, event))
            statement.stretch(event.start, event.end)

    # ---- marks

    def on_mark(self, event: Mention, previous: Mention | None, following: Mention | None) -> None:
        if event.kind in ("hidden", "later"):
            if event.kind == "hidden" and self.denies(event):
                return
            if self.group and (self.open or not following or following.kind != "part"):
                self.mark_all(event)
            else:
                self.waiting.append(event)
        elif event.kind in ("keep-an-eye", "needs-work"):
            gap = self.words[event.end : following.start] if following else []
            ahead = following and following.kind == "part" and all(w in SMALL or w in PREPOSITIONS for w in gap)
            if ahead and not self.open:
                self.waiting.append(event)
            else:
                self.mark_last(event)
        elif event.kind == "same":
            self.same = event
        elif event.kind == "except":
            self.excepting, self.open = event, bool(self.group)
        elif event.kind == "correct":
            self.correcting = event
        elif event.kind == "take-back":
            self.take_back(event)

    def take_back(self, event: Mention) -> None:
        """ "Scratch that": the last statement no longer counts; what follows is about its part."""
        last = (
            self.made[-1]
            if self.made
            else next((s for s in reversed(self.statements) if not s.taken_back), None)
        )
        if last is None or (not self.made and self.number - last.sentence > 2):
            return
        last.taken_back = self.reading.quote(event.start, event.end)
        self.focus, self.focus_sentence = last.subject, self.number
        self.group, self.open = [], False

    def denies(self, event: Mention) -> bool:
        """ "Can't see any leaks" denies the leaks; it does not say that the part was hidden."""
        claims = [
            m
            for m in self.events
            if m.kind == "condition" and m.start >= event.end and m.start - event.end <= 5
        ]
        return any(denied(self.reading, m, self.events) == event for m in claims)

    def mark_all(self, event: Mention) -> None:
        for subject in self.group:
            statement = self.current(subject) or self.new(subject)
            statement.marks.add(event.kind)
            statement.stretch(event.start, event.end)
        self.open = False

    def mark_last(self, event: Mention) -> None:
        """ "Keep an eye on it", "write that up": about what was said last, also a sentence ago."""
        target = [s for s in self.made] or [s for s in self.statements[-1:] if self.number - s.sentence <= 1]
        if self.open and self.group:
            target = [self.current(s) or self.new(s) for s in self.group]
        for statement in target[-max(1, len(self.group)) :]:
            statement.marks.add(event.kind)
            statement.context[event.kind] = self.reading.quote(event.start, event.end)
            if statement in self.made:
                statement.stretch(event.start, event.end)

    # ---- the end of a sentence

    def finish(self) -> None:
        self.finish_sentence()
        for statement in self.made:
            self.local_side(statement)

    def local_side(self, statement: Statement) -> None:
        """A side named around the part: "in the left corner", "two gone on the right end", "nearside"."""
        subject = statement.subject
        if subject.told_side:
            return
        others = [s for s in self.made if s is not statement and s.subject is not subject]
        stop = min([self.span[1], *(s.start for s in others if s.start >= statement.end)])
        begin = max([self.span[0], *(s.end for s in others if s.end <= statement.start)])
        sides = {
            side
            for i in range(begin, stop)
            if (side := is_side_word(self.words, i)) and not self.is_comparison(i)
        }
        if len(sides) == 1:
            subject.side, subject.told_side = sides.pop(), True

    def is_comparison(self, at: int) -> bool:
        """ "Same as the left": that side is what is compared with, not where the part is."""
        return any(w in ("as", "than", "like") for w in self.words[max(0, at - 3) : at])

    def finish_sentence(self) -> None:
        if self.waiting:
            self.waiting = [e for e in self.waiting if e.kind not in ("keep-an-eye", "needs-work")]
            marks = [e for e in self.waiting if e.kind in ("hidden", "later")]
            rest = [e for e in self.waiting if e.kind not in ("hidden", "later")]
            if self.group and marks:
                for event in marks:
                    self.mark_all(event)
            if rest or (marks and not self.group):
                self.carry_over(rest if self.group else self.waiting)
        self.waiting = []
        if self.same and not any(s.claims for s in self.made):
            self.copy(self.same)
        if self.open and self.group and not self.same:
            self.say_rest(self.span[1])
        if self.excepting:
            self.make_exception(self.excepting)
        if self.correcting and self.group and not any(s.subject in self.group for s in self.made):
            self.move_side()
        self.statements += self.made
        if self.group:
            self.last_group = self.group

    def has_words(self, start: int, end: int) -> bool:
        """Whether enough is said between two parts to be about the first."""
        said = [
            w
            for w in self.words[start:end]
            if w not in SMALL and w not in PREPOSITIONS and w not in LIST_LINKS
        ]
        return len([w for w in said if w[0].isalnum()]) >= 2

    def say_rest(self, end: int) -> None:
        """A part of which something is said in words no table knows: a statement without claims."""
        last = self.group[-1]
        while end > last.end and self.reading.tokens[end - 1].is_mark:
            end -= 1
        if end <= last.end or any(self.current(s) for s in self.group):
            return
        for subject in self.group:
            statement = self.new(subject)
            statement.marks.add("unworded")
            statement.stretch(last.start, end)

    def put_right(self, event: Mention, last: Statement) -> bool:
        """A bare number after "no, make that" or "scratch that, call it", or for the other side."""
        if not last.quantities:
            return False
        old, place = last.quantities[-1]
        value: Quantity = event.value
        if value.unit is None:
            value = replace(value, unit=old.unit, quantity=old.quantity)
        elif old.unit is not None and old.quantity != value.quantity:
            return False
        if last.taken_back:
            self.group = [last.subject]
            statement = self.new(Subject(**{**vars(last.subject), "start": -1, "end": -1, "carried": True}))
            statement.claims = list(last.claims)
        elif self.correcting is not None:
            self.taken.append((place.start, place.end))
            last.quantities[-1] = (value, event)
            return True
        elif self.moved and last.subject.part.sided and self.where.side:
            subject = {**vars(last.subject), "side": self.where.side, "start": -1, "end": -1, "carried": True}
            statement = self.new(Subject(**subject))
        else:
            return False
        statement.quantities = [(value, event)]
        statement.stretch(event.start, event.end)
        return True

    def copy(self, event: Mention) -> None:
        """ "Ditto over here": the last statements again, on this side or of the parts named."""
        sources = [s for s in self.statements if not s.taken_back and s.claims and not s.copied_from]
        if not sources:
            return
        if self.group:
            for subject in self.group:
                like = [
                    s for s in sources if s.subject.part.part is subject.part.part and s.subject.part.part
                ]
                self.copy_one((like or sources)[-1], subject, event)
            return
        last = sources[-1]
        side = self.side_in_sentence() or OTHER.get(last.subject.side or "", self.where.side)
        for source in sources:
            if last.sentence - source.sentence <= 1 and source.subject.part.part is last.subject.part.part:
                zone = source.subject.part.zone
                if source.subject.part.part:
                    zone = self.rules.resolver.zone_of(source.subject.part.part, side, zone)
                part = Resolved(
                    source.subject.part.name, source.subject.part.part, zone, source.subject.part.component
                )
                self.copy_one(
                    source,
                    Subject(
                        part, side, -1, -1, source.subject.plural, carried=True, spoken=source.subject.spoken
                    ),
                    event,
                )

    def copy_one(self, source: Statement, subject: Subject, event: Mention) -> None:
        statement = self.current(subject) or self.new(subject)
        statement.claims = list(source.claims)
        statement.copied_from = source
        statement.marks |= {"same"} | (source.marks & {"hidden", "later", "keep-an-eye", "needs-work"})
        statement.stretch(event.start, event.end)

    def side_in_sentence(self) -> str | None:
        return next((s for i in range(*self.span) if (s := is_side_word(self.words, i))), None)

    def make_exception(self, event: Mention) -> None:
        """ "All tight except two on the right": what follows is not as the rest."""
        behind = [s for s in self.group if s.start >= event.end]
        if any(s.start >= event.end and s.claims for s in self.made):
            return
        if behind:
            for subject in behind:
                statement = self.current(subject) or self.new(subject)
                statement.marks.add("exception")
                statement.stretch(event.start, subject.end)
        elif self.made:
            base = self.made[-1]
            side = next(
                (s for i in range(event.end, self.span[1]) if (s := is_side_word(self.words, i))),
                base.subject.side,
            )
            statement = self.new(
                Subject(base.subject.part, side, -1, -1, carried=True, spoken=base.subject.spoken)
            )
            statement.marks.add("exception")
            statement.claims = [c for c in base.claims[-1:]]
            statement.count = self.count
            end = self.span[1] - (1 if self.reading.tokens[self.span[1] - 1].is_mark else 0)
            statement.stretch(event.start, max(end, event.end))

    def move_side(self) -> None:
        """ "Left one's wet, no, the right one": the statement goes to the other side."""
        subject = self.group[-1]
        target = self.made[-1] if self.made else (self.statements[-1] if self.statements else None)
        if target and subject.carried and subject.side and self.number - target.sentence <= 1:
            target.subject.side = subject.side
            target.marks.add("side-corrected")

    def carry_over(self, waiting: list[Mention]) -> None:
        """Give what has no part in its sentence to the part last spoken of."""
        if self.group and waiting:
            self.apply(waiting)
            return
        last = self.statements[-1] if self.statements else None
        if all(e.kind == "quantity" for e in waiting) and last and self.number - last.sentence <= 1:
            if self.put_right(waiting[-1], last):
                return
        waiting = [e for e in waiting if e.kind != "quantity" or e.value.unit is not None]
        if not waiting:
            return
        only_numbers = all(e.kind == "quantity" for e in waiting)
        if (
            only_numbers
            and last
            and self.number - last.sentence <= 1
            and not last.quantities
            and not last.taken_back
        ):
            for event in waiting:
                last.quantities.append((event.value, event))
            last.end = max(last.end, waiting[-1].end) if self.number == last.sentence else last.end
            return
        near = self.focus and self.number - self.focus_sentence <= FOCUS_SENTENCES
        if not near or self.focus is None:
            self.orphans += waiting
            return
        first = waiting[0].start
        self.group = [
            Subject(s.part, s.side, -1, -1, s.plural, carried=True, told_side=s.told_side, spoken=s.spoken)
            for s in ([self.focus] if self.focus not in self.last_group else self.last_group)
        ]
        self.apply(waiting)
        for statement in self.made:
            statement.stretch(first, statement.end)


def agrees(statement: Statement, claim: Claim) -> bool:
    """Whether a claim says the same kind of thing as the statement so far: joins it, no new one."""
    last = statement.claims[-1]
    return last.denied == claim.denied and last.said.condition.form == claim.said.condition.form


def first_words(words: list[str], subject: Subject) -> tuple[str, ...]:
    """The words that name a subject, without sides and articles."""
    from saycheck.understanding.parts import LEFT, RIGHT
    from saycheck.understanding.phrases import singular

    return tuple(
        singular(w) for w in words[subject.start : subject.end] if w not in LEFT | RIGHT | {"'s", "the"}
    )
