"""The shipped vocabulary: every file loads, names are plain and distinct, limits have their source."""

import re
from collections import Counter
from itertools import chain
from pathlib import Path
from typing import Any

import pint
import pytest

from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import kinds, load, shared_tables, shipped_folder
from saycheck.vocabulary.schema import Conditions

KINDS = kinds()
FILES = [
    *(shipped_folder() / "machines").glob("*.toml"),
    shipped_folder() / "shared" / "parts.toml",
    shipped_folder() / "shared" / "checks.toml",
]


@pytest.fixture(params=KINDS)
def vocabulary(request: pytest.FixtureRequest) -> Vocabulary:
    """Each shipped machine kind in turn."""
    return load(request.param)


def twice(words: list[str]) -> list[str]:
    return [word for word, count in Counter(words).items() if count > 1]


def test_all_kinds_are_there() -> None:
    """The kinds that the documentation promises are shipped."""
    promised = (
        "articulated-dump-truck backhoe-loader compact-track-loader counterbalance-forklift crawler-dozer "
        "crawler-excavator farm-tractor generator-set motor-grader road-truck rough-terrain-forklift "
        "skid-steer-loader telehandler wheel-loader wheeled-excavator"
    )

    assert promised.split() == KINDS


def test_lines_are_distinct(vocabulary: Vocabulary) -> None:
    """A whole walk has between 40 and 140 lines that are always asked for, and none stands twice."""
    lines = [(line.zone, line.part, line.side) for line in vocabulary.lines]
    always = [line for line in vocabulary.lines if line.option is None]

    assert 40 <= len(always) <= 140
    assert len(lines) == len(set(lines))


def test_sayings_name_one_part(vocabulary: Vocabulary) -> None:
    """No saying belongs to two parts of a machine."""
    assert [] == twice([saying for part in vocabulary.parts for saying in part.sayings])


def test_zone_sayings_name_one_zone(vocabulary: Vocabulary) -> None:
    """No saying belongs to two zones of a machine."""
    assert [] == twice([saying for zone in vocabulary.zones for saying in zone.sayings])


def test_sided_parts_have_both_sides(vocabulary: Vocabulary) -> None:
    """Every sided part has exactly one left and one right line, every other part one without side."""
    for part in vocabulary.parts:
        sides = sorted(line.side for line in vocabulary.lines if line.part == part.name)
        assert (part.name, ["left", "right"] if part.sided else ["none"]) == (part.name, sides)


def test_every_part_has_a_check(vocabulary: Vocabulary) -> None:
    """Something is looked for on every part."""
    assert [] == [part.name for part in vocabulary.parts if not part.checks]


@pytest.mark.parametrize(
    "wanted",
    ["ground under the machine", "engine oil", "coolant", "hydraulic oil", "fire extinguisher", "seat belt",
     "parking brake", "horn", "reverse alarm", "mirror", "battery", "decals", "tyre or track"],
)  # fmt: skip
@pytest.mark.parametrize("kind", ["wheel-loader", "backhoe-loader", "telehandler", "crawler-excavator"])
def test_walk_covers(kind: str, wanted: str) -> None:
    """A walk covers what any good walk covers (common practice, no source), whatever the machine."""
    names = {part.name for part in load(kind).parts}
    exempt = {("crawler-excavator", "parking brake")}  # its brakes set themselves
    if (kind, wanted) in exempt:
        assert wanted not in names
    elif wanted == "tyre or track":
        assert names & {"front tyre", "track"}
    else:
        assert wanted in names or any(part.like == wanted for part in load(kind).parts)


def test_kind_sayings_are_distinct() -> None:
    """No saying names two machine kinds."""
    assert [] == twice([saying for kind in KINDS for saying in load(kind).sayings])


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("mobile generator set", "generator-set"),
        ("mobile generator", "generator-set"),
        ("Genset", "generator-set"),
        ("rough-terrain forklift truck", "rough-terrain-forklift"),
        ("counterbalance forklift truck", "counterbalance-forklift"),
        ("forklift truck", "counterbalance-forklift"),
        ("road truck and trailer", "road-truck"),
        ("dump truck", "articulated-dump-truck"),
        ("excavator", "crawler-excavator"),
        ("Digger", "crawler-excavator"),
        ("mini digger", "crawler-excavator"),
        ("dozer", "crawler-dozer"),
        ("bulldozer", "crawler-dozer"),
        ("tractor", "farm-tractor"),
        ("skid steer", "skid-steer-loader"),
        ("grader", "motor-grader"),
    ],
)
def test_kinds_go_by_what_people_call_them(said: str, kind: str) -> None:
    """A machine kind is found by its usual names."""
    assert kind == load(said).kind


