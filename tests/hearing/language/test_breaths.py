"""Narrations as written, put into breaths as said."""

import pytest

from saycheck.hearing.language.breaths import LONGEST, breaths


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Left tyre's good. Right tyre?", ["left tyre's good", "right tyre"]),
        ("Edge is 17 mm; 3.1 bar", ["edge is seventeen mm", "three point one bar"]),
        ("bucket is cracked\nseat works", ["bucket is cracked", "seat works"]),
        ("it weeps — look at that", ["it weeps", "look at that"]),
        ("it weeps—look at that", ["it weeps", "look at that"]),
        ("10-12 mm", ["ten to twelve mm"]),
        ("bolt-on edge and/or lip", ["bolt on edge and or lip"]),
        ("Right, that is it", ["right that is it"]),  # a comma so early is no pause
        ("the left front tyre is down, so is the right", ["the left front tyre is down", "so is the right"]),
        ("the façade", ["the facade"]),
        ("... ?!", []),
    ],
)
def test_breaths(text: str, said: list[str]) -> None:
    """Marks part breaths, numbers become words, capitals and accents go."""
    assert said == [" ".join(breath) for breath in breaths(text)]


def test_nobody_talks_on_for_ever() -> None:
    """A text without any marks is parted by length, and no word of it is lost."""
    said = list(breaths("and the pin is dry " * 20))
    assert 100 == sum(len(breath) for breath in said)
    assert LONGEST == max(len(breath) for breath in said)
