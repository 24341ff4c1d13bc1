"""Where every value of a part comes from: which file, which line, of which layer."""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from saycheck.vocabulary.build import joined_sayings
from saycheck.vocabulary.compiled import Part, Vocabulary
from saycheck.vocabulary.defects import defects, in_short
from saycheck.vocabulary.files import TextFile
from saycheck.vocabulary.places import Where, lines_of
from saycheck.vocabulary.publications import in_short as publication_in_short
from saycheck.vocabulary.publications import publications
from saycheck.vocabulary.schema import Check, Measure
from saycheck.vocabulary.stack import Stack
from saycheck.vocabulary.unit import without


@dataclass(frozen=True, slots=True)
class Origin:
    """A line of a vocabulary file."""

    label: str
    line: int

    def __str__(self) -> str:
        return f"{self.label}:{self.line}"


@dataclass(frozen=True, slots=True)
class Value:
    """One value of a part: what it is for, what it says, and the lines that it was made from."""

    key: str
    text: str
    origins: tuple[Origin, ...]


def values_of(part: Part, vocabulary: Vocabulary, stack: Stack) -> list[Value]:
    """Every value of a part as it counts, in the order in which a reader asks for them."""
    own = _Tables(stack, part.name)
    like = _Tables.of_shared(stack, part.like) if part.like else None
    found = [Value("zone", zone, own.zone()) for zone in part.zones]
    found += own.one("like", part.like)
    found += [Value("said as", saying, _said(saying, part, own, like)) for saying in part.sayings]
    found += own.one("sided", "on both sides" if part.sided else None)
    found += [Value("option", text, at) for text, at in _option(part, own, stack)]
    for name in part.components:
        found.append(
            Value("found on it", name, own.word("components", name) or _word(like, "components", name))
        )
    for name in part.checks:
        found.append(Value("check", name, own.word("checks", name) or _word(like, "checks", name)))
        found.append(Value(f"  {name}", _in_short(vocabulary, name), _check_line(stack, name)))
        found += [Value(f"  {name}", text, at) for text, at in defect_words(vocabulary.checks[name])]
        found += [Value(f"  {name}", text, at) for text, at in _sources(vocabulary.checks[name].source)]
    for measure in part.measures:
        at = own.word("measures", measure.attribute) or _word(like, "measures", measure.attribute)
        found.append(Value("measure", measured(measure), at))
        found += [Value(f"  {measure.attribute}", text, home) for text, home in _sources(measure.source)]
    if part.caution:
        found.append(
            Value("caution", part.caution, own.last("caution") or (like.last("caution") if like else ()))
        )
    return found


def said_at(saying: str, part: Part, stack: Stack) -> tuple[Origin, ...]:
    """The lines that one of a part's sayings or heads was put together from."""
    like = _Tables.of_shared(stack, part.like) if part.like else None
    return _said(saying, part, _Tables(stack, part.name), like)


def home_of(name: str, stack: Stack) -> tuple[Origin, ...]:
    """The lines where a part of the machine begins, one a layer that speaks of it."""
    return _Tables(stack, name).starts()


def zone_home(name: str, stack: Stack) -> Origin:
    """The line where a zone begins in the highest layer that speaks of it."""
    found = [
        Origin(file.label, _lines(file).get(("zone", z), 1))
        for file, machine in stack.machines
        for z, zone in enumerate(machine.zone)
        if zone.name == name
    ]
    return found[-1]


def dropped(stack: Stack) -> list[tuple[str, str, Origin]]:
    """Parts that a layer takes off the list: zone, name, and the line that says so."""
    found = []
    lacks = without(stack.whole, stack.unit)
    for zone in stack.whole.zone:
        for part in zone.part:
            tables = _Tables(stack, part.name)
            if part.drop:
                found += [(zone.name, part.name, origin) for origin in tables.last("drop")]
            elif part.option in lacks:
                file = stack.machines[-1][0]
                line = next((n for key in ("without", "options") if (n := _key_line(file, key))), 1)
                found.append((zone.name, f"{part.name} ({part.option})", Origin(file.label, line)))
    return found


def measured(measure: Measure) -> str:
    """A measure in words: what, in which unit, the limit and its source."""
    limits = [
        f"{word} {value:g}"
        for word, value in (("at least", measure.at_least), ("at most", measure.at_most))
        if value is not None
    ]
    limit = f", {' and '.join(limits)} ({measure.source})" if limits else ", limit: the maker's manual"
    return f"{measure.attribute} in {measure.unit}{limit}"


