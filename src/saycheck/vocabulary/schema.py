"""The shape of the vocabulary files: one pydantic model for each kind of table.

Two folders: ``shared/`` holds what every machine has in common (parts, checks, conditions, degrees,
cues, units), ``machines/`` one file per machine kind. Unknown keys are refused, so that a slip of the
pen is told and not ignored.
"""

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

Side = Literal["left", "right", "none"]
PartState = Literal["good", "watch", "writeup", "hidden"]


class Table(BaseModel):
    """Base of all tables: unknown keys and values of another type are refused, nothing changes later."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


class Measure(Table):
    """What can be measured on a part, in which unit, and a limit where a published source gives one.

    ``attribute`` is thickness, depth, pressure, level, voltage, gap, elongation, temperature ...
    ``wear`` asks for the number whenever the part is called worn. ``at_least``/``at_most`` are in
    ``unit`` and need a ``source``; without a published limit both stay empty and the maker's manual
    decides.
    """

    attribute: str
    unit: str
    wear: bool = False
    at_least: float | None = None
    at_most: float | None = None
    source: str | None = None


class Check(Table):
    """What is looked for on a part (``checks.toml``): loose, cracked, worn, leaking, works ...

    ``conditions`` names the conditions (``conditions.toml``) that answer this check. ``good`` says in
    plain words what good looks like. ``hurts`` is true where a failure can injure someone.
    ``urgency`` is ``before work``, ``this week`` or ``next service``; ``source`` its publication or
    "common practice, no source".
    """

    name: str
    conditions: list[str]
    good: str
    hurts: bool = False
    urgency: Literal["before work", "this week", "next service"] = "this week"
    source: str = "common practice, no source"


class SharedPart(Table):
    """A part as it is on every machine (``parts.toml``): a cylinder is a cylinder everywhere.

    ``heads`` are the nouns that name it, all spellings ("tyre", "tire"; "cylinder", "ram"); the name
    itself need not be repeated among them; plurals are made by rule. ``components`` names further shared
    parts that are found on it. ``caution`` is shown wherever the part is written up.
    """

    name: str
    heads: list[str] = []
    components: list[str] = []
    checks: list[str] = []
    measures: list[Measure] = []
    caution: str | None = None


class MachinePart(Table):
    """A line of the checklist: a part in a zone of one machine kind.

    ``like`` takes heads, components, checks, measures and caution from a shared part. ``kinds`` are
    the words that go before a head to name this very one ("lift", "boom" before "cylinder" or "ram");
    each kind is joined to each head to make sayings; without kinds the heads themselves are sayings.
    ``sayings`` are further whole names. ``components``, ``checks`` and ``measures`` add to those of the
    shared part, a measure of the same attribute replaces its; ``caution`` replaces. ``sided`` is true
    where there is one on each side. ``option`` names the equipment it belongs to where not every machine
    has it (such a part is never asked for unless the unit has the option). ``ask`` is the question that
    tells it from a part of the same zone whose name sounds alike. ``drop = true`` in the shop's own folder
    takes a shipped part off the list.
    """

    name: str
    like: str | None = None
    kinds: list[str] = []
    sayings: list[str] = []
    sided: bool = False
    components: list[str] = []
    checks: list[str] = []
    measures: list[Measure] = []
    option: str | None = None
    caution: str | None = None
    ask: str | None = None
    drop: bool = False


class Zone(Table):
    """A place where the walker stands, in walk order.

    ``side`` is the side of the machine one stands at there, seen from the operator's seat; a part in
    a left or right zone belongs to that side. ``sayings`` are what people call the place. ``mirror``
    names an earlier zone on the other side, whose sided parts stand here as well; one walks past them
    in the opposite order.
    """

    name: str
    side: Side = "none"
    sayings: list[str] = []
    mirror: str | None = None
    part: list[MachinePart] = []


class MachineKind(Table):
    """One machine kind (``machines/*.toml``): its names and its zones in walk order.

    ``standard`` says where the name comes from ("ISO 6165") or "trade name". A file in the shop's own
    folder that adds to a shipped kind may leave both out. ``usual`` names the options that most machines
    of the kind have: their parts are asked for unless the unit says it is without. ``either`` lists
    options of which a unit has one ("cab" or "canopy").
    """

    name: str
    standard: str
    sayings: list[str] = []
    usual: list[str] = []
    either: list[list[str]] = []
    zone: list[Zone] = []


class UnitFile(Table):
    """One machine in the yard (``units/*.toml`` in the shop's folder), laid over its machine kind.

    ``name`` is what its owner calls it, ``sayings`` what else; ``machine`` its kind. ``options`` is the
    equipment it has, ``without`` what it has not. ``zone`` adds, changes or drops parts as in a machine
    file.
    """

    name: str
    machine: str
    sayings: list[str] = []
    options: list[str] = []
    without: list[str] = []
    zone: list[Zone] = []


class Condition(Table):
    """A condition of a part (``conditions.toml``) and the words for it.

    ``form`` is ``fine`` (good, tight, works) or ``fault`` (leak, cracked, missing). ``state`` is what
    it means when said flatly, ``slight`` when said with a word that makes little of it ("a touch
    worn"), ``strong`` with one that makes much of it ("badly worn"), ``denial`` when denied ("no
    leaks"). ``nouns`` get plurals and ``verbs`` their forms by rule; ``adjectives`` can stand before
    a part ("cracked glass"); ``phrases`` are taken as they are. ``wear`` marks conditions that call
    for a number where the part has something to measure. ``alone`` is false for words that are too
    common to count without a part beside them ("off", "out"). ``checks`` narrows such words to parts of
    which one of these checks is made: "nothing" of a horn is a fault, of a hose it is none. One name may
    have several tables, each with words of another weight ("weep" and "leak").
    """

    name: str
    form: Literal["fine", "fault"]
    state: PartState
    slight: PartState | None = None
    strong: PartState | None = None
    denial: PartState = "good"
    wear: bool = False
    alone: bool = True
    checks: list[str] = []
    nouns: list[str] = []
    adjectives: list[str] = []
    verbs: list[str] = []
    phrases: list[str] = []


class Pronunciation(Table):
    """How a word sounds, in ARPAbet phones as the CMU dictionary writes them."""

    word: str
    phones: str


class SharedParts(Table):
    """The file ``shared/parts.toml``."""

    part: list[SharedPart] = Field(default=[])


class Checks(Table):
    """The file ``shared/checks.toml``."""

    check: list[Check] = Field(default=[])


class Conditions(Table):
    """The file ``shared/conditions.toml``."""

    condition: list[Condition] = Field(default=[])


class Pronunciations(Table):
    """The file ``shared/sounds.toml``."""

    pronunciation: list[Pronunciation] = Field(default=[])


class Cue(Table):
    """Words that tell how a clause is meant (``cues.toml``), by category.

    ``category`` is one of the kinds the context component knows; ``phrases`` are whole words, ``*``
    stands for one to three words between.
    """

    category: str
    phrases: list[str]


class Cues(Table):
    """The file ``shared/cues.toml``."""

    cue: list[Cue] = Field(default=[])


class Nouns(Table):
    """The file ``shared/nouns.toml``: words, in the singular, that name something on any machine."""

    noun: list[str] = Field(default=[])


class Clue(Table):
    """What tells that a part ``named`` so is the one ``meant`` (``clues.toml``): one of the words ``said`` behind it,
    a part ``beside`` it just before, or the zone that the walker ``stands`` in. ``named`` are in lower case and in the
    singular."""

    named: list[str]
    meant: str
    said: list[str]
    beside: list[str] = Field(default=[])
    stands: list[str] = Field(default=[])


class Clues(Table):
    """The file ``shared/clues.toml``."""

    clue: list[Clue] = Field(default=[])


class Command(Table):
    """A spoken command (``commands.toml``); ``goes_on`` where what follows belongs to it."""

    name: str
    phrases: list[str]
    goes_on: bool = False


class Commands(Table):
    """The file ``shared/commands.toml``."""

    command: list[Command] = Field(default=[])


class Reply(Table):
    """A short answer to a question (``replies.toml``), lower case, without punctuation."""

    name: str
    phrases: list[str]


class Replies(Table):
    """The file ``shared/replies.toml``."""

    reply: list[Reply] = Field(default=[])


class Unit(Table):
    """A unit as people say it (``units.toml``): its pint name, what it measures, all its sayings.

    ``also`` names further pint units the same words may mean ("mil"): then it is asked.
    """

    name: str
    quantity: str
    sayings: list[str]
    also: list[str] = []


class Units(Table):
    """The file ``shared/units.toml``."""

    unit: list[Unit] = Field(default=[])


class Source(Table):
    """A publication (``sources.toml``) that checks and limits rest on.

    ``cite`` is the part of a source text that names it ("49 CFR 396.11"), ``title`` what it is, ``edition``
    its date or edition. ``seen`` is ``read`` where its text or a restatement of it was read when the words
    were written, ``memory`` where it was recalled and must be looked up before one relies on it.
    """

    cite: str
    title: str
    edition: str
    seen: Literal["read", "memory"]


class Sources(Table):
    """The file ``shared/sources.toml``."""

    source: list[Source] = Field(default=[])
