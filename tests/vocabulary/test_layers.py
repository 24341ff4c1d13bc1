"""A shop's own folder over the shipped vocabulary."""

from collections.abc import Callable
from pathlib import Path

from saycheck.vocabulary.compiled import Line
from saycheck.vocabulary.load import load

Write = Callable[..., Path]


def test_shop_adds_a_saying(toy: Path, shop: Write) -> None:
    """Sayings and kinds of a shipped part or zone are added to those it has; the rest stays."""
    own = shop(
        "own",
        machine="""\
        sayings = ["mini"]
        [[zone]]
        name = "front"
        sayings = ["snout"]
        [[zone]]
        name = "left side"
        [[zone.part]]
        name = "boom cylinder"
        kinds = ["lift"]
        sayings = ["the big one"]
        """,
    )

    vocabulary = load("toy-loader", [own])

    assert (
        "boom cylinder",
        "boom ram",
        "hoe boom cylinder",
        "hoe boom ram",
        "lift cylinder",
        "lift ram",
        "lift boom ram",
        "big ram",
        "the big one",
    ) == vocabulary.part("boom cylinder").sayings
    assert ("front", "nose", "snout") == vocabulary.zone("front").sayings
    assert ("toy loader", "little digger", "mini") == vocabulary.sayings
    assert "left" == vocabulary.zone("left side").side
    assert load("toy-loader").lines == vocabulary.lines


def test_shop_adds_drops_and_changes_parts(toy: Path, shop: Write) -> None:
    """New parts and zones come last, a dropped part has no line, a key that is given replaces."""
    own = shop(
        "own",
        machine="""\
        [[zone]]
        name = "left side"
        [[zone.part]]
        name = "hydraulic tank"
        drop = true
        [[zone.part]]
        name = "boom cylinder"
        option = "long boom"
        [[zone.part]]
        name = "wing"
        [[zone]]
        name = "roof"
        [[zone.part]]
        name = "beacon"
        """,
    )

    vocabulary = load("toy-loader", [own])
    lines = [line for line in vocabulary.lines if line.zone in ("left side", "roof")]

    assert [
        Line("left side", "front tyre", "left", None),
        Line("left side", "boom cylinder", "left", "long boom"),
        Line("left side", "wing", "none", None),
        Line("roof", "beacon", "none", None),
    ] == lines
    assert "hydraulic tank" not in [part.name for part in vocabulary.parts]


def test_shop_replaces_shared_tables(toy: Path, shop: Write) -> None:
    """A shared part or check of the same name takes the place of the shipped one."""
    own = shop(
        "own",
        parts='[[part]]\nname = "tyre"\nheads = ["boot"]\nchecks = ["worn"]\n',
        checks='[[check]]\nname = "worn"\nconditions = ["worn"]\ngood = "our limit"\n',
    )

    vocabulary = load("toy-loader", [own])

    assert ("front tyre", "front boot") == vocabulary.part("front tyre").sayings
    assert "our limit" == vocabulary.checks["worn"].good
    assert ["leaking", "worn", "thin"] == list(vocabulary.checks)


def test_last_folder_lies_on_top(toy: Path, shop: Write) -> None:
    """Of two folders the later one wins."""
    text = '[[check]]\nname = "worn"\nconditions = ["worn"]\ngood = "{}"\n'
    first = shop("first", checks=text.format("first"))
    second = shop("second", checks=text.format("second"))

    assert "second" == load("toy-loader", [first, second]).checks["worn"].good
    assert "first" == load("toy-loader", [second, first]).checks["worn"].good


def test_version_tells_layers_apart(toy: Path, shop: Write) -> None:
    """A walk heard with the shop's words carries another version."""
    own = shop("own", checks='[[check]]\nname = "smell"\nconditions = ["leak"]\ngood = "none"\n')

    assert load("toy-loader").version != load("toy-loader", [own]).version
