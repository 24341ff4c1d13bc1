"""Which side a part is on: said with it, behind it, or where the walker stands."""

from collections.abc import Callable

import pytest

from saycheck.understanding.attach.sides import side_behind
from saycheck.understanding.place import is_comparison

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # the walker's side holds until the next is told
        ("Left side. Front tyre is good. Lift cylinder is dry.", ["left", "left"]),
        ("Left side. Front tyre is good. Right side. Front tyre is good.", ["left", "right"]),
        ("Left side. Front tyre is good. Other side. Front tyre is good.", ["left", "right"]),
        ("Right side. Rear tyre is good. Other side. Rear tyre is good.", ["right", "left"]),
        ("Nearside first. Front tyre is good. Offside now. Front tyre is good.", ["left", "right"]),
        ("Left side. Front tyre is good. Far side. Front tyre is good.", ["left", "right"]),
        ("Left side. Front tyre is good. Back end. Other side now. Rear tyre is good.", ["left", "right"]),
        # the first place of a heading counts, and the way one walks is none
        ("Nearside, working back. Front tyre is good.", ["left"]),
        ("Left side, the cab side. Front tyre is good.", ["left"]),
        ("So now I'm on the left. Front tyre is good.", ["left"]),
        # the other one, and right after the left one
        ("Left mirror is good. Other mirror is cracked.", ["left", "right"]),
        ("Lift cylinders. Left is dry. Right, weeping at the gland.", ["left", "right"]),
        # a side told with the part wins over the walker's
        ("Left side. Right front tyre is cut.", ["right"]),
        # in one breath
        ("Down the left side, front tyre is good.", ["left"]),
        # a part there is one of is where the walker stands, if it stands at a side of the machine at all
        ("Left side. Hydraulic tank is dry.", ["left"]),
        ("Left side. Bucket is good.", ["none"]),
        ("Bucket is good.", ["none"]),
        # both where the part says so
        ("Both lift cylinders are dry.", ["both"]),
        ("Lift cylinders are dry on both sides.", ["both"]),
        # the side behind the part
        ("Front tyre on the left is cut.", ["left"]),
        ("Lift cylinder, right side, is dry.", ["right"]),
        # this side, over here: where the walker stands, as told or as the last part named with its side shows
        ("Right side. Front tyre on this side is cut.", ["right"]),
        ("Left headlight works. Mirror this side is cracked.", ["left", "left"]),
        ("Down this side, the left. Front tyre is good.", ["left"]),
        (
            "Left side. Front tyre is good. Mirror this side, I'm on the right now, is cracked.",
            ["left", "right"],
        ),
        # that side: of the part before
        ("Right side. Left headlight is out. Mirror on that side is cracked.", ["left", "left"]),
        # the way there
        ("Offside coming forrard. Front tyre is cut.", ["right"]),
        ("Left headlight works. So I've come up the other side. Rear tyre is cut.", ["left", "right"]),
        # what is compared with
        ("Left side. Front tyre is the same as the other, good.", ["left"]),
        ("Right side. Rear tyre, same as the left one, is good.", ["right"]),
        # the kerb side in two words
        ("Front tyre, near side, is cut.", ["left"]),
        ("Mirror on the off side is cracked.", ["right"]),
        # both of those on one side
        ("Both left tyres are cut.", ["left"]),
        # the other side, of the same part
        ("Left mirror is good. Other side's cracked.", ["left", "right"]),
        # a place of before is none of now
        ("Right side. Mirror was good, that was the left. Front tyre is cut.", ["left", "right"]),
        # what is left is no side
        ("Cutting edge has half an inch left.", ["none"]),
    ],
)
def test_sides_of_a_walk(ruled: Rows, text: str, expected: list[str]) -> None:
    """Every statement has the side it was said of, or the one the walker stands on."""
    assert expected == [side for _, side, _, _ in ruled(text)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("mirror on the left is", "left"),
        ("mirror on the right", "right"),
        ("mirror left side is", "left"),
        ("mirror right hand side", "right"),
        ("mirror both sides", "both"),
        ("mirror on both sides", "both"),
        ("mirror on each side", "both"),
        ("mirror , both sides", "both"),
        ("mirror either side", "both"),
        ("mirror left over from", None),  # no side without its noun
        ("mirror on the dash", None),
        ("mirror", None),
    ],
)
def test_side_behind(text: str, expected: str | None) -> None:
    """A side told right behind its part."""
    assert expected == side_behind(text.split(), 1)


@pytest.mark.parametrize(
    ("text", "expected"),
    [("same as the left", True), ("worse than the left", True), ("cut on the left", False)],
)
def test_is_comparison(text: str, expected: bool) -> None:
    """The side with which something is compared is not where the part is."""
    words = text.split()
    assert expected == is_comparison(words, words.index("left"))
