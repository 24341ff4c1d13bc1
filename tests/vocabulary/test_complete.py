"""Each machine kind is complete: what a good walk round it looks at (common practice, no source), and its order.

Names are those of the list or of the shared part behind them.
"""

import pytest

from saycheck.vocabulary.load import kinds, load

EVERY = """
engine oil, coolant, fuel cap, belt, radiator, coolant hose, air cleaner, exhaust, fuel filter,
water separator, fuel line, battery, wiring, ground under the machine, fire extinguisher, guard
"""
MOBILE = """
seat, seat belt, horn, reverse alarm, mirror, step, instrument panel, warning lamp, hour meter,
hydraulic oil, hydraulic hose, hydraulic pump, frame, beacon, manual, floor mat, parking brake,
decal, hood
"""
CAB = """
door, windscreen, glass, wiper, washer jets, heater, camera
"""
TYRED = """
tyre, wheel nut, wheel chock, service brake, steering, axle
"""
TRACKS = """
track tensioner, bottom roller, idler, sprocket, track frame, final drive
"""
LOADER = """
bucket, cutting edge, tooth, pin, loader arm, cylinder, coupler, coupler lock
"""
DIGGER = """
bucket, tooth, pin, linkage, boom, dipper, cylinder, coupler, coupler lock, slew ring, swivel, boom
lock, safety lever, check valve, hook, swing motor
"""

WANTED = {
    "wheel-loader": (
        EVERY,
        MOBILE,
        CAB,
        TYRED,
        LOADER,
        """
        bellcrank, linkage, steering cylinder, articulation joint, articulation lock, oscillation pivot,
        drive shaft, secondary steering, safety lever
        """,
    ),
    "backhoe-loader": (
        EVERY,
        MOBILE,
        CAB,
        TYRED,
        LOADER,
        """
        backhoe bucket, boom, dipper, extending dipper, boom lock, swing lock, swing post, stabiliser,
        outrigger pad, sideshift carriage, tie rod, king pin
        """,
    ),
    "crawler-excavator": (
        EVERY,
        CAB,
        TRACKS,
        """
        seat, seat belt, horn, reverse alarm, mirror, step, instrument panel, warning lamp, hour
        meter, hydraulic oil, hydraulic hose, hydraulic pump, frame, beacon, manual, floor mat, bucket,
        tooth, pin, linkage, boom, dipper, cylinder, coupler, coupler lock, slew ring, swivel, safety
        lever, check valve, hook, swing motor, track, track bolt, carrier roller, track pad, emergency
        exit, side cutter, counterweight, falling object guard, accumulator, dozer blade
        """,
    ),
    "wheeled-excavator": (
        EVERY,
        MOBILE,
        CAB,
        TYRED,
        """
        bucket, tooth, pin, linkage, boom, dipper, cylinder, coupler, coupler lock, slew ring, swivel,
        safety lever, check valve, hook, swing motor, axle lock, stabiliser, swing lock, oscillation
        pivot, dozer blade
        """,
    ),
    "skid-steer-loader": (
        EVERY,
        MOBILE,
        CAB,
        LOADER,
        """
        tyre, wheel nut, restraint bar, interlock, boom support, chaincase, hydraulic motor, auxiliary
        hydraulics
        """,
    ),
    "compact-track-loader": (
        EVERY,
        MOBILE,
        CAB,
        TRACKS,
        LOADER,
        """
        rubber track, restraint bar, interlock, boom support, auxiliary hydraulics
        """,
    ),
    "telehandler": (
        EVERY,
        MOBILE,
        CAB,
        TYRED,
        """
        boom, wear pad, boom chain, cylinder, fork, fork lock, fork carriage, load backrest, load
        indicator, stabiliser, capacity plate, inclinometer, check valve, man basket
        """,
    ),
    "rough-terrain-forklift": (
        EVERY,
        MOBILE,
        CAB,
        TYRED,
        """
        mast, load chain, mast roller, fork, fork lock, fork carriage, load backrest, overhead guard,
        capacity plate, cylinder
        """,
    ),
    "counterbalance-forklift": (
        EVERY,
        MOBILE,
        """
        tyre, wheel nut, service brake, steering, axle, mast, load chain, mast roller, fork, fork lock,
        fork carriage, load backrest, overhead guard, capacity plate, cylinder, gas bottle, gas hose,
        traction battery, electrolyte, interlock
        """,
    ),
    "farm-tractor": (
        EVERY,
        MOBILE,
        CAB,
        TYRED,
        """
        three-point linkage, top link, sway chain, PTO, PTO guard, drawbar, auxiliary hydraulics,
        trailer brakes, slow vehicle sign, roll-over structure, tow hitch, clutch
        """,
    ),
    "articulated-dump-truck": (
        EVERY,
        MOBILE,
        CAB,
        TYRED,
        """
        dump body, tailgate, body prop, body pad, cylinder, pin, suspension, articulation joint,
        articulation lock, retarder, secondary steering, mud flap, headboard, air tank
        """,
    ),
    "motor-grader": (
        EVERY,
        MOBILE,
        CAB,
        TYRED,
        """
        cutting edge, end bit, circle, tandem, wheel lean, ripper, scarifier, articulation joint,
        articulation lock, drawbar, joint, cylinder
        """,
    ),
    "crawler-dozer": (
        EVERY,
        MOBILE,
        CAB,
        TRACKS,
        """
        track, track bolt, carrier roller, cutting edge, end bit, push arm, equaliser bar, ripper,
        winch, cylinder, roll-over structure, falling object guard
        """,
    ),
    "road-truck": (
        EVERY,
        """
        seat, seat belt, horn, mirror, step, windscreen, wiper, tyre, rim, wheel nut, wheel hub,
        suspension, brake lining, brake chamber, slack adjuster, air tank, air line, fifth wheel, tie
        rod, king pin, headlight, tail light, brake light, indicator, reflector, underrun guard, landing
        leg, trailer king pin, load strap, warning triangle, low air warning, abs, service brake,
        parking brake
        """,
    ),
    "generator-set": (
        EVERY,
        """
        generator, control panel, circuit breaker, residual current device, outlet socket, output cable,
        earth rod, emergency stop, bund, enclosure, vent, hook, tyre, wheel nut, jockey wheel, starter,
        hour meter
        """,
    ),
}
"""What each kind must have on its list, always or where fitted."""


