"""Names: endings, plurals, and what zones are named after."""

import pytest

from saycheck.coverage.names import Called, Names, folded, is_plural, names_things, picks, words_of
from saycheck.vocabulary.compiled import Vocabulary


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Front tyres", ("front", "tyre")),
        ("bucket teeth", ("bucket", "tooth")),
        ("batteries", ("battery",)),
        ("bushes", ("bush",)),
        ("cab glass", ("cab", "glass")),  # no plural
        ("first-aid kit", ("first", "aid", "kit")),
        ("chassis", ("chassis",)),
    ],
)
def test_folded(text: str, words: tuple[str, ...]) -> None:
    """Names are compared in lower case, without plural, a hyphen parting words."""
    assert words == folded(text)


@pytest.mark.parametrize(
    ("word", "several"), [("tyres", True), ("teeth", True), ("tyre", False), ("glass", False), ("gas", False)]
)
def test_plural(word: str, several: bool) -> None:
    """A plural is known by its ending."""
    assert several == is_plural(word)


@pytest.mark.parametrize(
    ("noun", "parts"),
    [
        ("tyre", ["front tyre", "rear tyre"]),
        ("tire", ["front tyre", "rear tyre"]),  # as spelt elsewhere
        ("front tyre", ["front tyre"]),
        ("wheel nut", ["front wheel nuts", "rear wheel nuts"]),
        ("lug nut", ["front wheel nuts", "rear wheel nuts"]),
        ("ram", ["tilt cylinder", "lift cylinder"]),
        ("glass", ["cab glass", "rear screen"]),
        ("gearbox", []),
    ],
)
def test_of_kind(toy: Vocabulary, noun: str, parts: list[str]) -> None:
    """A noun said without more means all parts of that kind."""
    assert parts == Names(toy).of_kind(folded(noun))


@pytest.mark.parametrize(
    ("part", "text", "called"),
    [
        ("front tyre", "left front tyre, fine", Called(("front", "tyre"), "tyre", "left")),
        ("front tyre", "Tyres all good", Called(("tyre",), "tyres", "")),
        ("front tyre", "front tire is cut", Called(("front", "tire"), "tire", "")),  # the longest name said
        ("front tyre", "right one, dry too", None),
    ],
)
def test_called(toy: Vocabulary, part: str, text: str, called: Called | None) -> None:
    """What a text calls a part is the longest ending of one of its sayings."""
    assert called == Names(toy).called(part, text)


@pytest.mark.parametrize(
    ("text", "some"),
    [
        ("top hose is soft", True),
        ("number four has a flat", True),
        ("the other three are good", True),
        ("all four of them good", False),
        ("all tight at the front", True),  # an end is picked out even of all
        ("no leaks", False),
    ],
)
def test_picks(text: str, some: bool) -> None:
    """Words that pick out some of a kind are told from those that take in all."""
    assert some == picks(words_of(text))


@pytest.mark.parametrize(
    ("part", "name", "component"),
    [
        ("tilt cylinder", "tilt cylinder rod", "rod"),
        ("tilt cylinder", "tilt cylinder", None),
        ("tilt cylinder", "tilt cylinder wotsit", None),
        ("mirrors", "mirror bracket", "bracket"),  # number does not matter
    ],
)
def test_component(toy: Vocabulary, part: str, name: str, component: str | None) -> None:
    """What a finding's name adds to its line is looked up among the shared parts."""
    assert component == Names(toy).component(toy.part(part), name)


@pytest.mark.parametrize(
    ("zone", "things"),
    [("lights", True), ("fluids", True), ("safety equipment", True), ("cab", False), ("left side", False)],
)
def test_names_things(toy: Vocabulary, zone: str, things: bool) -> None:
    """A zone is named after the things in it or after a place."""
    assert things == names_things(toy.zone(zone))
