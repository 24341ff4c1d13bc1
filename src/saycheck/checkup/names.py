"""Names that point nowhere, that stand twice, that no one could say, and limits without a publication."""

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import TypeVar

from saycheck.checkup.fault import Fault, at
from saycheck.coverage.places import Places
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.files import TextFile, did_you_mean, parse, read_text
from saycheck.vocabulary.publications import COMMON_PRACTICE
from saycheck.vocabulary.schema import (
    Check,
    Conditions,
    Cues,
    Measure,
    Pronunciations,
    Sources,
    Table,
    Units,
)
from saycheck.vocabulary.stack import Stack
from saycheck.vocabulary.waiting import Waitings

T = TypeVar("T", bound=Table)

PHONES = frozenset(
    "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH".split()
)


def shared_file(roots: Sequence[Path], name: str, model: type[T]) -> list[tuple[TextFile, T]]:
    """A shared file of each folder that has it, beside its text; the shipped one first."""
    found = [(root, root / "shared" / name) for root in roots]
    return [
        (text, parse(text, model))
        for root, path in found
        if path.is_file()
        for text in [read_text(path, root)]
    ]


def wrong_names(roots: Sequence[Path], vocabularies: Sequence[Vocabulary], stack: Stack) -> Iterator[Fault]:
    """Names in the shared files that point to nothing; ``stack`` is that of any kind, for the checks."""
    conditions = {
        one.name for _, table in shared_file(roots, "conditions.toml", Conditions) for one in table.condition
    }
    yield from _conditions(roots, stack, conditions)
    zones = {zone.name for known in vocabularies for zone in known.zones}
    for file, places in shared_file(roots, "places.toml", Places):
        for p, place in enumerate(places.place):
            yield from _known(file, ("place", p, "zone"), place.zone, zones, "no machine has a zone")
            yield from _known(file, ("place", p, "at"), place.at, zones, "no machine has a zone")
            for kind in place.machines:
                kinds = {known.kind for known in vocabularies}
                yield from _known(file, ("place", p, "machines"), kind, kinds, "there is no machine kind")
    for file, waitings in shared_file(roots, "waiting.toml", Waitings):
        for w, waiting in enumerate(waitings.waiting):
            for name in waiting.checks:
                yield from _known(file, ("waiting", w, "checks"), name, stack.checks, "there is no check")
            for name in waiting.conditions:
                yield from _known(
                    file, ("waiting", w, "conditions"), name, conditions, "there is no condition"
                )
    yield from _categories(roots)
    yield from _units(roots)
    for file, sounds in shared_file(roots, "sounds.toml", Pronunciations):
        for s, sound in enumerate(sounds.pronunciation):
            for phone in sound.phones.split():
                yield from _known(file, ("pronunciation", s, "phones"), phone, PHONES, "there is no sound")


def _conditions(roots: Sequence[Path], stack: Stack, conditions: set[str]) -> Iterator[Fault]:
    for file, checks in stack.check_files:
        for c, check in enumerate(checks.check):
            for name in check.conditions:
                yield from _known(file, ("check", c, "conditions"), name, conditions, "there is no condition")
    answered = {name for check in stack.checks.values() for name in check.conditions}
    for file, table in shared_file(roots, "conditions.toml", Conditions):
        for c, condition in enumerate(table.condition):
            if condition.name not in answered:
                yield at(
                    file,
                    ("condition", c, "name"),
                    f"no check is answered by '{condition.name}'; name it in the conditions of one in checks.toml",
                )


def _categories(roots: Sequence[Path]) -> Iterator[Fault]:
    """The shipped categories are those that understanding asks for; a new one would do nothing."""
    tables = shared_file(roots, "cues.toml", Cues)
    known = {cue.category for cue in tables[0][1].cue} if tables else set()
    for file, cues in tables[1:]:
        for c, cue in enumerate(cues.cue):
            yield from _known(
                file, ("cue", c, "category"), cue.category, known, "nothing asks for a category"
            )


def _units(roots: Sequence[Path]) -> Iterator[Fault]:
    import pint

    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    ours = {"thread", "finger", "mark", "count", "angle"}
    for file, units in shared_file(roots, "units.toml", Units):
        for u, unit in enumerate(units.unit):
            for name in [unit.name, *unit.also]:
                if name not in ours and not _is_unit(name, registry):
                    key = "name" if name == unit.name else "also"
                    yield at(file, ("unit", u, key), f"pint knows no unit '{name}'; look it up in its list")


def _is_unit(name: str, registry: object) -> bool:
    from saycheck.understanding.findings import SPELLED

    try:
        registry.Unit(SPELLED.get(name, name))  # type: ignore[attr-defined]
    except Exception:  # pint raises several kinds for names that are none
        return False
    return True


def without_source(roots: Sequence[Path], stacks: Iterable[Stack]) -> Iterator[Fault]:
    """Checks and limits whose source is no publication in ``sources.toml``."""
    cites = [one.cite for _, table in shared_file(roots, "sources.toml", Sources) for one in table.source]
    told: set[Fault] = set()
    for stack in stacks:
        for file, where, owner in _sourced(stack):
            fault = _source_fault(file, where, owner, cites)
            if fault and fault not in told:
                told.add(fault)
                yield fault


Sourced = Check | Measure


def _sourced(stack: Stack) -> Iterator[tuple[TextFile, tuple[str | int, ...], Sourced]]:
    for file, checks in stack.check_files:
        for c, check in enumerate(checks.check):
            yield file, ("check", c, "source"), check
    for file, parts in stack.parts:
        for p, part in enumerate(parts.part):
            for measure in part.measures:
                yield file, ("part", p, "measures"), measure
    for file, machine in stack.machines:
        for z, zone in enumerate(machine.zone):
            for p, line in enumerate(zone.part):
                for measure in line.measures:
                    yield file, ("zone", z, "part", p, "measures"), measure


def _source_fault(
    file: TextFile, where: tuple[str | int, ...], owner: Sourced, cites: Sequence[str]
) -> Fault | None:
    source = owner.source
    if source is None or source == COMMON_PRACTICE or any(cite in source for cite in cites):
        return None
    return at(
        file,
        where,
        f"the source '{source}' names no publication of shared/sources.toml; add it there, "
        f"or say '{COMMON_PRACTICE}'",
    )


def _known(
    file: TextFile, where: tuple[str | int, ...], name: str, known: Iterable[str], complaint: str
) -> Iterator[Fault]:
    known = list(known)
    if name not in known:
        yield at(file, where, f"{complaint} '{name}'{did_you_mean(name, known)}")
