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
