"""Which part a condition belongs to, where several are named in one breath."""

from collections.abc import Callable

import pytest

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Horn works, seat belt is torn.",
            [("horn", "none", "good", "works"), ("seat belt", "none", "writeup", "split")],
        ),
        (
            "Tilt cylinder rod is scored and the gland is weeping.",
            [
                ("tilt cylinder rod", "none", "watch", "scored"),
                ("tilt cylinder gland", "none", "watch", "leak"),
            ],
        ),
        (
            "Fan belt is tight, but it has a nick in it.",
            [("fan belt", "none", "watch", "chipped")],  # one finding: what is wrong counts
        ),
        (
            "No cracks in the bucket, but the hinge pin's got slop.",
            [("bucket", "none", "good", "no crack"), ("bucket pins", "none", "watch", "play")],
        ),
        (
            "No cracks, but the pin's got slop.",
            [("bucket pins", "none", "good", "no crack"), ("bucket pins", "none", "watch", "play")],
        ),
        (
            "Bucket is bent and cracked.",
            [("bucket", "none", "writeup", "crack")],  # one finding, the worst word first
        ),
    ],
)
def test_several_in_one_breath(ruled: Rows, text: str, expected: list[Row]) -> None:
    """Each part keeps its own condition; good and bad of one part are two statements."""
    assert expected == ruled(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Horn, nothing.", ("horn", "none", "writeup", "inoperative")),
        ("Reverse alarm: not a peep.", ("reverse alarm", "none", "writeup", "inoperative")),
        ("Left headlight nothing, rest of it is clean.", ("headlight", "left", "writeup", "inoperative")),
        ("Wipers, nothing at all.", ("windscreen wiper", "none", "writeup", "inoperative")),
        ("Horn, nothing wrong with it.", ("horn", "none", "good", "good")),
        ("Left lift cylinder, nothing.", ("lift cylinder", "left", "good", "mentioned")),
    ],
)
def test_nothing_of_what_should_do_something(ruled: Rows, text: str, expected: Row) -> None:
    """ "Nothing" is a fault of a horn or a lamp, and none of what should show nothing."""
    assert expected == ruled(text)[0]
