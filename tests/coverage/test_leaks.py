"""Questions about leaks of which no class was said."""

import pytest

from saycheck.coverage.leaks import leak_classes
from saycheck.models.walk import Evidence

from .conftest import Say


@pytest.mark.parametrize(
    ("words", "part", "more", "asked"),
    [
        ("is leaking", "lift cylinder", {"side": "left"},
         ["Left lift cylinder, leak: only wet, drops that hang, or drops that fall?"]),
        ("is weeping", "lift cylinder", {}, []),  # class I
        ("is dripping", "lift cylinder", {}, []),  # class III
        ("no leaks", "lift cylinder", {"denied": True, "state": "good"}, []),
        ("is leaking", "air tank", {}, []),  # air has no class
        ("is cracked", "lift cylinder", {"condition": "crack"}, []),
    ],
)  # fmt: skip
def test_leak_without_a_class(
    say: Say, words: str, part: str, more: dict[str, object], asked: list[str]
) -> None:
    """A leak is asked for its class where the words do not tell it."""
    place = [Evidence(char_start=0, char_end=len(words))]
    found = say(**{"part": part, "state": "watch", "condition": "leak", "evidence": place, **more})
    assert asked == [one.text for one in leak_classes([found], words)]


def test_asked_once_and_not_of_what_someone_typed(say: Say) -> None:
    """A part of which a leak is told twice is asked for once; a finding added by hand is not asked for."""
    place = [Evidence(char_start=0, char_end=4)]
    heard = say(part="engine", state="watch", condition="leak", evidence=place)
    typed = say(part="radiator", state="watch", condition="leak", evidence=[])
    assert 1 == len(list(leak_classes([heard, heard, typed], "leak")))


def test_said_elsewhere(say: Say) -> None:
    """Where another finding on the same part tells the class, nothing is asked."""
    text = "leaks, drips"
    vague = say(part="engine", state="watch", condition="leak", evidence=[Evidence(char_start=0, char_end=5)])
    exact = say(
        part="engine", state="watch", condition="leak", evidence=[Evidence(char_start=7, char_end=12)]
    )
    assert [] == list(leak_classes([vague, exact], text))
