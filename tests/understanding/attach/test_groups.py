"""Parts spoken of together, and what is said of all of them."""

from collections.abc import Callable

import pytest

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Hoses, pins and retainers all good.",
            [
                ("loader hoses", "none", "good", "good"),
                ("bucket pins", "none", "good", "good"),
                ("bucket pins retainer", "none", "good", "good"),
            ],
        ),
        (
            "Bucket and cutting edge are good.",
            [("bucket", "none", "good", "good"), ("cutting edge", "none", "good", "good")],
        ),
        (
            "Bucket, cutting edge and tilt cylinder good.",
            [
                ("bucket", "none", "good", "good"),
                ("cutting edge", "none", "good", "good"),
                ("tilt cylinder", "none", "good", "good"),
            ],
        ),
        (
            "Horn, wipers and seat belt work.",
            [
                ("horn", "none", "good", "works"),
                ("windscreen wiper", "none", "good", "works"),
                ("seat belt", "none", "good", "works"),
            ],
        ),
    ],
)
def test_lists(ruled: Rows, text: str, expected: list[Row]) -> None:
    """What is said behind a list is said of every part in it."""
    assert expected == ruled(text)


def test_how_many_there_are_says_nothing_of_what_they_are_on(ruled: Rows) -> None:
    """ "Five teeth" under the bucket tells how many, and is no statement about the bucket."""
    assert ruled("Bucket, five teeth, and all good.") == [("bucket teeth", "none", "good", "good")]


def test_where_a_part_is_says_nothing_of_it(ruled: Rows) -> None:
    """ "Through the middle" only tells where the hoses are; what is said comes behind."""
    found = ruled("Steering hoses through the middle, left one is chafed.")
    assert found == [("articulation hoses", "left", "watch", "chafed")]
