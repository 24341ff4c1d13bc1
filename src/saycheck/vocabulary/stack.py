"""The layers of one machine kind, read and checked but not yet spelled out.

``build`` makes the vocabulary of them, ``origin`` tells which layer a value comes from.
"""

from dataclasses import dataclass
from functools import lru_cache

from saycheck.vocabulary.files import TextFile, parse
from saycheck.vocabulary.layers import by_name, over
from saycheck.vocabulary.references import check_machine, check_shared
from saycheck.vocabulary.schema import Check, Checks, MachineKind, SharedPart, SharedParts, UnitFile
from saycheck.vocabulary.unit import layer_of


@dataclass(frozen=True, slots=True)
class Files:
    """The texts that a machine kind is made of: shared files, machine files, the unit's; shipped ones first."""

    kind: str
    shared: tuple[TextFile, ...]
    machine: tuple[TextFile, ...]
    unit: TextFile | None

    @property
    def all(self) -> tuple[TextFile, ...]:
        """Every file, the lowest layer first."""
        return (*self.shared, *self.machine, *([self.unit] if self.unit else []))


@dataclass(frozen=True, slots=True)
class Stack:
    """The checked tables of all layers, each beside its file, and what they come to together.

    ``machines`` holds the machine kind as each layer has it, the unit's last; ``whole`` is all of them
    over each other.
    """

    parts: "PartFiles"
    check_files: "CheckFiles"
    machines: tuple[tuple[TextFile, MachineKind], ...]
    shared: dict[str, SharedPart]
    checks: dict[str, Check]
    whole: MachineKind
    unit: UnitFile | None


PartFiles = tuple[tuple[TextFile, SharedParts], ...]
CheckFiles = tuple[tuple[TextFile, Checks], ...]


@lru_cache(maxsize=8)
def _shared(
    files: tuple[TextFile, ...],
) -> tuple[PartFiles, CheckFiles, dict[str, SharedPart], dict[str, Check]]:
    """What all machine kinds share, read and checked once for all of them."""
    part_files = tuple((file, parse(file, SharedParts)) for file in files if _is(file, "parts"))
    check_files = tuple((file, parse(file, Checks)) for file in files if _is(file, "checks"))
    parts = by_name(tables.part for _, tables in part_files)
    checks = by_name(tables.check for _, tables in check_files)
    for file, tables in part_files:
        check_shared(file, tables, parts, checks)
    return part_files, check_files, parts, checks


@lru_cache(maxsize=64)
def stacked(files: Files) -> Stack:
    """Read and check the layers; VocabularyError at the first fault, with file and line."""
    part_files, check_files, parts, checks = _shared(files.shared)
    whole: MachineKind | None = None
    layers: list[tuple[TextFile, MachineKind]] = []
    for file in files.machine:
        given = {"name": whole.name, "standard": whole.standard} if whole else None
        layer = parse(file, MachineKind, given)
        layers.append((file, layer))
        whole = over(whole, layer) if whole else layer
    assert whole is not None, "a kind is only loaded where a file names it"
    unit: UnitFile | None = None
    if files.unit is not None:
        unit, layer = layer_of(files.unit, whole)
        layers.append((files.unit, layer))
        whole = over(whole, layer)
    for file, layer in layers:
        check_machine(file, layer, whole, parts, checks)
    return Stack(part_files, check_files, tuple(layers), parts, checks, whole, unit)


def _is(file: TextFile, name: str) -> bool:
    return file.label.endswith(f"/shared/{name}.toml")