class _Tables:
    """The tables of all layers that speak of one part, the lowest first."""

    def __init__(self, stack: Stack, name: str) -> None:
        self.found: list[tuple[TextFile, Where, set[str]]] = []
        for file, machine in stack.machines:
            for z, zone in enumerate(machine.zone):
                for p, part in enumerate(zone.part):
                    if part.name == name:
                        self.found.append((file, ("zone", z, "part", p), part.model_fields_set))

    @classmethod
    def of_shared(cls, stack: Stack, name: str) -> "_Tables":
        """The table of a shared part; a later file replaces it as a whole."""
        tables = cls(stack, "")
        for file, parts in stack.parts:
            for p, part in enumerate(parts.part):
                if part.name == name:
                    tables.found = [(file, ("part", p), part.model_fields_set)]
        return tables

    def starts(self) -> tuple[Origin, ...]:
        """Where each table begins."""
        return tuple(Origin(file.label, _lines(file).get(at, 1)) for file, at, _ in self.found)

    def last(self, key: str) -> tuple[Origin, ...]:
        """The line of a key in the highest layer that sets it."""
        for file, at, keys in reversed(self.found):
            if key in keys:
                return (Origin(file.label, _lines(file).get((*at, key), 1)),)
        return ()

    def first(self, key: str) -> tuple[Origin, ...]:
        """The line of a key in the lowest layer, where the table must set it."""
        file, at, _ = self.found[0]
        return (Origin(file.label, _lines(file)[*at, key]),)

    def one(self, key: str, text: str | None) -> Iterator[Value]:
        """The value of a key that one layer decides, nothing where it is not set."""
        if text:
            yield Value(key, text, self.last(key))

    def zone(self) -> tuple[Origin, ...]:
        """The line where the part's zone begins in the lowest layer that speaks of the part."""
        for file, at, _ in self.found:
            return (Origin(file.label, _lines(file).get(at[:2], 1)),)
        return ()

    def word(self, key: str, word: str) -> tuple[Origin, ...]:
        """The line on which a word of a list stands, in the lowest layer that has it."""
        for file, at, keys in self.found:
            if key in keys and (line := _line_with(file, (*at, key), word)):
                return (Origin(file.label, line),)
        return ()


@lru_cache(maxsize=64)
def _lines(file: TextFile) -> dict[Where, int]:
    return lines_of(file.text)


@lru_cache(maxsize=64)
def _texts(file: TextFile) -> tuple[list[str], list[int]]:
    """The lines of a file, lower case and single-spaced, and the lines on which keys and tables stand."""
    return [" ".join(line.lower().split()) for line in file.text.splitlines()], sorted(_lines(file).values())


def _line_with(file: TextFile, where: Where, word: str) -> int | None:
    """The line from a key to the next that holds the word in quotes, whatever its capitals and blanks."""
    start = _lines(file)[where]
    lines, keys = _texts(file)
    after = bisect_right(keys, start)
    end = keys[after] if after < len(keys) else len(lines) + 1
    wanted = f'"{word.lower()}"'
    return next((n for n in range(start, end) if wanted in lines[n - 1]), None)


def _key_line(file: TextFile, key: str) -> int | None:
    return _lines(file).get((key,))


def _word(like: _Tables | None, key: str, word: str) -> tuple[Origin, ...]:
    return like.word(key, word) if like else ()


def _said(saying: str, part: Part, own: _Tables, like: _Tables | None) -> tuple[Origin, ...]:
    """The lines that a saying was put together from."""
    if saying == part.name.lower():
        return own.first("name")
    if at := own.word("sayings", saying):
        return at
    for kind, head, joined in joined_sayings(part.kinds, part.heads):
        if joined == saying:
            return (*own.word("kinds", kind), *_head(head, part, like))
    return _head(saying, part, like)


def _head(head: str, part: Part, like: _Tables | None) -> tuple[Origin, ...]:
    if like is None:
        return ()
    return like.word("heads", head) or (like.last("name") if head == (part.like or "").lower() else ())


def _option(part: Part, own: _Tables, stack: Stack) -> Iterator[tuple[str, tuple[Origin, ...]]]:
    if part.option:
        yield f"only where fitted: {part.option}", own.last("option")
        return
    settled = next((p.option for z in stack.whole.zone for p in z.part if p.name == part.name), None)
    if settled is None:
        return
    file = stack.machines[-1][0]
    if stack.unit and settled in stack.unit.options:
        line = _line_with(file, ("options",), settled) or 1
        yield f"{settled}: this unit has it", (*own.last("option"), Origin(file.label, line))
        return
    yield f"{settled}: usual, asked for unless the unit is without", own.last("option")


def defect_words(check: Check) -> Iterator[tuple[str, tuple[Origin, ...]]]:
    """The words for each fault that answers a check, and the line on which they begin."""
    for condition, file, place in defects(check):
        yield in_short(condition), (Origin(file.label, _lines(file).get(("condition", place), 1)),)


def _sources(text: str | None) -> Iterator[tuple[str, tuple[Origin, ...]]]:
    """The publications behind a check or a limit, with their dates."""
    for source, file, place in publications(text):
        yield publication_in_short(source), (Origin(file.label, _lines(file).get(("source", place), 1)),)


def _in_short(vocabulary: Vocabulary, name: str) -> str:
    check = vocabulary.checks[name]
    hurts = ", can hurt" if check.hurts else ""
    return f"{check.good}; a fault: {check.urgency}{hurts}; {check.source}"


def _check_line(stack: Stack, name: str) -> tuple[Origin, ...]:
    for file, checks in reversed(stack.check_files):
        for c, check in enumerate(checks.check):
            if check.name == name:
                return (Origin(file.label, _lines(file).get(("check", c), 1)),)
    return ()
