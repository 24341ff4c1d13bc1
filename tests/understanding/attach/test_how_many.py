"""How many of a thing a condition is said of."""

from collections.abc import Callable

import pytest

from saycheck.understanding.statements import Statement

Statements = Callable[..., list[Statement]]


@pytest.fixture(autouse=True)
def by_rules(monkeypatch: pytest.MonkeyPatch) -> None:
    """The rules by themselves, without what was learned of numbers."""
    monkeypatch.setattr("saycheck.understanding.untold_unit.trained", lambda _: None)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Wheel nuts, four of the ten are loose.", 4),
        ("Two of the six bolts on the frame are missing.", 2),
        ("Three of the wheel nuts on the left front are loose.", 3),
        ("The step is loose, one bolt out of four gone.", 1),
        ("Lift cylinder seals: four seals, one weeping.", 1),  # the one, not the whole
        ("Bucket has lost two teeth.", 2),
        ("Steps missing a bolt.", 1),
        ("Steps missing twenty one bolts.", 21),
        ("The ladder is short two bolts.", 2),
        ("The handbrake cable has four strands gone.", 4),
        ("Wheel nut missing, one of eight.", 1),
        ("Bucket teeth lost a bit.", None),
        ("Fan belt lost an inch.", None),
        ("Teeth, five, one gone.", 1),
        ("Wheel nuts on front left one stud's broken.", 1),  # the place stands before what counts
        ("The left one stud's broken.", None),
        ("Fuel cap is cracked, it's the wrong one.", None),
        ("Exhaust is off, hanging on one bolt.", 1),
        ("Wheel nuts, nine tight, two loose.", 2),  # what is wrong counts before what is right
        ("Fan belt is a bit loose.", None),
        ("Tyre at 2 bar is soft.", None),  # what is measured is not counted
        ("Pad is one nine, worn.", None),  # said digit by digit
        ("Hoses are 20 years old and cracked.", None),
        ("The left one of the mirrors is cracked.", None),
        ("No teeth missing.", None),
        ("Steps are hanging by one bolt.", 1),
        ("Batteries are bad at 12.5.", None),  # the five behind a point
    ],
)
def test_how_many(statements: Statements, text: str, expected: int | None) -> None:
    """The number nearest to what is wrong, of "four of the ten" the four."""
    made = statements(text)
    assert made
    assert expected == made[-1].count[0] if made[-1].count else expected is None
