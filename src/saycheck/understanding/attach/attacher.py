"""Which condition and which number belongs to which part: walks through a sentence, event by event.

A part opens a group; parts in a list join it ("hoses, pins and retainers"); a condition behind closes
it and belongs to all of it. A condition before a part ("a loose bolt", "leak at the gland") waits for
it. What has no part in its own sentence goes to the part last spoken of.
"""

from collections.abc import Sequence
from dataclasses import replace

from saycheck.understanding.attach.carried import place_waiting
from saycheck.understanding.attach.claims import say_or_wait
from saycheck.understanding.attach.corrections import move_side, only_denies, take_back, take_back_corrected
from saycheck.understanding.attach.counts import count_or_measure, read_not_counted
from saycheck.understanding.attach.deictic import point_on
from saycheck.understanding.attach.exceptions import except_from
from saycheck.understanding.attach.groups import say_rest
from saycheck.understanding.attach.how_many import FARTHEST, how_many, one_in
from saycheck.understanding.attach.marks import ORDERS, UNSEEN, mark_order, mark_unseen
from saycheck.understanding.attach.named import name_part
from saycheck.understanding.attach.pointed import point_back
from saycheck.understanding.attach.read_through import say_what_is_read
from saycheck.understanding.attach.repeats import settle_same, take_same
from saycheck.understanding.attach.route import Route
from saycheck.understanding.attach.sides import take_side_around
from saycheck.understanding.attach.subjects import subject_of
from saycheck.understanding.attach.walk import Rules, Sentence, Walk
from saycheck.understanding.conditions import Said
from saycheck.understanding.events import events
from saycheck.understanding.place import OTHER, Places
from saycheck.understanding.resolve import Resolver
from saycheck.understanding.statements import Statement, Subject
from saycheck.understanding.text import Mention, Reading, with_neighbours
from saycheck.vocabulary.schema import Clue


class Attacher:
    """Goes through a reading once and returns its statements, in order.

    Leaves on ``reading.data``: ``orphans``, mentions said of no part that could be told; ``taken``, token ranges
    (half-open) of numbers that were put right; ``spoken``, all parts named, in order.
    """

    def __init__(
        self, resolver: Resolver, places: Places, stuff: dict[str, Said], clues: Sequence[Clue] = ()
    ) -> None:
        self.rules = Rules(resolver, places, stuff, clues)

    def __call__(self, reading: Reading) -> list[Statement]:
        """The statements of a reading that has its mentions and sentences."""
        walk = Walk(self.rules, reading)
        for number, (start, end) in enumerate(reading.sentences):
            read_sentence(walk, number, start, end)
        reading.data["orphans"] = walk.orphans
        reading.data["taken"] = walk.taken
        reading.data["spoken"] = walk.spoken
        return walk.statements


def read_sentence(walk: Walk, number: int, start: int, end: int) -> None:
    """Take in one sentence: where it says the walker goes, then its events, then what they leave open."""
    zone, side = walk.rules.places.heading(walk.reading, start, end)
    if zone or side:
        walk.move(zone, side)
        turn_focus(walk, number)
        walk.now = Sentence(number, start, end, [])
        head(walk)
        if not any(walk.reading.inside(kind, start, end) for kind in ("condition", "same")):
            return
    found = events(walk.reading, start, end)
    walk.now = Sentence(number, start, end, found)
    route = Route(walk, start, end, there=bool(zone or side))
    focus = walk.focus, walk.focus_sentence
    for previous, event, following in with_neighbours(found):
        route.go_on(event.start)
        take_in(walk, event, previous, following)
        route.pass_over(event.end)
    finish(walk, focus)
    route.go_on(end)


def head(walk: Walk) -> None:
    """ "Forks. Heel right, forty-five": the name of a place that is a part too is what is spoken of next."""
    parts = walk.reading.inside("part", walk.now.start, walk.now.end)
    part = walk.rules.resolver(parts[0].value, walk.where.zone, None) if len(parts) == 1 else None
    if part and part.part:
        subject_of(walk, parts[0].value, parts[0])


def turn_focus(walk: Walk, number: int) -> None:
    """ "Now the right. Nothing": what is said next without a part is of the same one, on the side just named."""
    focus, side = walk.focus, walk.where.side
    if focus and focus.side in OTHER and side in OTHER and number - walk.focus_sentence <= 1:
        walk.focus, walk.focus_sentence = replace(focus, side=side, told_side=True), number


def take_in(walk: Walk, event: Mention, previous: Mention | None, following: Mention | None) -> None:
    """Do what an event asks for; ``previous`` and ``following`` are the events around it."""
    now = walk.now
    if event.kind == "part":
        name_part(walk, event, previous, following)
    elif event.kind == "pointer":
        point_back(walk, event)
    elif event.kind == "condition":
        say_or_wait(walk, event, previous, following)
    elif event.kind == "quantity":
        count_or_measure(walk, event, following)
    elif event.kind in UNSEEN:
        mark_unseen(walk, event, following)
    elif event.kind in ORDERS:
        mark_order(walk, event, following)
    elif event.kind == "same":
        take_same(walk, event)
    elif event.kind == "except":
        now.excepting, now.open = event, bool(now.group)
    elif event.kind == "correct" and not only_denies(walk, event):
        now.correcting = event
    elif event.kind == "take-back":
        take_back(walk, event)


def finish(walk: Walk, focus: tuple[Subject | None, int]) -> None:
    """Settle what a sentence leaves open, and keep its statements; ``focus`` was spoken of before it."""
    now = walk.now
    place_waiting(walk)
    settle_same(walk)
    if now.open and now.group and not now.same:
        say_rest(walk, now.end)
    if now.excepting:
        except_from(walk, now.excepting)
    if now.correcting and now.group and not any(s.subject in now.group for s in now.made):
        move_side(walk)
    take_back_corrected(walk)
    for statement in now.made:
        settle_count(walk, statement)
    point_on(walk, *focus)
    say_what_is_read(walk)
    walk.statements += now.made
    if now.group:
        walk.last_group = now.group
    for statement in now.made:
        take_side_around(walk, statement)
        statement.stood = walk.stood()


def settle_count(walk: Walk, statement: Statement) -> None:
    """How many a statement is about, by the surest words that tell: of its conditions, its part, a bare "one"."""
    counted = how_many(walk.reading, statement, walk.now.start)
    statement.count = counted or statement.count or statement.subject.count
    read_not_counted(statement)
    if statement.count is None and not statement.quantities:
        statement.count = one_in(walk.words, statement)
    if statement.count:
        hold_count(walk, statement, statement.count[1])


def hold_count(walk: Walk, statement: Statement, number: Mention) -> None:
    """Let the statement begin with how many it is about: "two of the six bolts are missing"."""
    between = range(number.start, statement.start)
    told = any(s is not statement and s.start < between.stop and s.end > between.start for s in walk.now.made)
    if walk.now.start <= number.start and 0 < len(between) <= FARTHEST and not told:
        statement.stretch(number.start, statement.end)
