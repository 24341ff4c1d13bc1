"""The parts that are named: whole names, heads with what stands before them, sides, owners."""

from collections.abc import Callable

import pytest

from saycheck.understanding.parts import PartFinder, PartName
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load

Cut = Callable[[str], list[str]]
Name = Callable[[str], PartName]


@pytest.fixture(scope="module")
def finder(toy: Vocabulary) -> PartFinder:
    """The finder over the toy loader."""
    return PartFinder(toy)


@pytest.fixture(scope="module")
def name(finder: PartFinder, cut: Cut) -> Name:
    """Finds the one part that a text names."""

    def find(text: str) -> PartName:
        found = finder.find(cut(text))
        assert 1 == len(found), found
        return found[0][2]

    return find


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("the cutting edge is worn", ["cutting edge"]),
        ("left front tyre", ["left front tyre"]),  # side and end belong to the name
        ("the front left tyre", ["front left tyre"]),
        ("lift cylinder and fan belt", ["lift cylinder", "fan belt"]),
        ("the lift ram", ["lift ram"]),  # a head by another name
        ("all four tires", ["tires"]),
        ("hoses, pins and retainers", ["hoses", "pins", "retainers"]),
        ("lift cylinder's gland", ["lift cylinder's gland"]),
        ("lift cylinder gland", ["lift cylinder gland"]),
        ("gland on the left lift cylinder", ["gland", "left lift cylinder"]),  # joined when they are attached
        ("the left-hand mirror", ["left-hand mirror"]),
        ("new fan belt", ["fan belt"]),
        ("it is good", []),
        ("right then", []),
        ("", []),
    ],
)
def test_found(finder: PartFinder, cut: Cut, text: str, expected: list[str]) -> None:
    """Every part named is found with the words that belong to its name, and nothing else."""
    words = cut(text)
    said = [" ".join(words[a:b]) for a, b, _ in finder.find(words)]
    assert expected == [s.replace(" 's", "'s").replace("left hand", "left-hand") for s in said]


@pytest.mark.parametrize(
    ("text", "side"),
    [
        ("left front tyre", "left"),
        ("front right tyre", "right"),
        ("nearside front tyre", "left"),  # the kerb side where one drives on the left; the seat's left
        ("offside front tyre", "right"),
        ("lh mirror", "left"),
        ("right-hand mirror", "right"),
        ("both lift cylinders", "both"),
        ("lift cylinders", None),
        ("front tyre", None),
    ],
)
def test_side(name: Name, text: str, side: str | None) -> None:
    """A side in the name is left, right or both, seen from the seat."""
    assert side == name(text).side


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("left front tyre", ("front", "tyre")),  # the side is no part of the name
        ("back tyres", ("rear", "tyre")),  # back and rear are one
        ("front tires", ("front", "tire")),
        ("both lift cylinders", ("lift", "cylinder")),
        ("upper bucket pin", ("upper", "bucket", "pin")),
    ],
)
def test_words(name: Name, text: str, words: tuple[str, ...]) -> None:
    """The words of a name are singular, without sides and articles."""
    assert words == name(text).words


@pytest.mark.parametrize(
    ("text", "head", "owner"),
    [
        ("lift cylinder gland", ("gland",), ("lift", "cylinder")),
        ("lift cylinder's gland", ("gland",), ("lift", "cylinder")),
        ("lift cylinder", ("lift", "cylinder"), ()),
    ],
)
def test_owner(name: Name, text: str, head: tuple[str, ...], owner: tuple[str, ...]) -> None:
    """A part on a part knows what it sits on."""
    assert (head, owner) == (name(text).head, name(text).owner)


@pytest.mark.parametrize(("text", "plural"), [("front tyres", True), ("front tyre", False), ("glass", False)])
def test_plural(name: Name, text: str, plural: bool) -> None:
    """Whether one is meant or several."""
    assert plural == name(text).plural


@pytest.mark.parametrize(
    "text",
    [
        "seat belt latches",  # "latches" is what it does
        "cab door locks",
    ],
)
def test_verbs_that_look_like_parts(finder: PartFinder, cut: Cut, text: str) -> None:
    """A plural behind a singular part may be its verb: it is not taken into the name."""
    first, *_ = finder.find(cut(text))
    assert first[1] < len(cut(text))


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("seat belt latches .", ["seat belt"]),
        ("the belt latches are bent", ["the belt latches"]),
        ("the levers both latch", ["the levers"]),
        ("brake lights .", ["brake lights"]),  # a name, not what the brakes do
    ],
)
def test_what_a_part_does(text: str, names: list[str]) -> None:
    """A verb at the end of a clause that is also a part is no part: "belt latches"."""
    words = text.split()
    found = [" ".join(words[a:b]) for a, b, _ in PartFinder(load("wheel-loader")).find(words)]
    assert [n.removeprefix("the ") for n in names] == [f.removeprefix("the ") for f in found]
