"""The small words between what is named, and what they tell."""

import pytest

from saycheck.understanding.attach.links import is_telling, only_list, only_small


@pytest.mark.parametrize(
    ("gap", "expected"),
    [("on the left", True), ("", True), ("in the upper", True), ("and the", False), ("holds the", False)],
)
def test_only_small(gap: str, expected: bool) -> None:
    """Articles, place words and prepositions part nothing."""
    assert expected == only_small(gap.split())


@pytest.mark.parametrize(
    ("gap", "expected"),
    [(", and the", True), ("", True), ("or", True), ("is", False), (", but the", False)],
)
def test_only_list(gap: str, expected: bool) -> None:
    """Between the parts of a list stand commas, "and", "or" and articles."""
    assert expected == only_list(gap.split())


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("looks brand spanking", True),
        ("and the", False),
        ("wobbles", True),
        (", !", False),  # marks say nothing
    ],
)
def test_is_telling(words: str, expected: bool) -> None:
    """A word that is not small says something of the part before."""
    assert expected == is_telling(words.split())
