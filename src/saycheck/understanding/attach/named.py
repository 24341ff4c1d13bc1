"""A part is named: it opens a group, joins the list before it, or only says more of the part before."""

from dataclasses import replace

from saycheck.understanding.attach.deictic import FILLING
from saycheck.understanding.attach.groups import start_group
from saycheck.understanding.attach.links import (
    CLAUSE_MARKS,
    LIST_LINKS,
    PREPOSITIONS,
    SMALL,
    only_list,
    only_small,
)
from saycheck.understanding.attach.saying import say_condition, say_presence
from saycheck.understanding.attach.subjects import subject_of
from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.parts import ENDS, LEFT, RIGHT, PartName
from saycheck.understanding.phrases import singular
from saycheck.understanding.resolve import FASTENERS, FITS, SMALL_THINGS, WHEELS, folded, noun_of
from saycheck.understanding.statements import Subject
from saycheck.understanding.text import Mention

# A denial that ends so, right before a part, says that there is none.
ABSENT_WORDS = frozenset(["no", "a", "any"])
# All that may stand between a part and one that it has: "the pin has got its clip".
HAS_WORDS = frozenset(
    "has have 's got had with its their it's a the all his her still both fresh new".split()
)
# Words that name stuff or a spot on the part before rather than a part, once a part is spoken of.
WEAK_WORDS = frozenset(
    "grease oil paint rubber glass cover wire thumb bar clay line hole mark hand screw stone nail water mud"
    " air bit".split()
)
# These only tell where a part is, not which other part it belongs to.
WHERE_PREPOSITIONS = frozenset(
    "over behind under near along through by above below beside around round across between where".split()
)
# These, like a preposition, begin words on where something was found.
WHERE_WORDS = frozenset(["where", "when", "which", "that", "who", "near"])
# With an article behind it, these begin words on where one looks next.
INSIDE = frozenset("in inside under underneath behind at on round around".split())
# What follows a part that is not only one more of a list.
SAID = frozenset(["condition", "quantity", "hidden", "later"])
# Behind the second of two parts these say something of that one alone.
OF_ONE = frozenset("'s is has was it's measures measure measured reads shows".split())
# A part that is in or at another is where it should be, or it is not.
BEING = frozenset("'s is are 're sits sitting sat was".split())
BEING_AT = frozenset("in at on up to below above under into".split())
# For how many sentences a part is spoken of so that another, told as a place, is none that something is said of.
ASIDE_SENTENCES = 1
CLAUSE_ENDS = CLAUSE_MARKS | {"and", "but", "so", "because", "or"}
# Behind stuff that is not there these say that it should be.
INTO = frozenset("in inside left showing at getting coming going pressure level".split())
# Between a bare fastener and the part that it holds to.
HOLDING = frozenset("on off from of in".split())
# How far stuff ("oil") may stand behind what was said before it, in words.
STUFF_REACH = 4


def name_part(walk: Walk, event: Mention, previous: Mention | None, following: Mention | None) -> None:
    """Take in a part mention between the events before and behind it."""
    now = walk.now
    name = with_end(walk, event)
    if is_stuff(walk, event, previous):
        said = walk.rules.stuff[walk.words[event.start]]
        say_condition(walk, Mention("condition", event.start, event.end, said))
        return
    if is_weak(walk, name, event) or is_what_leaks(walk, name, event, previous):
        return
    if now.waiting:
        start_group(walk, subject_of(walk, name, event))
        return
    gap = walk.gap(previous, event)
    headed = False
    if previous and previous.kind == "part" and now.group:
        if gap and gap[0] in PREPOSITIONS and only_small(gap):
            if gap[0] not in WHERE_PREPOSITIONS:
                belong(walk, name, event)
            return
        if now.open and is_placed(gap):
            place(walk, event)
            return
        headed = now.open and is_heading(walk, gap, event, following)
        if now.open and only_list(gap) and not headed:
            walk.remember(now.group[-1])
            now.group.append(subject_of(walk, name, event))
            return
    # A saying may end with the preposition that leads on to the place: "rubbing on the frame".
    if previous and previous.kind == "condition" and walk.words[previous.end - 1] in PREPOSITIONS:
        gap = [walk.words[previous.end - 1], *gap]
    if now.made and previous and is_detail(gap, previous):
        if is_held_by(walk, name, gap):
            belong(walk, name, event)
        else:
            add_detail(walk, name, event)
        return
    if is_possessed(walk, gap, previous, following):
        say_presence(walk, "has", event)
        return
    aside, focus = is_aside(walk, event), (walk.focus, walk.focus_sentence)
    start_under(walk, subject_of(walk, name, event, headed=headed))
    if aside:
        walk.focus, walk.focus_sentence = focus
    if is_absent(walk, event, following):
        say_presence(walk, "absent", event)


