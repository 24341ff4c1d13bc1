"""How a shop's own folder lies over the shipped vocabulary: by name, key by key.

A zone or part that the shop names anew is added at the end; one with a shipped name keeps what the shop
does not mention. ``sayings``, ``kinds`` and ``usual`` are added to the shipped ones, every other key replaces.
"""

from collections.abc import Iterable, Sequence
from typing import Protocol, TypeVar

from saycheck.vocabulary.schema import MachineKind, MachinePart, Table, Zone


class Named(Protocol):
    """Anything with a name."""

    @property
    def name(self) -> str: ...


N = TypeVar("N", bound=Named)
T = TypeVar("T", bound=Table)

_ADDED = ("sayings", "kinds", "usual")


def by_name(layers: Iterable[Sequence[N]]) -> dict[str, N]:
    """All tables of several layers by name, in order of first appearance; the later layer wins."""
    return {table.name: table for layer in layers for table in layer}


def over(base: MachineKind, shop: MachineKind) -> MachineKind:
    """The shipped machine kind with the shop's changes."""
    zones = {zone.name: zone for zone in base.zone}
    for zone in shop.zone:
        zones[zone.name] = _zone(zones[zone.name], zone) if zone.name in zones else zone
    return _merged(base, shop).model_copy(update={"zone": list(zones.values())})


def _zone(base: Zone, shop: Zone) -> Zone:
    parts: dict[str, MachinePart] = {part.name: part for part in base.part}
    for part in shop.part:
        parts[part.name] = _merged(parts[part.name], part) if part.name in parts else part
    return _merged(base, shop).model_copy(update={"part": list(parts.values())})


def _merged(base: T, shop: T) -> T:
    """``base`` with every key that ``shop`` sets; lists of words are added to."""
    changes = {key: getattr(shop, key) for key in shop.model_fields_set}
    for key in _ADDED:
        if key in changes:
            changes[key] = list(dict.fromkeys([*getattr(base, key), *changes[key]]))
    return base.model_copy(update=changes)
