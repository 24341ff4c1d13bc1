"""Zones, lines, sayings and checks as they come out of the small vocabulary."""

from pathlib import Path

import pytest

from saycheck.vocabulary.compiled import Line
from saycheck.vocabulary.load import load


def test_lines_in_walk_order(toy: Path) -> None:
    """Sided parts stand twice in a zone without side, else once there and once in the mirror zone."""
    assert (
        Line("front", "bucket", "none", None),
        Line("front", "mirror", "left", None),
        Line("front", "mirror", "right", None),
        Line("left side", "front tyre", "left", None),
        Line("left side", "hydraulic tank", "none", None),
        Line("left side", "boom cylinder", "left", "boom"),
        Line("right side", "boom cylinder", "right", "boom"),  # met in the opposite order
        Line("right side", "front tyre", "right", None),
        Line("right side", "fuel tank", "none", None),
    ) == load("toy-loader").lines


@pytest.mark.parametrize(
    ("part", "sayings"),
    [
        ("bucket", ("bucket",)),
        ("front tyre", ("front tyre", "front tire")),
        (
            "boom cylinder",
            # "boom" before "boom ram" would only say the bare head, so it is left out
            ("boom cylinder", "boom ram", "hoe boom cylinder", "hoe boom ram", "big ram"),
        ),
    ],
)
def test_sayings(toy: Path, part: str, sayings: tuple[str, ...]) -> None:
    """Kinds are joined to heads without saying a word twice; all is lower case, the name first."""
    assert sayings == load("toy-loader").part(part).sayings


def test_zone_sayings(toy: Path) -> None:
    """A zone is called by its name first."""
    assert ("front", "nose") == load("toy-loader").zone("front").sayings


def test_shared_part_is_taken_over(toy: Path) -> None:
    """Heads, components, checks, measures and caution come from the shared part."""
    tyre = load("toy-loader").part("front tyre")

    assert ("left side", "right side") == tyre.zones
    assert ("tyre", "tire") == tyre.heads
    assert ("valve stem",) == tyre.components
    assert ("worn", "leaking") == tyre.checks
    assert ["depth", "pressure"] == [measure.attribute for measure in tyre.measures]
    assert "Stand aside." == tyre.caution


def test_own_keys_add_to_shared(toy: Path) -> None:
    """A machine part adds components, checks and measures, and replaces a measure of the same kind."""
    path = toy / "machines" / "toy-loader.toml"
    addition = (
        'kinds = ["front"]\ncomponents = ["cylinder"]\nchecks = ["thin"]\ncaution = "Mind the rim."\n'
        'measures = [{ attribute = "depth", unit = "mm", at_least = 1.6, source = "a rule" }]'
    )
    path.write_text(path.read_text().replace('kinds = ["front"]', addition, 1))

    tyre = load("toy-loader").part("front tyre")

    assert ("valve stem", "cylinder") == tyre.components
    assert ("worn", "leaking", "thin") == tyre.checks
    assert [("depth", 1.6), ("pressure", None)] == [(m.attribute, m.at_least) for m in tyre.measures]
    assert "Mind the rim." == tyre.caution


@pytest.mark.parametrize(
    ("part", "condition", "check"),
    [
        ("front tyre", "worn", "worn"),
        ("front tyre", "dry", "leaking"),
        ("front tyre", "bald", "thin"),  # not its own: the first that knows it
        (None, "worn", "worn"),
        ("front tyre", "haunted", None),
    ],
)
def test_check_of(toy: Path, part: str | None, condition: str, check: str | None) -> None:
    """A condition answers the part's own check where it can, else the first in the file that knows it."""
    vocabulary = load("toy-loader")

    found = vocabulary.check_of(vocabulary.part(part) if part else None, condition)

    assert check == (found.name if found else None)


def test_unknown_names(toy: Path) -> None:
    """Asking for a part or zone that is not there is a KeyError."""
    vocabulary = load("toy-loader")

    with pytest.raises(KeyError):
        vocabulary.part("wing")
    with pytest.raises(KeyError):
        vocabulary.zone("roof")
