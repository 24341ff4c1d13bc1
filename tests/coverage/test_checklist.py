"""The checklist: which lines a walk spoke of, and the worst that was said of each."""

import pytest

from saycheck.coverage.checklist import checklist
from saycheck.models.walk import ChecklistLine, Disposition, Finding, Measurement, Side, Span
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load

from .conftest import Say


def spoken(lines: list[ChecklistLine]) -> dict[str, str]:
    """The lines that were spoken of, "left front tyre" to state."""
    return {
        f"{line.side} {line.part}".removeprefix("none "): line.state
        for line in lines
        if line.state != "unsaid"
    }


def test_nothing_said(toy: Vocabulary) -> None:
    """Every line that is always asked for stands in walk order, unsaid."""
    lines = checklist(toy, [])

    assert [(n.zone, n.part, n.side) for n in toy.lines if n.option is None] == [
        (line.zone, line.part, line.side) for line in lines
    ]
    assert {"unsaid"} == {line.state for line in lines}


@pytest.mark.parametrize(
    ("part", "side", "lines"),
    [
        ("bucket", "none", ["bucket"]),
        ("front tyre", "left", ["left front tyre"]),
        ("front tyre", "none", ["left front tyre", "right front tyre"]),
        ("bucket", "left", ["bucket"]),
        (None, "none", []),
    ],
)
def test_unclear(toy: Vocabulary, part: str | None, side: Side, lines: list[str]) -> None:
    """A line that only an unclear passage names was spoken of, though nobody knows what was said."""
    passage = Span(char_start=0, char_end=9, disposition="unclear", part=part, side=side)

    assert dict.fromkeys(lines, "unclear") == spoken(checklist(toy, [], spans=[passage]))


@pytest.mark.parametrize("disposition", ["talk", "finding", "taken-back"])
def test_only_what_is_unclear_is_unclear(toy: Vocabulary, disposition: Disposition) -> None:
    """What is known to be talk says nothing of the part that it names."""
    passage = Span(char_start=0, char_end=9, disposition=disposition, part="bucket")

    assert {} == spoken(checklist(toy, [], spans=[passage]))


def test_what_was_understood_goes_before_what_was_not(toy: Vocabulary, say: Say) -> None:
    """A part of which something is known is no longer unclear."""
    passage = Span(char_start=0, char_end=9, disposition="unclear", part="bucket")

    assert {"bucket": "good"} == spoken(checklist(toy, [say("bucket")], spans=[passage]))


@pytest.mark.parametrize(
    ("part", "more", "lines"),
    [
        ("bucket", {}, ["bucket"]),
        ("bucket", {"zone": "cab"}, ["bucket"]),  # spoken of from another place
        ("bucket", {"side": "left"}, ["bucket"]),  # a part without side has one line only
        ("front tyre", {"side": "left"}, ["left front tyre"]),
        ("front tyre", {"side": "both"}, ["left front tyre", "right front tyre"]),
        ("front tyre", {"side": "none"}, ["left front tyre", "right front tyre"]),
        ("tilt cylinder rod", {"line": "tilt cylinder"}, ["tilt cylinder"]),
        ("rod", {"line": "tilt cylinder", "heard_as": "rod's clean"}, ["tilt cylinder"]),
    ],
)
def test_own_lines(toy: Vocabulary, say: Say, part: str, more: dict[str, str], lines: list[str]) -> None:
    """A finding speaks of its line on its side, on both where no side was told."""
    assert dict.fromkeys(lines, "good") == spoken(checklist(toy, [say(part, **more)]))


