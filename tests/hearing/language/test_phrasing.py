"""Lines of talk with choices."""

import random

import pytest

from saycheck.errors import VocabularyError
from saycheck.hearing.language.phrasing import names, parsed, say

SLOTS = {"part": lambda rng: "tilt cylinder", "glass": lambda rng: "glass"}


def all_ways(line: str) -> set[str]:
    rng = random.Random(1)
    return {" ".join(say(parsed(line), SLOTS, rng)) for _ in range(200)}


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("left one dry", {"left one dry"}),
        ("(left|right) dry", {"left dry", "right dry"}),
        ("left dry [again]", {"left dry", "left dry again"}),
        ("a | b c", {"a", "b c"}),
        ("(the (big|small) one|it)", {"the big one", "the small one", "it"}),
        ("the {part} is dry", {"the tilt cylinder is dry"}),
        ("{part}'s dry", {"tilt cylinder's dry"}),
        ("{glass}'s clean", {"glass is clean"}),  # nobody says "glass's clean"
    ],
)
def test_ways_to_say_a_line(line: str, expected: set[str]) -> None:
    """Every choice comes up, and nothing else."""
    assert expected == all_ways(line)


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("left (dry", "the line of talk 'left (dry' opens a bracket it never closes; add ')'"),
        ("left [dry", "the line of talk 'left [dry' opens a bracket it never closes; add ']'"),
        ("left dry)", "the line of talk 'left dry)' closes a bracket it never opened; take it out"),
    ],
)
def test_bracket_without_partner(line: str, message: str) -> None:
    """A slip of the pen is told with the line it is in."""
    with pytest.raises(VocabularyError) as caught:
        parsed(line)
    assert message == str(caught.value)


def test_names_of_a_line() -> None:
    """Names are found inside choices too."""
    assert {"part", "bad", "where"} == names(parsed("the {part} is ({bad}|fine) [{where}]"))
