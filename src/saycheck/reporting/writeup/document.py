"""The write-up as a document: every word that will stand on the page, none of them marked up.

Made by ``compose.compose``; the settings (``pdf``, ``html``, ``rows``) only lay it out.
"""

from saycheck.models.base import Model


class Picture(Model):
    """A photograph: its file name in the walk and what it shows, for those who cannot see it."""

    file: str
    alt: str


class Plot(Model):
    """A small plot as SVG, the same said in words, and what stands under it for those who see it."""

    svg: str
    words: str
    caption: str = ""


class Reading(Model):
    """A measurement in words, the limit it is held against, what that says, and where the limit is from.

    ``label`` says what it is, "measured" or "leak".
    """

    label: str = "measured"
    value: str
    limit: str = ""
    verdict: str = ""
    source: str = ""


class Decided(Model):
    """What the owner chose: "now", "later" or "not at all"; who, when (a date) and with what note."""

    choice: str
    who: str
    when: str
    note: str = ""


class Entry(Model):
    """One finding: part with side, what was said of it, and the words themselves.

    ``place`` is the zone, ``time`` where the words are in the sound. ``why`` says how urgent it is and by
    which source, ``injures`` that a failure can hurt someone. ``doubts`` are what a reviewer has not
    settled. ``since`` is when it was first seen, on an earlier walk. ``waiting`` is what leaving it would mean,
    with its source.
    """

    number: int
    finding: str
    state: str
    part: str
    said: str
    place: str
    time: str
    quote: str
    readings: list[Reading] = []
    injures: bool = False
    urgency: str = ""
    urgency_source: str = ""
    waiting: str = ""
    waiting_source: str = ""
    costs: list[str] = []
    tornado: Plot | None = None
    since: str = ""
    caution: str = ""
    doubts: list[str] = []
    pictures: list[Picture] = []
    trend: Plot | None = None
    decided: Decided | None = None


class Urgent(Model):
    """The findings to decide that are equally urgent, the dangerous first."""

    urgency: str
    heading: str
    entries: list[Entry]


class Skipped(Model):
    """The lines of a zone that were never mentioned; ``whole`` where none of its lines was."""

    zone: str
    names: list[str]
    whole: bool


class Line(Model):
    """A line of the checklist: its state and the word for it, and the part."""

    state: str
    word: str
    part: str


class ZoneLines(Model):
    """The checklist lines of one zone."""

    zone: str
    lines: list[Line]


class Fact(Model):
    """A name and what belongs to it."""

    name: str
    value: str


class WriteUp(Model):
    """The whole document, in the order of its pages.

    ``warning`` stands at the top of every page, empty where the walk is reviewed and no question is open.
    """

    title: str
    unit: str
    kind: str
    walk: str
    reviewers: list[str]
    warning: str
    facts: list[Fact]
    counts: list[Fact]
    deciding: list[Urgent]
    deciding_note: str
    watching: list[Entry]
    hidden: list[Entry]
    put_off: list[Entry]
    skipped: list[Skipped]
    questions: list[str]
    unclear: list[Fact]
    checklist: list[ZoneLines]
    spoken: str
    cautions: list[Fact]
    making: list[Fact]
    digests: list[Fact]