@pytest.mark.parametrize(
    ("part", "more", "lines"),
    [
        (
            "front tyre",
            {"side": "both", "heard_as": "Tyres all good"},
            ["left front tyre", "left rear tyre", "right rear tyre", "right front tyre"],
        ),
        ("front tyre", {"side": "left", "heard_as": "tyres good"}, ["left front tyre", "left rear tyre"]),
        ("front tyre", {"side": "left", "heard_as": "tyre good"}, ["left front tyre"]),  # one of them
        ("front wheel nuts", {"side": "left", "heard_as": "nuts all there"}, ["left front wheel nuts"]),
        (
            "rear wheel nuts",
            {"side": "none", "heard_as": "Wheel nuts good"},
            [
                "left front wheel nuts",
                "left rear wheel nuts",
                "right rear wheel nuts",
                "right front wheel nuts",
            ],
        ),
        ("loader hoses", {"heard_as": "hoses all good"}, ["loader hoses"]),  # not those at the rear
        ("cab glass", {"heard_as": "glass is good"}, ["cab glass", "rear screen"]),
        (
            "headlight",
            {"side": "both", "heard_as": "Lights all work"},
            ["left headlight", "right headlight", "work lights", "beacon"],
        ),
        ("fluids", {"zone": "fluids"}, ["engine oil", "coolant", "hydraulic oil"]),
        ("all the oils", {"zone": "fluids"}, ["engine oil", "hydraulic oil"]),
        ("cab", {"zone": "cab"}, []),  # a cab that is fine says nothing of the seat belt
        ("safety equipment", {"zone": "safety equipment"}, ["fire extinguisher", "decals"]),
        ("hose", {"zone": "front"}, ["loader hoses"]),  # the only hoses there
        ("gland", {"zone": "front"}, ["tilt cylinder"]),  # the only part there that has one
        ("lift cylinder boot", {"side": "left"}, ["left lift cylinder"]),
        ("bolt", {"zone": "front"}, []),  # half of the parts have bolts
        ("bucket cutting edge", {"line": "bucket"}, ["bucket", "cutting edge"]),  # with a line of its own
        (
            "articulation joint loader hose",
            {"line": "articulation joint"},
            ["loader hoses", "articulation joint"],
        ),
    ],
)
def test_general_statements(
    toy: Vocabulary, say: Say, part: str, more: dict[str, str], lines: list[str]
) -> None:
    """A general statement speaks of all lines its words mean, in the place where it was said."""
    assert dict.fromkeys(lines, "good") == spoken(checklist(toy, [say(part, **more)]))


@pytest.mark.parametrize(
    ("part", "state", "lines"),
    [
        ("cab", "later", ["seat belt", "horn", "left mirrors", "right mirrors", "cab glass", "rear screen",
                          "hour meter"]),
        ("rear", "hidden", ["counterweight", "rear hoses"]),
        ("rear", "writeup", []),
    ],
)  # fmt: skip
def test_places(toy: Vocabulary, say: Say, part: str, state: str, lines: list[str]) -> None:
    """A place that was put off or could not be seen is so for all that is in it."""
    assert dict.fromkeys(lines, state) == spoken(checklist(toy, [say(part, state)]))


@pytest.mark.parametrize(
    ("line", "condition", "lines"),
    [
        ("hydraulic tank", "low", {"hydraulic tank", "hydraulic oil"}),
        ("hydraulic tank", "crack", {"hydraulic tank"}),
        ("engine", "level", {"engine", "engine oil"}),
        ("bucket", "low", {"bucket"}),
    ],
)
def test_levels(toy: Vocabulary, say: Say, line: str, condition: str, lines: set[str]) -> None:
    """A level told of a tank or an engine is that of the fluid in it."""
    assert lines == set(spoken(checklist(toy, [say(line, condition=condition)])))


def test_gallons_tell_a_level(toy: Vocabulary, say: Say) -> None:
    """A volume told of a tank is one of the fluid in it."""
    gallons = Measurement(value=5, unit="gal", text="five gallons", value_si=0.0189, unit_si="m³")
    found = say("hydraulic tank", "writeup", condition="leak", measurements=[gallons])

    assert {"hydraulic tank": "writeup", "hydraulic oil": "writeup"} == spoken(checklist(toy, [found]))


@pytest.mark.parametrize(
    ("text", "state", "lines"),
    [
        ("Lights all work", "good", 4),
        ("Lights are dead", "writeup", 4),
        ("Lights: one is out", "writeup", 1),
        ("Lights, front all good", "good", 1),
        ("Lights, all four good", "good", 4),
    ],
)
def test_picked_out(toy: Vocabulary, say: Say, text: str, state: str, lines: int) -> None:
    """With the transcript at hand a statement that picks out some does not speak of all."""
    evidence = [{"char_start": 0, "char_end": len(text)}]
    found = say("headlight", state, side="left", heard_as="Lights", evidence=evidence)

    assert lines == len(spoken(checklist(toy, [found], text=text)))


