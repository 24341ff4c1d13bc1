"""Where on the round one stands for each zone: a closed loop of stops, several zones at some of them."""

from pydantic import Field

from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Table


class Place(Table):
    """A zone that is looked at from beside another one, on some machine kinds or on all others."""

    zone: str
    at: str
    machines: list[str] = Field(default=[])


class Places(Table):
    """The file ``shared/places.toml``."""

    place: list[Place] = Field(default=[])


def round_of(vocabulary: Vocabulary) -> list[list[str]]:
    """The stops of the round in walk order, each with its zones in walk order.

    A zone whose place is not told, or no zone of the machine, is a stop of its own.
    """
    places = [place for table in shared_tables("places.toml", Places) for place in table.place]
    beside = {place.zone: place.at for place in places if not place.machines}
    beside |= {place.zone: place.at for place in places if vocabulary.kind in place.machines}
    names = [zone.name for zone in vocabulary.zones]
    stops: dict[str, list[str]] = {name: [] for name in names}
    for name in names:
        at, seen = name, {name}
        while beside.get(at) in stops and beside[at] not in seen:
            at = beside[at]
            seen.add(at)
        stops[at].append(name)
    return [zones for zones in stops.values() if zones]
