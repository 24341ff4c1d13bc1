"""Names that point to something else in the vocabulary must point to something that is there."""

from collections.abc import Mapping

from saycheck.vocabulary.files import TextFile, did_you_mean
from saycheck.vocabulary.places import Where
from saycheck.vocabulary.schema import Check, MachineKind, MachinePart, SharedPart, SharedParts, Zone

Shared = Mapping[str, SharedPart]
Checks = Mapping[str, Check]


def check_shared(file: TextFile, tables: SharedParts, shared: Shared, checks: Checks) -> None:
    """Refuse a shared part that stands twice in its file or names an unknown component or check."""
    seen: set[str] = set()
    for place, part in enumerate(tables.part):
        where: Where = ("part", place)
        if part.name in seen:
            file.refuse(
                (*where, "name"), f"the part '{part.name}' is there already; give this one another name"
            )
        seen.add(part.name)
        _check_lists(file, where, part, shared, checks)


def check_machine(
    file: TextFile, tables: MachineKind, whole: MachineKind, shared: Shared, checks: Checks
) -> None:
    """Refuse a machine file with a name that stands twice or points nowhere.

    ``whole`` is the machine kind with all layers in it, against which zones and sides are judged.
    """
    if not whole.zone:
        file.refuse((), "a machine kind needs at least one [[zone]]")
    homes = {part.name: zone.name for zone in reversed(whole.zone) for part in zone.part}
    seen: set[str] = set()
    for z, zone in enumerate(tables.zone):
        where: Where = ("zone", z)
        if f"zone {zone.name}" in seen:
            file.refuse((*where, "name"), f"the zone '{zone.name}' is there already; put its parts together")
        seen.add(f"zone {zone.name}")
        _check_mirror(file, where, zone, whole)
        for p, part in enumerate(zone.part):
            spot: Where = (*where, "part", p)
            if part.name in seen or homes[part.name] != zone.name:
                file.refuse(
                    (*spot, "name"),
                    f"the part '{part.name}' stands already in the zone '{homes[part.name]}'; "
                    "give this one another name",
                )
            seen.add(part.name)
            if part.like is not None and part.like not in shared:
                hint = did_you_mean(part.like, shared) or "; shared/parts.toml lists them all"
                file.refuse((*spot, "like"), f"there is no shared part '{part.like}'{hint}")
            if part.sided and zone.side != "none" and not _is_mirrored(zone, whole):
                file.refuse(
                    (*spot, "sided"),
                    f"'{part.name}' is sided, but no zone mirrors '{zone.name}', "
                    "so its other side has no place",
                )
            _check_lists(file, spot, part, shared, checks)


def _check_lists(
    file: TextFile, where: Where, part: SharedPart | MachinePart, shared: Shared, checks: Checks
) -> None:
    for name in part.components:
        if name not in shared:
            hint = did_you_mean(name, shared) or "; shared/parts.toml lists them all"
            file.refuse((*where, "components"), f"there is no shared part '{name}'{hint}")
    for name in part.checks:
        if name not in checks:
            hint = did_you_mean(name, checks) or "; shared/checks.toml lists them all"
            file.refuse((*where, "checks"), f"there is no check '{name}'{hint}")
    for measure in part.measures:
        if (measure.at_least is not None or measure.at_most is not None) and not measure.source:
            file.refuse(
                (*where, "measures"),
                f"the limit of '{measure.attribute}' needs a source; without one leave the limit out "
                "and let the maker's manual decide",
            )


def _check_mirror(file: TextFile, where: Where, zone: Zone, whole: MachineKind) -> None:
    if zone.mirror is None:
        return
    names = [other.name for other in whole.zone]
    if zone.mirror not in names:
        hint = did_you_mean(zone.mirror, names)
        file.refuse((*where, "mirror"), f"there is no zone '{zone.mirror}' to mirror{hint}")
    other = whole.zone[names.index(zone.mirror)]
    if names.index(zone.mirror) >= names.index(zone.name):
        file.refuse((*where, "mirror"), f"'{zone.mirror}' must come before '{zone.name}', which mirrors it")
    if {zone.side, other.side} != {"left", "right"}:
        file.refuse(
            (*where, "mirror"),
            f"'{zone.name}' can mirror '{other.name}' only where one has side 'left' and the other 'right'",
        )


def _is_mirrored(zone: Zone, whole: MachineKind) -> bool:
    return any(other.mirror == zone.name for other in whole.zone)
