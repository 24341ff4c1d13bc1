"""Units that were left unsaid: given only where the part leaves no doubt."""

from dataclasses import replace

import pytest

from saycheck.understanding.quantities import Quantity
from saycheck.understanding.resolve import Resolved
from saycheck.understanding.statements import Statement, Subject
from saycheck.understanding.text import Mention, Reading
from saycheck.understanding.unspoken import Unspoken


def said(
    part: str, value: float, unit: str | None = None, form: str = "words", kind: str | None = None
) -> Statement:
    """A statement that gives a part one number."""
    made = Statement(Subject(Resolved(part, None, "front"), None, 0, 1), 0, 0, 1)
    made.quantities = [(Quantity(value, unit, 0.5, kind, form=form), Mention("quantity", 1, 2))]
    return made


@pytest.fixture(autouse=True)
def by_rules(monkeypatch: pytest.MonkeyPatch) -> None:
    """The rules by themselves."""
    monkeypatch.setattr("saycheck.understanding.untold_unit.trained", lambda _: None)


def units(*statements: Statement) -> list[str | None]:
    """The units after all were given, None for a number that was dropped."""
    unspoken = Unspoken()
    for statement in statements:
        unspoken(Reading("", []), statement)
    return [s.quantities[0][0].unit if s.quantities else None for s in statements]


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        (said("front tyre", 48), "psi"),
        (said("front tyre", 3.2), "bar"),
        (said("front tyre", 5), None),  # five of what?
        (said("front tyre tread", 35), "mm"),  # as deep as a tread is, and no pressure
        (said("front tyre lug", 300), None),
        (said("front tyre tread", 14 / 32, form="fraction"), "in"),
        (said("front tyre tread", 0.75, form="fraction"), "percent"),  # of what a new one has
        (said("front tyre", 0.5, form="fraction"), "percent"),  # half the tread is left
        (said("front tyre", 3 / 8, form="fraction"), "in"),
        (said("front tyre", 400), None),
        (said("front tyre", 48, "lb"), "psi"),  # pounds of air are pressure
        (said("seal", 40, "lb"), None),  # pounds of money
        (said("batteries", 12.6), "V"),
        (said("batteries", 12), None),  # twelve of what?
        (said("batteries", 1260), None),
        (said("coolant", -35), "degC"),
        (said("coolant", 35), None),
        (said("cutting edge", 3 / 16, form="fraction"), "in"),
        (said("cutting edge", 18), None),
        (said("cutting edge", 0.5, form="fraction"), "percent"),  # half of it is left
        (said("bucket pin", 0.25, form="fraction"), "in"),
        (said("residual current device", 28, "mA"), "mA"),
        (said("bucket", 48), None),
        (said("cutting edge", 18, "mm"), "mm"),  # what was said stays
    ],
)
def test_unit_by_the_part(given: Statement, expected: str | None) -> None:
    """A number gets the unit in which such a part is always given, or is not entered."""
    assert [expected] == units(given)


@pytest.mark.parametrize(
    ("first", "second", "expected"),
    [
        (said("cutting edge", 18, "mm", kind="length"), said("cutting edge", 16), "mm"),
        (said("cutting edge", 18, "mm", kind="length"), said("cutting edge", 160), None),  # far off
        (said("cutting edge", 18, "mm", kind="length"), said("cutting edge", 2), None),  # a count?
        (said("cutting edge", 18, "mm", kind="length"), said("fan belt", 16), None),  # another part
        (said("front tyre", 3.2, "bar", kind="pressure"), said("front tyre", 3), "bar"),
        (said("front tyre", 18, "mm", kind="length"), said("front tyre", 48), "psi"),  # depth, then air
    ],
)
def test_unit_said_before(first: Statement, second: Statement, expected: str | None) -> None:
    """The unit last said for such a part holds for the next number near it."""
    assert expected == units(first, second)[1]


def test_a_tyre_has_two_numbers() -> None:
    """Tread and pressure of a tyre are both told: a bare number is of the kind that it is like."""
    tread = said("front tyre", 24, "mm", kind="length")
    pressure = said("front tyre", 60, "psi", kind="pressure")
    share = said("rear tyre", 80, "percent", kind="ratio")
    assert ["mm", "psi", "mm", "psi"] == units(tread, pressure, said("rear tyre", 22), said("rear tyre", 62))
    assert ["percent", "percent"] == units(share, said("front tyre", 75))


def test_tyres_told_on_one_scale() -> None:
    """Whoever told one tyre in thirty-seconds goes on in them, and whoever tells all in percent too."""
    depth = said("front tyre", 9 / 32, "in", kind="length", form="fraction")
    depth.quantities = [(replace(q, plus_minus=1 / 64), m) for q, m in depth.quantities]
    next_one = said("rear tyre", 20)
    assert ["in", "in"] == units(depth, next_one)
    assert 20 / 32 == next_one.quantities[0][0].value
    share = said("front tyre", 20, "percent")
    assert ["percent", "percent"] == units(share, said("rear tyre", 80))
    pressure = said("front tyre", 60, "psi", kind="pressure")
    assert ["percent", "psi", "psi"] == units(share, pressure, said("rear tyre", 85))


@pytest.mark.parametrize(("spoken", "expected"), [("track sag", "mm"), ("track", None)])
def test_sag_is_deep(spoken: str, expected: str | None) -> None:
    """Whoever speaks of the sag of a track measures a length, also where no unit was said on the walk."""
    given = said("track", 52)
    given.subject.spoken = spoken
    assert [expected] == units(given)


def test_what_is_measured_counts_nothing() -> None:
    """ "Seven on the right", which turns out to be millimetres, is not seven tyres as well."""
    given = said("front tyre tread", 7)
    given.count = (7, Mention("quantity", 1, 2))
    assert ["mm"] == units(given)
    assert given.count is None


def test_nothing_is_remembered_from_another_walk() -> None:
    """Each walk begins without units."""
    units(said("cutting edge", 18, "mm", kind="length"))
    assert [None] == units(said("cutting edge", 16))


@pytest.mark.parametrize(("step", "expected"), [(1 / 8, "in"), (1 / 16, "in"), (1 / 10, None)])
def test_eighths_are_inches(step: float, expected: str | None) -> None:
    """ "One and five eighths" is told in inches: in nothing else are eighths told."""
    heel = said("fork heel", 1.625)
    heel.quantities = [(replace(q, plus_minus=step / 2), m) for q, m in heel.quantities]
    assert [expected] == units(heel)