def test_shared_heads_are_distinct() -> None:
    """No head names two shared parts."""
    shared = load(KINDS[0]).shared.values()

    assert [] == twice([head for part in shared for head in dict.fromkeys([part.name, *part.heads])])


def test_every_condition_answers_a_check() -> None:
    """Checks name only conditions that are there, and every condition answers some check."""
    tables = shared_tables("conditions.toml", Conditions)
    if not tables:
        pytest.skip("vocab/shared/conditions.toml is not there")
    known = {condition.name for table in tables for condition in table.condition}
    answered = set(chain.from_iterable(check.conditions for check in load(KINDS[0]).checks.values()))

    assert set() == known ^ answered


def test_conditions_are_narrowed_by_checks_that_there_are() -> None:
    """A condition that is said only of parts with some check names one, and is a word too common to stand alone."""
    checks = load("wheel-loader").checks
    narrowed = [
        c for table in shared_tables("conditions.toml", Conditions) for c in table.condition if c.checks
    ]
    assert narrowed
    assert not [name for c in narrowed for name in c.checks if name not in checks]
    assert not [c.name for c in narrowed if c.alone]


def test_units_are_known() -> None:
    """Every unit of a measure is one that pint knows."""
    units: pint.UnitRegistry[Any] = pint.UnitRegistry()
    measures = [m for kind in KINDS for part in load(kind).parts for m in part.measures]
    measures += [m for part in load(KINDS[0]).shared.values() for m in part.measures]

    assert [] == [m.unit for m in measures if not units.Unit(m.unit)]  # raises where it is unknown


def limits() -> list[tuple[str, str, str, float]]:
    """All limits as (part, attribute, which, value)."""
    found = set()
    for kind in KINDS:
        for part in load(kind).parts:
            for m in part.measures:
                found |= {(part.like or part.name, m.attribute, "least", m.at_least)} if m.at_least else set()
                found |= {(part.like or part.name, m.attribute, "most", m.at_most)} if m.at_most else set()
    return sorted(found)


def test_limits_are_these() -> None:
    """Every limit there is, against its source; all others are left to the maker's manual.

    Sources as in public-lists.json of the outside data: 49 CFR 393.75(b)-(c) (tread), 393.47(d) (linings),
    ISO 5057:1993 and ANSI/ITSDF B56.1 6.2.8 (forks), makers' manuals (chains), WAC 296-307-52047(8) (water
    muffler), 49 CFR Part 396 App. A 1.f and 1.j (low air, brake fluid, from memory), 49 CFR 570.10(b) (rims).
    """
    assert [
        ("brake fluid", "level", "least", 25.0),
        ("brake lining", "thickness", "least", 4.8),
        ("brake lining", "thickness", "least", 6.4),
        ("fork", "angle", "most", 3.0),
        ("fork", "straightness", "most", 0.5),
        ("fork", "thickness left", "least", 90.0),
        ("fork", "tip difference", "most", 3.0),
        ("load chain", "elongation", "most", 3.0),
        ("low air warning", "pressure", "least", 55.0),
        ("rim", "runout", "most", 0.125),
        ("tyre", "depth", "least", 1.6),
        ("tyre", "depth", "least", 3.2),
        ("water muffler", "level", "least", 75.0),
    ] == [limit for limit in limits() if limit[0] != "boom chain"]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_first_lines_explain(path: Path) -> None:
    """Every file begins by saying what it is and how to write in it."""
    head = path.read_text(encoding="utf-8").split("\n\n")[0].splitlines()

    assert all(line.startswith("#") for line in head)
    assert "Any text editor will do." in head[0]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_no_names_of_hosts_or_paths(path: Path) -> None:
    """No web address and no path of somebody's machine stands in a vocabulary file."""
    assert not re.search(r"https?:|www\.|/home/|/work/|/tmp/", path.read_text(encoding="utf-8"))