def wanted(kind: str) -> list[str]:
    """The names in the table above."""
    return [name for names in WANTED[kind] for name in " ".join(names.split()).split(", ")]


@pytest.mark.parametrize("kind", kinds())
def test_kind_is_complete(kind: str) -> None:
    """Everything a good walk round this machine looks at stands on its list, or on a part of it."""
    vocabulary = load(kind)
    there = {name for part in vocabulary.parts for name in (part.name, part.like, *part.components)}

    assert [] == [name for name in wanted(kind) if name not in there]


@pytest.mark.parametrize("kind", [kind for kind in kinds() if kind != "generator-set"])
def test_walk_goes_round(kind: str) -> None:
    """One walks from the front along the left to the rear and back along the right, then under, in and up."""
    names = [zone.name for zone in load(kind).zones]
    round_it = ["front", "left side", "rear", "right side", "underneath", "engine bay", "fluids"]

    assert round_it == [name for name in names if name in round_it]


@pytest.mark.parametrize("kind", [kind for kind in kinds() if kind != "generator-set"])
def test_right_side_is_met_from_the_rear(kind: str) -> None:
    """What stands on both sides is met on the right in the opposite order."""
    lines = load(kind).lines
    left = [line.part for line in lines if line.zone == "left side"]
    right = [line.part for line in lines if line.zone == "right side" and line.part in left]

    assert [part for part in reversed(left) if part in right] == right
    assert right


@pytest.mark.parametrize("kind", kinds())
def test_names_follow_the_standard(kind: str) -> None:
    """Each kind says which standard its name follows, or that it is a trade name.

    Family names of ISO 6165 are from memory; its 2022 abstract was read (see public-lists.json, iso-6165).
    """
    standard = load(kind).standard
    families = ("dozer", "loader", "backhoe loader", "excavator", "dumper", "grader")

    assert standard.startswith(("ISO ", "trade name"))
    if standard.startswith("ISO 6165"):
        assert any(family in standard for family in families)
        assert "from memory" in standard


@pytest.mark.parametrize("kind", kinds())
def test_every_check_is_whole(kind: str) -> None:
    """Every check of every part says what good looks like, how urgent it is, and is answered by words."""
    vocabulary = load(kind)
    checks = {name for part in vocabulary.parts for name in part.checks}

    assert [] == [name for name in checks if not vocabulary.checks[name].good]
    assert [] == [name for name in checks if not vocabulary.checks[name].conditions]


@pytest.mark.parametrize(
    "like",
    ["cylinder", "hydraulic hose", "fan", "belt", "tyre", "boom", "dump body", "fork", "load chain", "battery",
     "PTO", "accumulator", "fuel tank", "gas bottle", "generator", "brake chamber", "bucket", "loader arm"],
)  # fmt: skip
def test_what_can_hurt_carries_a_caution(like: str) -> None:
    """Parts on which work can hurt carry their caution."""
    assert load("wheel-loader").shared[like].caution
