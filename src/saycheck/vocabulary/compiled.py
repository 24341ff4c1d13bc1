"""The vocabulary of one machine kind as the other stages use it: frozen, spelled out, ready to match.

Made by ``load.load``; nothing here reads files.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from saycheck.vocabulary.schema import Check, Measure, SharedPart, Side


@dataclass(frozen=True, slots=True)
class Zone:
    """A place where the walker stands: ``sayings`` are lower case and begin with its name.

    ``mirror`` names the earlier zone whose sided parts stand here on the other side.
    """

    name: str
    side: Side
    sayings: tuple[str, ...]
    mirror: str | None


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the checklist; ``option`` is the equipment it belongs to, None where always fitted."""

    zone: str
    part: str
    side: Side
    option: str | None


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the checklist with everything it takes from its shared part.

    ``zones`` are the zones of its lines in walk order. ``sayings`` are whole names in lower case, no two
    alike, the name first. ``heads`` are the bare nouns in lower case ("cylinder", "ram"), which name it
    only where place or context tells which one. ``components`` name shared parts. ``like`` is the shared
    part itself, None where it has none.
    """

    name: str
    zones: tuple[str, ...]
    sayings: tuple[str, ...]
    heads: tuple[str, ...]
    components: tuple[str, ...]
    checks: tuple[str, ...]
    measures: tuple[Measure, ...]
    caution: str | None
    option: str | None
    sided: bool
    like: str | None
    kinds: tuple[str, ...] = ()
    ask: str | None = None

    @property
    def family(self) -> str:
        """The name of the shared part it is made like, else its own."""
        return self.like or self.name


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """All that is known of one machine kind.

    ``kind`` is the file name without ending ("wheel-loader"), ``name`` what the standard calls it,
    ``zones`` and ``lines`` stand in walk order with mirror zones spelled out, ``shared`` and ``checks``
    go by name. ``version`` is 12 hex digits of the SHA-256 over the contents of the files used. ``unit``
    is the name of the unit whose file is laid over the kind, None without one.
    """

    kind: str
    name: str
    standard: str
    sayings: tuple[str, ...]
    zones: tuple[Zone, ...]
    lines: tuple[Line, ...]
    parts: tuple[Part, ...]
    shared: Mapping[str, SharedPart]
    checks: Mapping[str, Check]
    version: str
    unit: str | None = None

    def part(self, name: str) -> Part:
        """The part of that name; KeyError where the machine has none."""
        for part in self.parts:
            if part.name == name:
                return part
        raise KeyError(name)

    def zone(self, name: str) -> Zone:
        """The zone of that name; KeyError where the machine has none."""
        for zone in self.zones:
            if zone.name == name:
                return zone
        raise KeyError(name)

    def check_of(self, part: Part | None, condition: str) -> Check | None:
        """The check that a condition answers on a part, None where no check knows the condition.

        The part's own checks come first in their order, then all checks in the order of their file, of
        which the general ones stand at the top.
        """
        own = [self.checks[name] for name in part.checks] if part else []
        for check in [*own, *self.checks.values()]:
            if condition in check.conditions:
                return check
        return None
