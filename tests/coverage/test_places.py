"""Where one stands for each zone."""

import pytest

from saycheck.coverage.places import Places, round_of
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import kinds, load, shared_tables


@pytest.mark.parametrize(
    ("kind", "stops"),
    [
        (
            "wheel-loader",
            [
                ["front", "attachments"],
                ["left side", "cab", "lights", "safety equipment"],
                ["rear", "engine bay", "fluids"],
                ["right side", "underneath"],
            ],
        ),
        (
            "backhoe-loader",  # engine in front
            [
                ["front", "engine bay", "fluids", "attachments"],
                ["left side", "cab", "lights", "safety equipment"],
                ["rear"],
                ["right side", "underneath"],
            ],
        ),
        (
            "counterbalance-forklift",  # engine under the seat
            [
                ["front"],
                ["left side", "engine bay", "fluids", "operator's place", "lights", "safety equipment"],
                ["rear"],
                ["right side", "underneath"],
            ],
        ),
        (
            "generator-set",  # no sides: every zone is a stop but what stands beside another
            [["outside", "safety equipment"], ["trailer"], ["engine bay", "fluids"], ["electrical side"]],
        ),
    ],
)
def test_round(kind: str, stops: list[list[str]]) -> None:
    """The stops of a machine's round, each with its zones in walk order."""
    assert stops == round_of(load(kind))


@pytest.mark.parametrize("kind", kinds())
def test_every_zone_has_one_stop(kind: str) -> None:
    """No zone is lost and none stands twice."""
    vocabulary = load(kind)
    zones = [zone for stop in round_of(vocabulary) for zone in stop]

    assert sorted(zone.name for zone in vocabulary.zones) == sorted(zones)


def test_places_name_what_is_there() -> None:
    """Every zone and machine kind in the file is one of the shipped machines."""
    places = [place for table in shared_tables("places.toml", Places) for place in table.place]
    zones = {zone.name for kind in kinds() for zone in load(kind).zones}

    assert places
    assert set() == {name for place in places for name in (place.zone, place.at)} - zones
    assert set() == {kind for place in places for kind in place.machines} - set(kinds())


def test_unknown_zone_is_a_stop(toy: Vocabulary) -> None:
    """A zone of a shop's own machine that is not in the file is a stop of its own."""
    assert ["safety equipment"] not in round_of(toy)  # stands by the cab
    assert [["front"], ["left side", "cab", "lights", "safety equipment"], ["rear", "engine bay", "fluids"],
            ["right side"]] == round_of(toy)  # fmt: skip
