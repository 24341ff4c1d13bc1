"""A number is said: it counts things, measures the group at hand, or waits for its part."""

from saycheck.understanding.attach.claims import binds_forward
from saycheck.understanding.attach.how_many import counted_at
from saycheck.understanding.attach.links import COUNT_LINKS, MOST_COUNTED, SMALL
from saycheck.understanding.attach.saying import say_number
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.statements import Statement, Subject
from saycheck.understanding.text import Mention

# No bare number counts more than this many things.
COUNTS_BELOW = 100
# Words in -s that no number counts.
NO_THINGS = frozenset("is was as this less plus it's that's always across has its his yours ours".split())
# Behind one of these a part is no longer what a number counts: "holding seventy, and the lift rams are dry".
NEW_CLAUSE = frozenset([",", "and"])
# Parts whose bare numbers are pressures, volts or levels rather than counts.
MEASURED_PARTS = ("tyre", "track", "batter", "oil")
# Of such parts nobody counts more than this many.
MOST_OF_MEASURED = 6


def count_or_measure(walk: Walk, event: Mention, following: Mention | None) -> None:
    """Take in a quantity by what it stands before."""
    now = walk.now
    quantity: Quantity = event.value
    bare = quantity.unit is None
    if bare and is_count(walk, event, following):
        now.count = now.count or (int(quantity.value), event)
    elif bare and now.excepting and now.group and is_whole(quantity):
        now.count = (int(quantity.value), event)
    elif is_of_following(walk, event, following) or is_of_waiting(walk, event, following):
        if not bare or quantity.form == "fraction":
            now.waiting.append(event)
    elif (
        now.group
        and bare
        and (
            counts_group(walk, quantity)
            or counts_things(walk, event)
            or counts_all(walk, event)
            or is_one_of(walk, event)
        )
    ):
        count_group(walk, event)
    elif now.group:
        say_number(walk, event)
    else:
        now.waiting.append(event)


def is_whole(quantity: Quantity) -> bool:
    """Whether the value is a whole number."""
    return float(quantity.value).is_integer()


def is_count(walk: Walk, event: Mention, following: Mention | None) -> bool:
    """Whether a bare number counts things: "two bolts", "two of the six", "one gone"."""
    if not (0 < event.value.value < COUNTS_BELOW and is_whole(event.value)) or event.value.form == "digits":
        return False
    if following is None or walk.words[event.start : event.end] == ["a"]:
        return False
    gap = walk.gap(event, following)
    if following.kind == "part" and NEW_CLAUSE & set(gap):
        return False
    if following.kind in ("part", "quantity"):
        linked = len(gap) <= 4 and all(w in SMALL or w in COUNT_LINKS for w in gap)
        return linked and (following.kind == "part" or "of" in gap)
    if "," in gap and event.value.value > MOST_COUNTED:
        return False
    return following.kind == "condition" and len(gap) <= 3 and all(w in COUNT_LINKS for w in gap)


def is_of_following(walk: Walk, event: Mention, following: Mention | None) -> bool:
    """ "Forty on the left front tyre", "three mil in the pin": the number of the part behind it."""
    if walk.now.open or following is None or following.kind != "part":
        return False
    gap = walk.gap(event, following)
    return 0 < len(gap) <= 3 and gap[0] in ("of", "on", "in")


def is_of_waiting(walk: Walk, event: Mention, following: Mention | None) -> bool:
    """ "Hose is good, two mil of play in the bottom pin": the number goes where the play goes, to the part behind."""
    if following is None or following.kind != "condition" or walk.gap(event, following) not in ([], ["of"]):
        return False
    behind = next((e for e in walk.now.events if e.start >= following.end), None)
    return binds_forward(walk, following, behind)


def counts_group(walk: Walk, quantity: Quantity) -> bool:
    """Whether a bare small number behind a plural part counts it: "teeth, eight, all there"."""
    if not (0 < quantity.value <= MOST_COUNTED and is_whole(quantity)):
        return False
    last = walk.now.group[-1]
    return last.plural and not is_measured(last)


def counts_all(walk: Walk, event: Mention) -> bool:
    """Whether "all" stands before a small number: whatever the part, "tyres, all four" counts them."""
    small = 1 < event.value.value <= MOST_OF_MEASURED and is_whole(event.value)
    return small and walk.words[event.start - 1 : event.start] == ["all"]


def is_measured(subject: Subject) -> bool:
    """Whether a bare number of the part is what a gauge says rather than how many there are."""
    return any(word in subject.part.name for word in MEASURED_PARTS)


def counts_things(walk: Walk, event: Mention) -> bool:
    """Whether a small number stands before things that no list names: "two stone cuts", "three ribs split"."""
    quantity: Quantity = event.value
    if not (1 < quantity.value <= MOST_COUNTED and is_whole(quantity)) or quantity.form == "digits":
        return False
    behind = walk.words[event.end : event.end + 1]
    return bool(behind) and behind[0].isalpha() and behind[0].endswith("s") and behind[0] not in NO_THINGS


def read_not_counted(statement: Statement) -> None:
    """ "Right rear sixty, fine": a number of tyres that are not that many is what the gauge says."""
    if statement.count is None or statement.quantities:
        return
    number, mention = statement.count
    if is_measured(statement.subject) and number > MOST_OF_MEASURED and isinstance(mention.value, Quantity):
        statement.quantities, statement.count = [(mention.value, mention)], None


def is_of_whole(walk: Walk, event: Mention) -> bool:
    """Whether a number tells of how many some are: "bolt missing, one of six"."""
    return event.end - event.start == 1 and walk.words[event.start - 1 : event.start] == ["of"]


def is_one_of(walk: Walk, event: Mention) -> bool:
    """Whether one of so many is meant: "wheel nut missing, one of eight"."""
    return is_of_whole(walk, event) and walk.words[max(0, event.start - 2)] == "one"


def count_group(walk: Walk, event: Mention) -> None:
    """Count the parts of the group; a count said before stands."""
    of_whole = is_of_whole(walk, event)
    counted = (
        counted_at(walk.words, event.start, walk.now.start) if of_whole else (int(event.value.value), event)
    )
    if counted is None:
        return
    for subject in walk.now.group:
        told = walk.now.current(subject) or subject
        told.count = told.count or counted
