"""Facts of the trade, from a spoken sentence to state, consequence and caution.

Common practice, no source: each is what working mechanics teach, put in our own words. The consequence is the
sentence of ``vocab/shared/waiting.toml`` that the write-up prints. Sentences that understanding does not get
right yet are not here.
"""

import pytest

from saycheck.models.walk import Finding
from saycheck.understanding.pipeline import understand
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import kinds, load
from saycheck.vocabulary.waiting import sentences, waiting_for


def the_finding(said: str, kind: str) -> Finding:
    """The one finding of a sentence."""
    (finding,) = understand(said, kind).findings
    return finding


def consequence(finding: Finding, vocabulary: Vocabulary) -> str:
    """What waiting would mean, as the write-up finds it."""
    part = vocabulary.part(finding.line or finding.part)
    names = [finding.part, part.name, *([part.like] if part.like else [])]
    found = waiting_for(list(part.checks), finding.condition, sentences(), names)
    return found.text if found else ""


LIFTED = "Never go under a raised boom"
PRESSURE = "never feel for a leak by hand"
PINS = "Take the load off the joint"


@pytest.mark.parametrize(
    ("said", "state", "means", "caution"),
    [
        # loose edge bolts let the edge work and wear the bucket floor: write up, tighten before work
        ("The cutting edge bolts are loose.", "writeup", "wears the floor of the bucket", LIFTED),
        ("Cutting edge is loose.", "writeup", "tighten before work", LIFTED),
        # a reversible edge turned in time has a second life
        ("Cutting edge worn, wants turning.", "watch", "has a second life", None),
        ("Cutting edge is worn but it can still be turned.", "watch", "what it costs an hour doubles", None),
        # paint cracking along a weld is an early sign of a crack beneath it
        ("The loader arm weld has cracks in the paint.", "writeup", "early sign of a crack", LIFTED),
        (
            "The loader arm has a line in the paint along the weld.",
            "writeup",
            "early sign of a crack",
            LIFTED,
        ),
        # a scored rod ruins the gland it runs through; slight scoring without a leak is watched
        ("Left lift cylinder rod is badly scored.", "writeup", "ruins the gland", PRESSURE),
        ("Rod on the tilt cylinder is lightly scored.", "watch", "ruins the gland", None),
        # an oil film on rod, gland or the inner side of a hub is a leak to write up
        ("There's an oil film on the left lift cylinder rod.", "writeup", "a leak that has begun", PRESSURE),
        ("There's a film of oil on the left front wheel hub.", "writeup", "a leak that has begun", None),
        # dry ground is a finding of its own; drips point to what to look at
        ("Ground under the machine is dry.", "good", "", None),
        ("Drips on the ground under the machine.", "writeup", "seldom heals", None),
        # a fuel cap without its gasket loses fuel and lets water in
        ("The fuel cap gasket is missing.", "writeup", "lets water", "No flame"),
        # a hose under a sleeve, or packed, has not been inspected
        ("Loader hoses are under a sleeve, can't see them.", "hidden", "", None),
        ("Loader hoses are packed in grease and mud.", "hidden", "", None),
        # a dry-rotted or weather-checked cover will fail
        ("The loader hose is dry-rotted.", "writeup", "though it holds pressure", PRESSURE),
        ("The loader hose is weather-checked.", "writeup", "though it holds pressure", PRESSURE),
        # steel lines are looked at for kinks, flexible ones for chafing
        ("The loader hose is kinked.", "writeup", "", PRESSURE),
        ("Brake lines chafed.", "writeup", "", "Do not work the machine"),
        # cracked glass is written up and replaced
        ("The windscreen is cracked.", "writeup", "cracked glass is replaced", None),
        ("The cab glass is cracked.", "writeup", "cracked glass is replaced", None),
        # pins are judged for slop, and every pin for its retainer
        ("Bucket pins have slop.", "watch", "hammers the bores oval", None),
        ("The bucket pin keeper is missing.", "writeup", "walks out of its bore", LIFTED),
        ("Bucket pin retainer bolt is missing.", "writeup", "walks out of its bore", LIFTED),
        ("Loader arm pin circlip is gone.", "writeup", "walks out of its bore", PINS),
        # bucket teeth are judged by their point and by their pins
        ("The bucket teeth have lost their points.", "watch", "without its point", None),
        ("A bucket tooth pin is missing.", "writeup", "a loose pin is lost", None),
    ],
)
def test_fact_on_a_wheel_loader(said: str, state: str, means: str, caution: str | None) -> None:
    """What is said gives the state, the consequence and the caution that the trade gives it."""
    finding = the_finding(said, "wheel-loader")

    assert state == finding.state
    assert means in consequence(finding, load("wheel-loader")) if means else True
    assert (caution is not None and finding.caution is not None and caution in finding.caution) or (
        finding.caution is None and caution is None
    )


@pytest.mark.parametrize(
    ("said", "state", "means"),
    [
        # an extending stick takes the lubricant its maker names
        ("The extending dipper wants grease.", "writeup", "grease or dry graphite"),
        ("Extending dipper wants graphite.", "writeup", "the lubricant its maker names"),
        # the lock that holds the boom for the road must work, its cushions be in place
        ("The boom lock does not work.", "writeup", "keeps the boom in its place"),
        ("The boom lock is bent.", "writeup", "keeps the boom in its place"),
        ("The boom lock cushion is missing.", "writeup", "hammers the lock"),
        ("Boom lock works.", "good", ""),
        ("Hydraulic pipe on the boom is kinked.", "writeup", "splits at the kink"),
    ],
)
def test_fact_on_a_backhoe_loader(said: str, state: str, means: str) -> None:
    """The same for what only a backhoe loader has."""
    finding = the_finding(said, "backhoe-loader")

    assert state == finding.state
    assert means in consequence(finding, load("backhoe-loader"))


def test_edge_that_is_worn_brings_the_question_for_its_thickness() -> None:
    """A worn edge is watched, and how much is left is asked for."""
    edge = load("wheel-loader").part("cutting edge")

    assert [("thickness", True)] == [(measure.attribute, measure.wear) for measure in edge.measures]


@pytest.mark.parametrize("kind", [kind for kind in kinds() if kind != "road-truck"])
def test_brakes_behind_wheels_are_no_part_of_a_walk(kind: str) -> None:
    """Linings, drums and discs behind wheels are never asked for, but on a road truck, whose rules name them."""
    vocabulary = load(kind)
    asked = {line.part for line in vocabulary.lines if line.option is None}

    assert [] == [
        part.name
        for part in vocabulary.parts
        if part.name in asked and part.like in ("brake lining", "brake drum", "brake disc")
    ]


def test_every_pin_has_a_retainer() -> None:
    """Every joint that is a pin is looked at for what keeps it in."""
    pins = [part for kind in kinds() for part in load(kind).parts if part.like == "pin"]

    assert pins
    assert [] == [part.name for part in pins if "pins retained" not in part.checks]
