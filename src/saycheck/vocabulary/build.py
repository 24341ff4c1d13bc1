"""From tables to the compiled vocabulary: sayings spelled out, sides and mirror zones unfolded."""

from collections.abc import Iterable, Mapping

from saycheck.vocabulary.compiled import Line, Part, Vocabulary, Zone
from saycheck.vocabulary.schema import Check, MachineKind, MachinePart, Measure, SharedPart
from saycheck.vocabulary.schema import Zone as ZoneTable


def build(
    kind: str,
    machine: MachineKind,
    shared: Mapping[str, SharedPart],
    checks: Mapping[str, Check],
    version: str,
    unit: str | None = None,
) -> Vocabulary:
    """Compile a machine kind whose references have been checked."""
    lines = tuple(line for zone in machine.zone for line in _lines(zone, machine))
    homes: dict[str, dict[str, None]] = {}
    for line in lines:
        homes.setdefault(line.part, {})[line.zone] = None
    parts = tuple(
        _part(part, tuple(homes[part.name]), shared) for zone in machine.zone for part in _kept(zone)
    )
    return Vocabulary(
        kind=kind,
        name=machine.name,
        standard=machine.standard,
        sayings=_words([machine.name, kind.replace("-", " "), *machine.sayings]),
        zones=tuple(
            Zone(zone.name, zone.side, _words([zone.name, *zone.sayings]), zone.mirror)
            for zone in machine.zone
        ),
        lines=lines,
        parts=parts,
        shared=shared,
        checks=checks,
        version=version,
        unit=unit,
    )


def _lines(zone: ZoneTable, machine: MachineKind) -> Iterable[Line]:
    """The lines of one zone: first what it mirrors, met in the opposite order, then its own."""
    for other in machine.zone:
        if other.name == zone.mirror:
            for part in reversed(_kept(other)):
                if part.sided:
                    yield Line(zone.name, part.name, zone.side, part.option)
    for part in _kept(zone):
        if not part.sided:
            yield Line(zone.name, part.name, "none", part.option)
        elif zone.side == "none":
            yield Line(zone.name, part.name, "left", part.option)
            yield Line(zone.name, part.name, "right", part.option)
        else:
            yield Line(zone.name, part.name, zone.side, part.option)


def _kept(zone: ZoneTable) -> list[MachinePart]:
    return [part for part in zone.part if not part.drop]


def _part(part: MachinePart, zones: tuple[str, ...], shared: Mapping[str, SharedPart]) -> Part:
    like = shared[part.like] if part.like else SharedPart(name=part.name)
    heads = _words([like.name, *like.heads])
    joined = [saying for _, _, saying in joined_sayings(part.kinds, heads)]
    measures: dict[str, Measure] = {m.attribute: m for m in [*like.measures, *part.measures]}
    return Part(
        name=part.name,
        zones=zones,
        sayings=_words([part.name, *(joined if part.kinds else heads), *part.sayings]),
        heads=heads,
        components=tuple(dict.fromkeys([*like.components, *part.components])),
        checks=tuple(dict.fromkeys([*like.checks, *part.checks])),
        measures=tuple(measures.values()),
        caution=part.caution or like.caution,
        option=part.option,
        sided=part.sided,
        like=part.like,
        kinds=tuple(part.kinds),
        ask=part.ask,
    )


def joined_sayings(kinds: Iterable[str], heads: Iterable[str]) -> Iterable[tuple[str, str, str]]:
    """Each kind with each head that it names better than the bare head: kind, head, both together."""
    heads = list(heads)
    for kind in kinds:
        for head in heads:
            if joined := _joined(kind, head):
                yield kind, head, joined


def _joined(kind: str, head: str) -> str | None:
    """Kind before head: "lift" + "ram" is "lift ram", "hoe bucket" + "bucket tooth" is "hoe bucket tooth".

    None where the head begins with the whole kind: it would name this part no better than the bare head.
    """
    before, after = kind.lower().split(), head.lower().split()
    if after[: len(before)] == before:
        return None
    return " ".join(before[:-1] + after if before[-1] == after[0] else before + after)


def _words(words: Iterable[str]) -> tuple[str, ...]:
    """Lower case, single spaces, no two alike, in the order given."""
    return tuple(dict.fromkeys(" ".join(word.lower().split()) for word in words))