@pytest.mark.parametrize(
    ("states", "state"),
    [
        (["good", "writeup"], "writeup"),
        (["watch", "good"], "watch"),
        (["watch", "writeup"], "writeup"),
        (["hidden", "good"], "hidden"),
        (["hidden", "watch"], "watch"),
        (["later", "good"], "good"),  # put off, then looked at
        (["good", "later"], "later"),
        (["later", "hidden"], "hidden"),
    ],
)
def test_worst_counts(toy: Vocabulary, say: Say, states: list[str], state: str) -> None:
    """A line has the worst state that was said of it, with all findings."""
    lines = checklist(toy, [say("bucket", each) for each in states])

    assert {"bucket": state} == spoken(lines)
    assert ["f001", "f002"] == lines[0].finding_ids


def test_put_off_stays_where_only_a_component_was_seen(toy: Vocabulary, say: Say) -> None:
    """A rod that was looked at does not settle the cylinder that was put off."""
    said = [say("tilt cylinder", "later"), say("tilt cylinder rod", line="tilt cylinder")]

    assert {"tilt cylinder": "later"} == spoken(checklist(toy, said))


def test_exception_goes_before_general(toy: Vocabulary, say: Say) -> None:
    """What is said of one line itself leaves out the general statement there, and only there."""
    said = [
        say("headlight", side="both", heard_as="lights are all working"),
        say("headlight", "writeup", side="left", heard_as="bar the left headlight"),
    ]
    lines = {
        f"{n.side} {n.part}": (n.state, n.finding_ids) for n in checklist(toy, said) if n.zone == "lights"
    }

    assert {
        "left headlight": ("writeup", ["f002"]),
        "right headlight": ("good", ["f001"]),
        "none work lights": ("good", ["f001"]),
        "none beacon": ("good", ["f001"]),
    } == lines


def test_trouble_without_side_is_never_lost(toy: Vocabulary, say: Say) -> None:
    """A fault that does not tell its side stands on both lines though both were spoken of."""
    said = [
        say("mirrors", side="left"),
        say("mirrors", side="right"),
        say("mirrors", "writeup", heard_as="mirror"),
    ]

    assert {"left mirrors": "writeup", "right mirrors": "writeup"} == spoken(checklist(toy, said))


def test_good_without_side_gives_way(toy: Vocabulary, say: Say) -> None:
    """What is good without a side fills only the line that has nothing of its own."""
    said = [say("mirrors", "watch", side="left"), say("mirrors", heard_as="mirror")]

    assert {"left mirrors": "watch", "right mirrors": "good"} == spoken(checklist(toy, said))


@pytest.mark.parametrize(
    ("parts", "options", "there"),
    [
        ([], (), []),
        ([], ("radio",), ["radio"]),
        (["coupler"], (), ["coupler", "coupler lock"]),  # its lock is fitted as well
        (["cab"], (), []),
    ],
)
def test_options(
    toy: Vocabulary, say: Say, parts: list[str], options: tuple[str, ...], there: list[str]
) -> None:
    """Equipment is asked for where it is named or spoken of, all of it."""
    optional = {line.part for line in toy.lines if line.option}
    lines = checklist(toy, [say(part, "later") for part in parts], options)

    assert there == [line.part for line in lines if line.part in optional]


@pytest.mark.parametrize(
    ("heard", "line", "lines"),
    [
        ("brakes", "service brake", ["service brake"]),  # the parking brake must be named
        ("pins", "bucket pins", ["bucket pins", "loader arm pins"]),  # not what has a lock pin
        ("oils", "engine oil", ["engine oil", "hydraulic oil", "transmission oil", "axle oil"]),
        ("axles", "rear axle", ["front axle", "rear axle"]),
        ("work lights", "front work lights", ["front work lights", "rear work lights"]),
        ("glass", "cab glass", ["windscreen", "cab glass"]),
        ("door glass", "cab glass", ["cab glass"]),
    ],
)
def test_on_a_wheel_loader(say: Say, heard: str, line: str, lines: list[str]) -> None:
    """What mechanics say of a whole kind, on a shipped machine."""
    loader = load("wheel-loader")
    found = say(line, line=line, heard_as=heard, zone=loader.part(line).zones[0])

    assert lines == list(spoken(checklist(loader, [found])))


def test_unknown_part(toy: Vocabulary, say: Say) -> None:
    """A part that is not on the list speaks of no line."""
    found: list[Finding] = [say("flux capacitor", "writeup")]

    assert {} == spoken(checklist(toy, found))
