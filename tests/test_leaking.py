"""Leaks of findings: which have a class, and which are urgent whatever else is known."""

import pytest

from saycheck.leaking import at_once


@pytest.mark.parametrize(
    ("part", "words", "expected"),
    [
        ("tilt cylinder", "tilt cylinder is dripping", True),  # class III
        ("tilt cylinder", "drops hang on it", False),
        ("tilt cylinder", "it is leaking", False),
        ("fuel tank", "fuel tank is weeping", True),  # fuel of any class
    ],
)  # source of the classes: US Army TM 5-3895-383-24, see saycheck.sums.leaks
def test_reported_at_once(part: str, words: str, expected: bool) -> None:
    """Drops that fall, and fuel, are reported before the machine does anything else."""
    assert expected == at_once(part, part, words)
