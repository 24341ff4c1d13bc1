"""From a part as named to the part that is meant, given where the walker stands and what was spoken of."""

import pytest

from saycheck.understanding.parts import PartName
from saycheck.understanding.resolve import Resolved, Resolver, named_on
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load


@pytest.fixture(scope="module")
def resolver(toy: Vocabulary) -> Resolver:
    """The resolver over the toy loader."""
    return Resolver(toy)


def named(words: str, owner: str = "") -> PartName:
    """A part name as the finder makes it."""
    whole = (*owner.split(), *words.split())
    return PartName(whole, tuple(words.split()), owner=tuple(owner.split()))


@pytest.mark.parametrize(
    ("words", "here", "expected"),
    [
        ("cutting edge", "front", "cutting edge"),
        ("lift cylinder", "left side", "lift cylinder"),
        ("lift ram", "left side", "lift cylinder"),  # a head by another name
        ("front tyre", "left side", "front tyre"),
        ("front tire", "left side", "front tyre"),
        ("lift cylinder", "cab", "lift cylinder"),  # a whole name needs no place
        ("cylinder", "front", "tilt cylinder"),  # a head alone is the one that stands here
        ("cylinder", "left side", "lift cylinder"),
        ("belt", "engine bay", "fan belt"),
        ("mirror", "cab", "mirrors"),
        ("grapple cylinder", "engine bay", "grapple cylinder"),
        ("bucket pin", "front", "bucket pins"),
    ],
)
def test_part_meant(resolver: Resolver, words: str, here: str, expected: str) -> None:
    """The whole name decides; where only a head was said, the place does."""
    assert expected == resolver(named(words), here, None).name


def test_part_of_no_list_keeps_its_words(resolver: Resolver) -> None:
    """What no line of the checklist fits keeps the words it was given and stands where the walker is."""
    found = resolver(named("spice rack"), "cab", None)
    assert ("spice rack", None, "cab") == (found.name, found.part, found.zone)


@pytest.mark.parametrize(
    ("words", "owner", "here", "expected"),
    [
        ("gland", "lift cylinder", "left side", "lift cylinder gland"),
        ("rod", "tilt cylinder", "front", "tilt cylinder rod"),
        ("rod", "lift ram", "left side", "lift cylinder rod"),
    ],
)
def test_component_with_its_owner(
    resolver: Resolver, words: str, owner: str, here: str, expected: str
) -> None:
    """A part named with the one it sits on is named by both, the owner by its list name."""
    found = resolver(named(words, owner), here, None)
    assert (expected, words) == (found.name, found.component)


def test_component_of_what_was_spoken_of(resolver: Resolver, toy: Vocabulary) -> None:
    """A component alone belongs to the part last spoken of."""
    lift = toy.part("lift cylinder")
    found = resolver(named("gland"), "left side", Resolved("lift cylinder", lift, "left side"))
    assert ("lift cylinder gland", lift, "gland") == (found.name, found.part, found.component)


def test_elided_owner(resolver: Resolver) -> None:
    """ "Tilt rod" is the rod of the tilt cylinder."""
    assert "tilt cylinder rod" == resolver(named("tilt rod"), "front", None).name


@pytest.mark.parametrize(
    ("part", "side", "here", "expected"),
    [
        ("front tyre", "left", "front", "left side"),
        ("front tyre", "right", "front", "right side"),
        ("front tyre", None, "right side", "right side"),  # where the walker stands
        ("front tyre", "left", "right side", "left side"),  # the side wins over the place
        ("mirrors", "left", "front", "cab"),
        ("bucket", None, "cab", "front"),
    ],
)
def test_zone(
    resolver: Resolver, toy: Vocabulary, part: str, side: str | None, here: str, expected: str
) -> None:
    """A part stands in the zone of its side, the walker's own zone first."""
    assert expected == resolver.zone_of(toy.part(part), side, here)


def test_only_sided_parts_are_sided(resolver: Resolver) -> None:
    """Whether there is one on each side is known from the list."""
    assert (True, False, False) == tuple(
        resolver(named(words), "front", None).sided for words in ("lift cylinder", "bucket", "spice rack")
    )


@pytest.mark.parametrize(
    ("words", "owner", "expected"),
    [
        ("rod", "lift cylinder", "rod"),
        ("chrome", "lift cylinder", "rod"),  # by another name
        ("rod", "fan belt", None),  # a belt has no rod
    ],
)
def test_component_of(
    resolver: Resolver, toy: Vocabulary, words: str, owner: str, expected: str | None
) -> None:
    """Only what is found on a part is a component of it."""
    assert expected == resolver.component_of(frozenset(words.split()), toy.part(owner))


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("top gland", "lift cylinder top gland"),
        ("lower rod eye", "lift cylinder lower rod eye"),
        ("upper lift cylinder", "lift cylinder"),  # a part of the list, not one of itself
    ],
)
def test_component_at_one_level(resolver: Resolver, words: str, expected: str) -> None:
    """The top gland, where a cylinder is spoken of, is that cylinder's."""
    cylinder = resolver(named("lift cylinder"), "left side", None)
    assert expected == resolver(named(words), "front", cylinder).name


@pytest.mark.parametrize(
    ("owner", "component", "expected"),
    [
        ("forks", "fork heel", "fork heel"),
        ("lift cylinder", "rod", "lift cylinder rod"),
        ("cutting edge", "edge bolt", "cutting edge bolt"),
    ],
)
def test_named_on(owner: str, component: str, expected: str) -> None:
    """No name says twice what the part is on."""
    assert expected == named_on(owner, component)


def test_where_something_stands_is_no_name(resolver: Resolver) -> None:
    """Of "front shelf" the tyres share only the end of the machine."""
    assert resolver(named("front shelf"), "left side", None).part is None


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("fan", "fan"),  # no fan belt
        ("pins", "bucket pins"),
    ],
)
def test_what_a_part_is_stands_last_in_its_name(resolver: Resolver, words: str, expected: str) -> None:
    """One word names a part where it says what it is, not what it is of."""
    assert expected == resolver(named(words.removesuffix("s")), "engine bay", None).name


def test_one_word_short_for_a_component(resolver: Resolver) -> None:
    """The seal of a cylinder is its rod seal; the same word by itself is of no part."""
    cylinder = resolver(named("lift cylinder"), "left side", None)
    found = resolver(named("seal"), "left side", cylinder), resolver(named("seal"), "left side", None)
    assert ["lift cylinder seal", "seal"] == [part.name for part in found]


def test_under_a_heading_the_pin_is_its_own(resolver: Resolver) -> None:
    """ "Fuel tank, the pin's in" is no bucket pin; without a heading the pin is the one that stands here."""
    tank = resolver(named("fuel tank"), "right side", None)
    found = [resolver(named("pin"), "front", tank, headed=headed).name for headed in (True, False)]
    assert ["fuel tank pin", "bucket pins"] == found


@pytest.mark.parametrize(
    ("words", "name"),
    [
        (("turbo",), "turbocharger"),
        (("rear", "screen"), "rear window"),
        (("hood",), "hood"),  # no name cut short
    ],
)
def test_what_is_on_no_list_goes_by_its_name_on_others(words: tuple[str, ...], name: str) -> None:
    """Where it was cut short, or said in several words."""
    resolver = Resolver(load("mobile-generator-set"))
    assert name == resolver(PartName(words, words), "engine bay", None).name
