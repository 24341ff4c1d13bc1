"""Which lines a finding speaks of: its own line, or all that a general statement means.

"Tyres all good" speaks of every tyre, "lights all work" of every light, "cab later" of all that is in the
cab. A general statement reaches as far as its words allow and no further: hoses that are good at the
front say nothing of those at the rear, and a cab that is fine says nothing of the seat belt in it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from weakref import WeakKeyDictionary

from saycheck.coverage.names import (
    UNCOUNTED,
    Called,
    Names,
    Words,
    folded,
    is_plural,
    names_of,
    names_things,
    picks,
    singular,
    words_of,
)
from saycheck.coverage.wording import said
from saycheck.models.walk import Finding
from saycheck.vocabulary.compiled import Line, Vocabulary

# What is put off or hidden is so for a whole place; what is fine or broken there must be named.
OF_A_PLACE = frozenset(["later", "hidden"])
OF_A_LEVEL = frozenset(["low", "high", "level"])
OF_A_FILL = frozenset(["gal", "L", "mL", "quart", "pint", "percent"])
TROUBLE = frozenset(["writeup", "watch"])
# Words before "glass" that do not tell which glass.
NOT_WHICH = frozenset(["", "the", "all", "and", "cab", "of", "her", "its", "then"])
# A component that more parts than this have tells none of them.
OWNERS_MOST = 4

KEPT_MOST = 5000
"""Findings whose reach is remembered."""

Places = frozenset[int]


@dataclass(frozen=True, slots=True)
class Coverage:
    """The lines (places in ``Vocabulary.lines``) a finding speaks of.

    ``own`` are those it names by themselves. ``loose`` are those it means among others, or without
    saying which side: they count where nothing closer was said of a line.
    """

    own: Places = frozenset()
    loose: Places = frozenset()


_plain: "WeakKeyDictionary[Names, dict[tuple[str | None, ...], Coverage]]" = WeakKeyDictionary()
"""What a name reaches where that hangs on nothing else said: by line, part, name and side."""


class Reach:
    """How far findings reach on one machine kind; ``text`` is the transcript they point into."""

    def __init__(self, vocabulary: Vocabulary, text: str = "") -> None:
        self.text = text
        self.vocabulary = vocabulary
        self._kept: dict[int, tuple[Finding, Coverage]] = {}
        self.lines = vocabulary.lines
        self.zones = vocabulary.zones
        self.parts = vocabulary.parts
        self.names = names_of(vocabulary)
        self.lines_of = self.names.lines
        self._plain = _plain.setdefault(self.names, {})
        if len(self._plain) > KEPT_MOST:
            self._plain.clear()

    def kept(self, finding: Finding) -> Coverage:
        """The same as a call, worked out once for each finding as it is."""
        known = self._kept.get(id(finding))
        if known is None or known[0] is not finding:
            if len(self._kept) > KEPT_MOST:
                self._kept.clear()
            known = finding, self(finding)
            self._kept[id(finding)] = known
        return known[1]

    def __call__(self, finding: Finding) -> Coverage:
        """The lines that a finding speaks of, none where its part has no place on the list."""
        if finding.line not in self.lines_of:
            return self._of_words(finding)
        key = (finding.line, finding.part, finding.heard_as, finding.side)
        if (known := self._plain.get(key)) is not None:
            return known
        part = str(finding.line)
        called = self.names.called(part, finding.heard_as)
        if not (called and _may_mean_more(called.last)) and not self.names.fluids(part):
            others = [name for name in self.names.within(finding.part) if name != part]
            self._plain[key] = _all([self._of_line(finding, name) for name in (part, *others)])
            return self._plain[key]
        found = self._general(finding, called) if called and self._is_general(finding, called) else None
        also = {*self.names.within(finding.part), *self._filled_with(finding)} - {part}
        return _all([found or self._of_line(finding, part), *(self._of_line(finding, o) for o in also)])

    def _of_line(self, finding: Finding, part: str) -> Coverage:
        """The lines of one part, those on the side of the finding."""
        own = self._sided(finding, self.lines_of[part])
        sided = any(self.lines[place].side != "none" for place in own)
        return Coverage(loose=own) if sided and finding.side == "none" else Coverage(own=own)

    def _is_general(self, finding: Finding, called: Called) -> bool:
        """Whether the word said for a line means more than it.

        A plural does, except where the line itself is a plural and the side is told ("nuts all there" at
        the left front are those of that wheel) and where some are picked out ("rollers: the third one
        leaks"). So does glass, where nothing says which and it is not one pane that is broken.
        """
        if called.last in UNCOUNTED:
            means_more = called.before in NOT_WHICH and finding.state not in TROUBLE
        else:
            several = is_plural(words_of(str(finding.line))[-1])
            means_more = is_plural(called.last) and (not several or finding.side in ("both", "none"))
        return means_more and not self._picks(finding, called.words)

    def _picks(self, finding: Finding, name: Words) -> bool:
        """Whether a finding picks some out of those it names."""
        words = words_of(f"{finding.heard_as} {said(finding, self.text)}")
        return picks(word for word in words if singular(word) not in name)

    def _general(self, finding: Finding, called: Called) -> Coverage | None:
        """All lines that a plural means, as far as the side and the place where it was said allow.

        None where they are no more than the finding's own.
        """
        own = self._sided(finding, self.lines_of[str(finding.line)])
        for zone in self.zones:
            if folded(zone.name) == called.words and names_things(zone):
                return Coverage(loose=own | self._in_zone(zone.name))
        everywhere = any(self.lines[place].side != "none" for place in own)
        zones = {self.lines[place].zone for place in own} | {finding.zone}
        meant = (place for part in self.names.of_kind(called.words) for place in self.lines_of[part])
        reached = own | self._sided(finding, (p for p in meant if everywhere or self.lines[p].zone in zones))
        return Coverage(loose=reached) if reached > own else None

    def _filled_with(self, finding: Finding) -> Iterable[str]:
        """The fluid in a tank or housing whose level was told ("hydraulic tank is down five gallons")."""
        fluids = self.names.fluids(str(finding.line))
        if not fluids or finding.condition in OF_A_LEVEL:
            return fluids
        measured = any(m.unit in OF_A_FILL for m in finding.measurements)
        return fluids if measured or OF_A_LEVEL & set(words_of(said(finding, self.text))) else []

    def _of_words(self, finding: Finding) -> Coverage:
        """The lines meant by a name that understanding found no line for."""
        raw = [word for word in words_of(finding.part) if word not in ("all", "the")]
        words = folded(" ".join(raw))
        if zone := self.names.zones.get(words):
            told = finding.state in OF_A_PLACE or (names_things(zone) and finding.state == "good")
            return Coverage(loose=self._in_zone(zone.name)) if told else Coverage()
        here = self._here(finding, self.names.of_kind(words))
        if here and is_plural(raw[-1]) and not self._picks(finding, words):
            return Coverage(loose=here)
        if self._is_one_part(here):
            return Coverage(own=here)
        owners = [part for end in range(len(words) - 1, 0, -1) for part in self.names.named(words[:end])]
        if owners:
            return Coverage(own=self._sided(finding, self.lines_of[owners[0]]))
        component = self.names.shared.get(words)
        owners = [part.name for part in self.parts if component in part.components]
        here = self._here(finding, owners)
        return Coverage(own=here) if self._is_one_part(here) and len(owners) <= OWNERS_MOST else Coverage()

    def _is_one_part(self, places: Places) -> bool:
        return len({self.lines[place].part for place in places}) == 1

    def _here(self, finding: Finding, parts: Iterable[str]) -> Places:
        """The lines of these parts in the zone of the finding, on its side."""
        places = (place for part in parts for place in self.lines_of[part])
        return self._sided(finding, (p for p in places if self.lines[p].zone == finding.zone))

    def _sided(self, finding: Finding, places: Iterable[int]) -> Places:
        """Those of the lines that are on the side of the finding; a line without side is on every one."""
        return frozenset(place for place in places if _on_side(finding, self.lines[place]))

    def _in_zone(self, zone: str) -> Places:
        return frozenset(place for place, line in enumerate(self.lines) if line.zone == zone)


def _on_side(finding: Finding, line: Line) -> bool:
    return line.side == "none" or finding.side in (line.side, "both", "none")


def _may_mean_more(word: str) -> bool:
    """Whether a word can mean several parts: a plural, or glass."""
    return word in UNCOUNTED or is_plural(word)


def _all(some: Sequence[Coverage]) -> Coverage:
    if len(some) == 1:
        return some[0]
    return Coverage(
        frozenset(place for one in some for place in one.own),
        frozenset(place for one in some for place in one.loose),
    )