def is_placed(gap: list[str]) -> bool:
    """Whether the part before is said to be in or at this one: "coolant's at the sight glass"."""
    rest = gap[1:]
    return bool(rest) and gap[0] in BEING and rest[0] in BEING_AT and only_small(rest)


def place(walk: Walk, event: Mention) -> None:
    """Where each part of the group is, no table tells what that means: a statement without claims."""
    for subject in walk.now.group:
        statement = walk.now.about(subject)
        statement.marks.add("unworded")
        statement.stretch(event.start, event.end)
    walk.now.open = False


def is_aside(walk: Walk, event: Mention) -> bool:
    """Whether the part only stands in words on where or with what: "I went round it with a light, and it's sound"."""
    words, now = walk.words, walk.now
    at = event.start - 1
    while at > now.start and words[at] in SMALL:
        at -= 1
    opens = all(w in FILLING or not w[0].isalnum() for w in words[now.start : at])
    if at <= now.start or words[at] not in PREPOSITIONS or opens:
        return False
    after = words[event.end] if event.end < now.end else "."
    return after in CLAUSE_ENDS and walk.focus_ago <= ASIDE_SENTENCES


def start_under(walk: Walk, subject: Subject) -> None:
    """Speak of the subject, under the one part before it where nothing was said of that: it is a heading."""
    group = walk.now.group if walk.now.open else []
    start_group(walk, subject)
    if len(group) == 1 and group[0].start >= 0 and not walk.now.current(group[0]):
        subject.under = group[0].spoken
        if subject.part.part is None and group[0].part.part is None:
            subject.part = replace(subject.part, name=f"{group[0].part.name} {subject.part.name}")


def is_heading(walk: Walk, gap: list[str], event: Mention, following: Mention | None) -> bool:
    """Whether the one part before only tells where the next is: "Cab, the seat switch works", "Blade, edge is thin",
    "Front panel, clip broken".

    In a list with articles the first has its own: "the hoses, the pins and the clips".
    """
    group = walk.now.group
    if len(group) > 1 or group[0].start < 0:
        return False
    after = next((w for w in walk.words[event.end : walk.now.end] if w != ","), ".")
    if gap == [","] and (after in OF_ONE or walk.rules.resolver.is_place(group[0].part)):
        return True
    if gap == [","] and after not in LIST_LINKS and is_on(walk, event.value, group[0]):
        return following is not None and following.kind in SAID
    if gap != [",", "the"]:
        return False
    before = walk.words[max(walk.now.start, group[0].start - 2) : group[0].start]
    return not before or before[-1] != "the" or before[0] in INSIDE


def is_on(walk: Walk, name: PartName, heading: Subject) -> bool:
    """Whether a part is one that the part before has: a clip, a component of it, what the list calls by both names
    ("seat, belt") or what is on no list by itself.
    """
    resolver, words = walk.rules.resolver, frozenset(name.words)
    if noun_of(heading.spoken or heading.part.name) in SMALL_THINGS:
        return False
    if name.head[-1] in SMALL_THINGS or resolver.component_of(words, heading.part.part):
        return True
    listed = resolver.candidates(words, walk.where.zone, None)
    unlisted = not listed or listed[0][0] < FITS
    return unlisted or any(folded(heading.part.name) < folded(part.name) for _, part in listed)


def with_end(walk: Walk, event: Mention) -> PartName:
    """The name with "on the left front" behind it taken in: front or rear is part of a part's name."""
    name: PartName = event.value
    run = walk.words[event.end : event.end + 4]
    if run[:2] != ["on", "the"] or len(run) < 4:
        return name
    ends = [ENDS[w] for w in run[2:4] if w in ENDS]
    sides = [w for w in run[2:4] if w in LEFT or w in RIGHT]
    if not (ends and sides) or ends[0] in name.words:
        return name
    return replace(name, words=(ends[0], *name.words), head=(ends[0], *name.head))


def is_stuff(walk: Walk, event: Mention, previous: Mention | None) -> bool:
    """Whether "oil", "grease" or "mud" is what is on the part before, not a part."""
    group = walk.now.group
    if len(event) != 1 or walk.words[event.start] not in walk.rules.stuff or not group:
        return False
    if is_said_absent(walk, event):
        return True
    if not walk.now.open:
        return False
    if previous is None or previous.start < group[-1].start or previous.end > event.start:
        return False
    gap = walk.gap(previous, event)
    return 0 < len(gap) <= STUFF_REACH and not any(w in (",", "and", "the", ".", "then") for w in gap)


