"""Where every value of a part comes from."""

from collections.abc import Callable
from pathlib import Path

import pytest

from saycheck.vocabulary.load import files_of, load
from saycheck.vocabulary.origin import dropped, home_of, values_of
from saycheck.vocabulary.stack import stacked

Write = Callable[..., Path]

SHOP = """\
[[zone]]
name = "left side"

[[zone.part]]
name = "front tyre"
kinds = ["steer"]
sayings = ["Big Wheel"]
caution = "Keep clear."

[[zone.part]]
name = "hydraulic tank"
drop = true
"""


@pytest.fixture
def own(toy: Path, shop: Write) -> Path:
    """A shop's folder that changes a tyre and drops a tank."""
    return shop("own", machine=SHOP)


def told(own: Path, part: str) -> list[tuple[str, str, list[str]]]:
    """The values of a part as key, text and places."""
    vocabulary = load("toy-loader", [own])
    found = values_of(vocabulary.part(part), vocabulary, stacked(files_of("toy-loader", [own])))
    return [(value.key, value.text, [str(origin) for origin in value.origins]) for value in found]


@pytest.mark.parametrize(
    ("key", "text", "places"),
    [
        ("zone", "left side", ["vocab/machines/toy-loader.toml:18"]),
        ("like", "tyre", ["vocab/machines/toy-loader.toml:24"]),
        ("said as", "front tyre", ["vocab/machines/toy-loader.toml:23"]),
        ("said as", "front tire", ["vocab/machines/toy-loader.toml:25", "vocab/shared/parts.toml:3"]),
        ("said as", "steer tyre", ["own/machines/toy-loader.toml:6", "vocab/shared/parts.toml:2"]),
        ("said as", "big wheel", ["own/machines/toy-loader.toml:7"]),
        ("found on it", "valve stem", ["vocab/shared/parts.toml:4"]),
        ("check", "worn", ["vocab/shared/parts.toml:5"]),
        (
            "  worn",
            "within limit; a fault: this week; common practice, no source",
            ["vocab/shared/checks.toml:6"],
        ),
        ("measure", "depth in mm, limit: the maker's manual", ["vocab/shared/parts.toml:6"]),
        ("caution", "Keep clear.", ["own/machines/toy-loader.toml:8"]),
    ],
)
def test_value_names_its_lines(own: Path, key: str, text: str, places: list[str]) -> None:
    """Every value stands with the file and line of the layer that decided it."""
    assert (key, text, places) in told(own, "front tyre")


@pytest.mark.parametrize("kind", ["wheel-loader", "road-truck", "counterbalance-forklift"])
def test_no_value_comes_from_nowhere(kind: str) -> None:
    """Each value of the shipped parts has a line, but for sayings that a shared name makes by itself."""
    vocabulary = load(kind)
    stack = stacked(files_of(kind))

    nowhere = [
        (part.name, value.key, value.text)
        for part in vocabulary.parts
        for value in values_of(part, vocabulary, stack)
        if not value.origins
    ]

    assert [] == nowhere


def test_homes_and_dropped_parts(own: Path) -> None:
    """A part's layers and the parts taken off the list are told with their lines."""
    stack = stacked(files_of("toy-loader", [own]))

    assert ["vocab/machines/toy-loader.toml:22", "own/machines/toy-loader.toml:4"] == [
        str(home) for home in home_of("front tyre", stack)
    ]
    assert [("left side", "hydraulic tank", "own/machines/toy-loader.toml:12")] == [
        (zone, name, str(where)) for zone, name, where in dropped(stack)
    ]


def test_defect_words_are_told() -> None:
    """Each check of a shipped part shows the words that the trade uses for its defects."""
    vocabulary = load("wheel-loader")
    found = values_of(vocabulary.part("horn"), vocabulary, stacked(files_of("wheel-loader")))
    words = [value.text for value in found if value.key == "  horn sounds"]

    assert any(text.startswith("inoperative (writeup): ") for text in words)
    assert all(str(value.origins[0]).startswith("vocab/shared/") for value in found if value.key[0] == " ")


@pytest.mark.parametrize(
    ("kind", "part", "key", "text"),
    [
        (
            "wheel-loader",
            "horn",
            "  horn sounds",
            "29 CFR 1926.602: Material handling equipment (OSHA, construction)",
        ),
        (
            "counterbalance-forklift",
            "forks",
            "  thickness left",
            "ISO 5057: Industrial trucks: inspection and repair",
        ),
        ("road-truck", "low air warning", "  pressure", "from memory, look it up"),
    ],
)
def test_publication_is_named_and_dated(kind: str, part: str, key: str, text: str) -> None:
    """Beside each check and limit stands the publication it rests on, its edition, and whether it was read."""
    vocabulary = load(kind)
    found = values_of(vocabulary.part(part), vocabulary, stacked(files_of(kind)))

    assert any(text in value.text for value in found if value.key == key)
