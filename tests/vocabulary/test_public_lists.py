"""Every item of the public lists of machine inspections is covered, item by item.

The lists are facts with section numbers in ``../shared/outside/public-lists.json``; each test names its
source, section and edition. An item with "from memory" in its name was recalled and not read when the list
was made: look its number up before relying on it. Which parts and checks cover it stands in
``public_cover.toml``.
"""

import pytest

import public_lists
from public_lists import COVER, NOT_WALKS, Item, items, uncovered

if not public_lists.LISTS.is_file():
    pytest.skip("../shared/outside/public-lists.json is not there", allow_module_level=True)

ITEMS = items()


def name(item: Item) -> str:
    """What the test of an item is called."""
    return f"{item.source} {item.number}{' from memory' if item.seen == 'memory' else ''} {item.text[:40]}"


@pytest.mark.parametrize("item", ITEMS, ids=name)
def test_item_is_covered(item: Item) -> None:
    """The parts and checks that are said to cover an item are there, on every machine kind it is held to."""
    assert [] == uncovered(item), f"{item.section}, {item.edition}"


def test_every_list_is_held() -> None:
    """No list of the outside data is left out, but for those that list nothing about a machine's state."""
    import json

    files = (public_lists.LISTS, public_lists.RECALLED)
    lists = [json.loads(path.read_text(encoding="utf-8"))["sources"] for path in files]
    sources = {source["id"] for found in lists for source in found}

    assert sources - set(NOT_WALKS) == {item.source for item in ITEMS}


@pytest.mark.parametrize(
    ("row", "gap"),
    [
        ("no such part: worn", "road-truck has no 'no such part'"),
        ("steer tyre: sings", "road-truck: 'steer tyre' has no check 'sings'"),
        ("caution steer tyre: banana", "road-truck: the caution of 'steer tyre' does not say 'banana'"),
        (
            "says good: The horn does not work.",
            "road-truck: 'The horn does not work.' says ['writeup'], not good",
        ),
        ("horn: horn sounds = Hello there.", "road-truck: 'Hello there.' says []"),
        ("kind: hovercraft", "no machine kind hovercraft"),
        ("duty: ", "a duty without a word on it"),
    ],
)
def test_gap_is_told(row: str, gap: str) -> None:
    """A cover that does not hold is told: this list can fail."""
    item = Item("s", "", "", "1", "", "page", ("road-truck",), (row,))

    assert [gap] == uncovered(item)


def test_no_cover_is_a_gap() -> None:
    """An item that nothing covers is told."""
    assert ["nothing covers it"] == uncovered(Item("s", "", "", "1", "", "page", ("road-truck",), ()))


def test_duties_are_few() -> None:
    """Most items are covered by something one looks at, not by calling them somebody's duty."""
    looked_at = [item for item in ITEMS if not item.is_duty]

    assert len(looked_at) > 0.8 * len(ITEMS)


def test_cover_explains_itself() -> None:
    """The file with the cover begins by telling how to write in it."""
    assert COVER.read_text(encoding="utf-8").startswith("# Which parts and checks cover")