def is_said_absent(walk: Walk, event: Mention) -> bool:
    """Whether stuff is said not to be on the part spoken of: "clean, no oil", "not seeing any water".

    Not where it is missing inside it: "no oil in it".
    """
    before = any(m.end == event.start for m in walk.reading.of("deny"))
    after = walk.words[event.end] if event.end < walk.now.end else "."
    return before and after not in INTO


def is_weak(walk: Walk, name: PartName, event: Mention) -> bool:
    """Whether the words only name stuff on the part that is spoken of ("rubber bald", "oil round it")."""
    if len(name.words) != 1 or name.words[0] not in WEAK_WORDS or not walk.now.group or not walk.now.open:
        return False
    before = walk.words[event.start - 1] if event.start else ""
    return before not in LIST_LINKS or before == ","


def is_what_leaks(walk: Walk, name: PartName, event: Mention, previous: Mention | None) -> bool:
    """Whether the words only say what comes out ("leaking oil", "full of water") of the part spoken of."""
    if len(name.words) != 1 or name.words[0] not in WEAK_WORDS or not walk.now.group:
        return False
    close = previous is not None and previous.kind == "condition" and len(walk.gap(previous, event)) <= 1
    return close and all(w in ("of", "with", "in", "some", "the") for w in walk.gap(previous, event))


def belong(walk: Walk, name: PartName, event: Mention) -> None:
    """ "Gland on the left lift cylinder": the part before belongs to this one."""
    first = walk.now.group[-1]
    spoken = own_words(walk, first)
    joined = PartName((*name.words, *spoken), spoken, name.side or first.side, name.words, first.plural)
    subject = subject_of(walk, joined, Mention("part", first.start, event.end, joined))
    subject.count = subject.count or first.count
    walk.now.group[-1] = subject
    for statement in walk.now.made:
        if statement.subject is first:
            statement.subject = subject
            statement.stretch(subject.start, subject.end)


def is_held_by(walk: Walk, name: PartName, gap: list[str]) -> bool:
    """Whether what was said is of a bare fastener of this part: "bolts are loose on the guard".

    Those of a wheel are parts of their own.
    """
    group, made = walk.now.group, walk.now.made[-1]
    if len(group) != 1 or group[0].start < 0 or made.subject is not group[0]:
        return False
    own = own_words(walk, group[0])
    bare = len(own) == 1 and own[0] in FASTENERS and not WHEELS & set(name.words)
    return bare and gap[0] in HOLDING and only_small(gap)


def own_words(walk: Walk, subject: Subject) -> tuple[str, ...]:
    """The words that name a subject, in the singular, without sides and articles."""
    drop = LEFT | RIGHT | {"'s", "the"}
    return tuple(singular(w) for w in walk.words[subject.start : subject.end] if w not in drop)


def is_detail(gap: list[str], previous: Mention) -> bool:
    """Whether a part behind a condition only says where ("chafed where it crosses the frame")."""
    if previous.kind not in ("condition", "quantity", "hidden"):
        return False
    if not gap or any(w in (",", "and", "but", ";", ".", "then") for w in gap):
        return False
    return gap[0] in PREPOSITIONS or gap[0] in WHERE_WORDS


def add_detail(walk: Walk, name: PartName, event: Mention) -> None:
    """A place on the part just spoken of: names its component where it is one."""
    statement = walk.now.made[-1]
    subject = statement.subject
    owner = subject.part.part
    component = walk.rules.resolver.component_of(frozenset(name.words), owner)
    if component and owner and subject.part.component is None:
        spoken = " ".join(name.words)
        subject.part = replace(subject.part, name=f"{owner.name} {spoken}", component=component, score=1.0)
    if name.side and not subject.told_side:
        subject.side = name.side
    statement.stretch(event.start, event.end)


def is_possessed(walk: Walk, gap: list[str], previous: Mention | None, following: Mention | None) -> bool:
    """ "Drawbar pin has its clip": the part before is said to have this one, and nothing more."""
    if not (walk.now.open and previous and previous.kind in ("part", "pointer") and gap):
        return False
    if following and following.kind in SAID:
        return False
    has = any(w in ("has", "have", "got", "had") for w in gap)
    return has and all(w in HAS_WORDS for w in gap)


def is_absent(walk: Walk, event: Mention, following: Mention | None) -> bool:
    """Whether a bare "no" stands right before the part and nothing else is said of it."""
    if following and following.kind == "condition":
        return False
    before = (m for m in walk.reading.of("deny") if m.end == event.start)
    return any(walk.words[m.end - 1] in ABSENT_WORDS for m in before)
