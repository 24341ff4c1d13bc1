"""Which known parts a line of a shop's list means: by wording, by the sayings of the parts, by near spelling."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from saycheck.shoplist.lines import Line
from saycheck.vocabulary.compiled import Part, Vocabulary, Zone
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Conditions

NEAR = 88.0
"""Likeness (rapidfuzz, 0 to 100) above which words count as the same, slips of the pen and plurals apart."""

_SIDES = frozenset("left right lh rh l/h r/h nearside offside near off side both each all any".split())
_ORDERS = frozenset(
    "check checks checked inspect inspection look looks looked at for of the a an is are to be ensure verify test "
    "tests visually visual and or in on no not free from signs sign general overall condition conditions operation "
    "operational operates operating functioning function working works work correctly properly proper secure "
    "security securely leaks leak leaking leakage damage damaged wear worn cracks crack cracked loose missing level "
    "levels pressure pressures clean cleanliness present fitted legible state correct adjustment adjusted tight "
    "tightness full fluid amount quality good ok okay with".split()
)
_PARTS_OF_LINE = re.compile(r"\s*(?:,|;|/|&|\+|\band\b)\s*")


@dataclass(frozen=True, slots=True)
class Match:
    """A line of the list and what it means: parts of the machine, ``how`` they were found, and what is left.

    ``zone`` is set where the line is a heading that names one. ``left`` are the words of the line that no
    part answers; the line is to be placed by a person where ``parts`` is empty or something is left.
    """

    line: Line
    parts: tuple[Part, ...] = ()
    how: str = ""
    zone: Zone | None = None
    left: tuple[str, ...] = ()

    @property
    def is_placed(self) -> bool:
        """Whether nothing of the line is left for a person."""
        return bool(self.zone) or self.line.is_heading or (bool(self.parts) and not self.left)


def matched(lines: Iterable[Line], vocabulary: Vocabulary) -> list[Match]:
    """One match for every line, in their order."""
    known = _Known(vocabulary)
    zone: Zone | None = None
    found = []
    for line in lines:
        if (heading := known.zone(line.text)) and (line.is_heading or not known.parts(line.text, None)):
            zone = heading
            found.append(Match(line, zone=heading))
        elif line.is_heading:
            zone = None
            found.append(Match(line))
        else:
            found.append(_match(line, known, known.zone(line.zone) or zone))
    return found


def _match(line: Line, known: "_Known", zone: Zone | None) -> Match:
    if whole := known.parts(line.text, zone):
        return Match(line, whole[0], whole[1])
    parts: list[Part] = []
    left = []
    hows = []
    for piece in _PARTS_OF_LINE.split(line.text):
        if not content(piece):
            continue
        if one := known.parts(piece, zone):
            parts += one[0]
            hows.append(one[1])
        else:
            left.append(piece)
    return Match(line, tuple(dict.fromkeys(parts)), ", ".join(dict.fromkeys(hows)), left=tuple(left))


def content(text: str) -> list[str]:
    """The words of a line that name a thing: without sides, orders and what is looked for."""
    words = re.findall(r"[a-z0-9][a-z0-9'\-]*", text.lower().replace("/h", "h"))
    return [word for word in words if word not in _SIDES and word not in _ORDERS]


class _Known:
    """The sayings of a machine's parts, ready to be looked up."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.zones = vocabulary.zones
        self.parts_known = vocabulary.parts
        self.looked_for = _looked_for()
        self.exact: dict[str, list[tuple[Part, str]]] = {}
        for part in vocabulary.parts:
            for saying in part.sayings:
                self._add(saying, part, "named so")
        for part in vocabulary.parts:
            for head in part.heads:
                self._add(head, part, f"a {part.family}")

    def _add(self, words: str, part: Part, how: str) -> None:
        plain = folded(words)
        if plain and all(part is not owner for owner, _ in self.exact.get(plain, [])):
            self.exact.setdefault(plain, []).append((part, how))

    def zone(self, text: str) -> Zone | None:
        """The zone that a heading names."""
        plain = " ".join(text.lower().split())
        for zone in self.zones:
            if plain in zone.sayings or plain == zone.name.lower():
                return zone
        return None

    def parts(self, text: str, zone: Zone | None) -> tuple[tuple[Part, ...], str] | None:
        """The parts that words mean and how they were found; None where they mean none."""
        for plain in _ways(text):
            if found := self.exact.get(plain):
                return self._here(found, zone)
        return self._all_of(text) or self._inside(text, zone) or self._near(text, zone)

    def _all_of(self, text: str) -> tuple[tuple[Part, ...], str] | None:
        """A line that names a zone means all that stands there on every machine."""
        for words in (text, " ".join(content(text))):
            if zone := self.zone(words):
                here = [part for part in self.parts_known if zone.name in part.zones and not part.option]
                return tuple(here), f"all of {zone.name}"
        return None

    def _inside(self, text: str, zone: Zone | None) -> tuple[tuple[Part, ...], str] | None:
        """Sayings inside a line of which the rest only says what is looked for; the longest first."""
        words = folded(" ".join(re.findall(r"[a-z0-9][a-z0-9']*", text.lower()))).split()
        parts: list[Part] = []
        at = 0
        while at < len(words):
            end = next((n for n in range(len(words), at, -1) if " ".join(words[at:n]) in self.exact), None)
            if end is not None:
                parts += self._here(self.exact[" ".join(words[at:end])], zone)[0]
            elif words[at] not in self.looked_for:
                return None
            at = end or at + 1
        return (tuple(dict.fromkeys(parts)), "named in it") if parts else None

    def _near(self, text: str, zone: Zone | None) -> tuple[tuple[Part, ...], str] | None:
        from rapidfuzz import fuzz, process

        plain = folded(" ".join(content(text)))
        if len(plain) < 4:
            return None
        best = process.extractOne(plain, self.exact.keys(), scorer=fuzz.token_sort_ratio, score_cutoff=NEAR)
        if best is None:
            return None
        parts, _ = self._here(self.exact[best[0]], zone)
        return parts, f"spelt nearly like '{best[0]}'"

    @staticmethod
    def _here(found: Sequence[tuple[Part, str]], zone: Zone | None) -> tuple[tuple[Part, ...], str]:
        """Those in the zone of the list where there are any, else all of that name."""
        here = [one for one in found if zone and zone.name in one[0].zones]
        kept = here or found
        return tuple(part for part, _ in kept), kept[0][1]


def _looked_for() -> frozenset[str]:
    """Words that say what is looked for, and name no part: those of the conditions, and the small ones."""
    conditions = [one for table in shared_tables("conditions.toml", Conditions) for one in table.condition]
    said = [
        phrase
        for one in conditions
        for phrase in [*one.nouns, *one.adjectives, *one.verbs, *one.phrases]
    ]  # fmt: skip
    words = {_single(word) for phrase in said for word in phrase.lower().replace("-", " ").split()}
    return frozenset(words | {_single(word) for word in _ORDERS | _SIDES} | {"date", "up", "topped"})


def _ways(text: str) -> list[str]:
    """The whole words of a line, then only those that name a thing."""
    words = re.findall(r"[a-z0-9][a-z0-9'\-]*", text.lower())
    sideless = [word for word in words if word not in _SIDES]
    return list(dict.fromkeys(folded(" ".join(one)) for one in (words, sideless, content(text))))


def folded(words: str) -> str:
    """Words with plurals and hyphens made one, so that "tyres" finds "tyre"."""
    return " ".join(_single(word) for word in words.lower().replace("-", " ").split())


def _single(word: str) -> str:
    if len(word) > 3 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("shes", "ches", "sses", "xes")):
        return word[:-2]
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us")) else word
