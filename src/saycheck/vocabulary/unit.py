"""The layer of one unit: ``units/*.toml`` in a shop's folder, and which equipment a machine has.

A unit file names its machine kind, what else the unit is called, the options it has and those it has not,
and may add, change or drop parts as a shop's machine file does.
"""

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from saycheck.vocabulary.files import TextFile, did_you_mean, keys_of, parse, read_text
from saycheck.vocabulary.schema import MachineKind, MachinePart, UnitFile


def unit_files(roots: Iterable[Path]) -> list[TextFile]:
    """All unit files, in the order of the folders and their names."""
    return [read_text(path, root) for root in roots for path in sorted((root / "units").glob("*.toml"))]


def units_of(roots: Iterable[Path]) -> list[tuple[str, str]]:
    """Every unit there is a file for, with its machine kind as the file writes it."""
    units = [parse(file, UnitFile) for file in unit_files(roots)]
    return [(unit.name, unit.machine) for unit in units]


def find_unit(name: str, roots: Sequence[Path]) -> TextFile | None:
    """The file of a unit by any of its names, the last folder first; None where no file names it."""
    return next((file for file in reversed(unit_files(roots)) if _plain(name) in _names(file)), None)


def has_file(roots: Iterable[Path]) -> Callable[[str], bool]:
    """A test whether a file names a unit, for asking about many units: the files are read once."""
    known = {name for file in unit_files(roots) for name in _names(file)}
    return lambda unit: _plain(unit) in known


def _names(file: TextFile) -> set[str]:
    """All that a unit file calls its unit, in the form in which names are compared."""
    keys = keys_of(file)
    sayings = keys.get("sayings")
    stem = file.label.rsplit("/", 1)[-1].removesuffix(".toml")
    names = [stem, keys.get("name", ""), *(sayings if isinstance(sayings, list) else [])]
    return {_plain(str(one)) for one in names}


def layer_of(file: TextFile, whole: MachineKind) -> tuple[UnitFile, MachineKind]:
    """The unit and its parts as a layer over its machine kind, ``whole``.

    Raises VocabularyError where an option is none of the machine's.
    """
    unit = parse(file, UnitFile)
    known = options_of(whole)
    for key in ("options", "without"):
        for option in getattr(unit, key):
            if option not in known:
                hint = did_you_mean(option, known) or f"; its options are {', '.join(known)}"
                file.refuse((key,), f"a {whole.name} has no option '{option}'{hint}")
    for option in unit.options:
        if option in unit.without:
            file.refuse(("without",), f"'{option}' cannot stand in 'options' and in 'without'")
    return unit, MachineKind(name=whole.name, standard=whole.standard, zone=unit.zone)


def options_of(machine: MachineKind) -> list[str]:
    """All equipment that not every machine of a kind has, in the order of its file."""
    of_parts = [part.option for zone in machine.zone for part in zone.part if part.option]
    of_groups = [option for group in machine.either for option in group]
    return list(dict.fromkeys([*of_parts, *machine.usual, *of_groups]))


def fitted(machine: MachineKind, unit: UnitFile | None) -> MachineKind:
    """The machine with its options settled: parts of what it has are asked for, of what it has not dropped.

    ``usual`` options are there unless the unit says otherwise; of an ``either`` group only what the unit
    names. Parts of all other options stay open: they count where the walker speaks of them.
    """
    has = set(machine.usual) | set(unit.options if unit else ())
    lacks = without(machine, unit)
    zones = [
        zone.model_copy(update={"part": [_settled(part, has - lacks, lacks) for part in zone.part]})
        for zone in machine.zone
    ]
    return machine.model_copy(update={"zone": zones})


def without(machine: MachineKind, unit: UnitFile | None) -> set[str]:
    """The options that a unit has not: by its own words, or because it has another one of a group."""
    if unit is None:
        return set()
    lacks = set(unit.without)
    for group in machine.either:
        named = [option for option in group if option in unit.options]
        if named:
            lacks |= set(group) - set(named)
    return lacks


def _settled(part: MachinePart, has: set[str], lacks: set[str]) -> MachinePart:
    if part.option in lacks:
        return part.model_copy(update={"drop": True})
    return part.model_copy(update={"option": None}) if part.option in has else part


def _plain(name: str) -> str:
    return "-".join(name.lower().replace("-", " ").replace("_", " ").split())
