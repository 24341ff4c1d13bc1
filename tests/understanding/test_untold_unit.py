"""What a number is whose unit was left out: by the part, the words around it, and what was told before."""

from collections.abc import Callable

import pytest

from saycheck.understanding import encoder, untold_unit
from saycheck.understanding.linear import Linear
from saycheck.understanding.pipeline import prepared, understand
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.untold_unit import NONE, UNITS, Heard, alike, can_be, in_unit, name_of

KIND = "wheel-loader"
Amounts = list[tuple[float, str]]


def amounts(text: str) -> Amounts:
    """(value, unit) of every measurement, in the order of the text."""
    return [(m.value, m.unit) for f in understand(text, KIND).findings for m in f.measurements]


@pytest.mark.parametrize(
    ("said", "unit", "value", "told"),
    [
        (26, "tenths of a bar", 2.6, "bar"),
        (24, "thirty-seconds", 0.75, "in"),
        (0.5, "of a whole", 50, "percent"),
        (26, "mm", 26, "mm"),
        (26, NONE, 26, None),
    ],
)
def test_a_number_in_its_unit(said: float, unit: str, value: float, told: str | None) -> None:
    """Parts of a unit that are only counted are turned into the unit."""
    made = in_unit(Quantity(said, None, 0.5), unit)
    assert value == pytest.approx(made.value)
    assert told == made.unit


@pytest.mark.parametrize("unit", UNITS)
def test_what_the_rules_read_has_the_name_of_it(unit: str) -> None:
    """The way from a unit to a quantity and back is exact."""
    bare = Quantity(13, None, 0.5)
    assert unit == name_of(in_unit(bare, unit), bare)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Left rear tyre, twenty-six on the depth gauge.", [(26, "mm")]),
        ("Front tyres, forty-eight psi on the left and forty-six on the right.", [(48, "psi"), (46, "psi")]),
        ("Battery's showing twelve point six.", [(12.6, "V")]),
        ("Two of the edge bolts are loose.", [(2, "count")]),
    ],
)
def test_bare_numbers(text: str, expected: Amounts) -> None:
    """A bare number is what the words and the part make of it."""
    assert expected == amounts(text)


def test_what_was_told_before_is_seen() -> None:
    """Of parts alike the last quantity and the nearest, and how many steps of half a doubling lie between."""
    told = [Quantity(30, "mm", 0.5), Quantity(60, "psi", 0.5)]
    assert ["first"] == alike("", 28, [])
    seen = set(alike("said ", 28, told))
    assert {"said had=mm", "said had=psi", "said last=psi/-2", "said near=mm/0"} <= seen


def test_only_what_was_said_counts_as_said() -> None:
    """A unit that was guessed is remembered, but not as said."""
    heard = Heard()
    heard.add("tyre", Quantity(30, "mm", 0.5), said=True)
    heard.add("tyre", Quantity(28, "psi", 0.5), said=False)
    assert [["mm", "psi"], ["mm"]] == [[q.unit for q in some["tyre"]] for some in (heard.told, heard.said)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Left track sag is eleven centimetres. Right track sag, twelve.", [(11, "cm"), (12, "cm")]),
        ("Left front tyre has thirty psi in it. Right front tyre, twenty-eight.", [(30, "psi"), (28, "psi")]),
        ("Left front tyre, thirty mil. Right front tyre, twenty-eight.", [(30, "mm"), (28, "mm")]),
    ],
)
def test_the_unit_of_the_one_before(text: str, expected: Amounts) -> None:
    """Another one of its kind is told in the same unit, also in one that nothing was learned of."""
    assert expected == amounts(text)


@pytest.mark.parametrize(
    ("value", "unit", "possible"),
    [
        (3000, "mm", False),
        (26, "mm", True),
        (0.5, "count", False),
        (0, "count", False),
        (4, "count", True),
        (12.6, "tenths of a bar", False),
        (26, "tenths of a bar", True),
        (3000, NONE, True),
    ],
)
def test_no_more_than_there_can_be(value: float, unit: str, possible: bool) -> None:
    """Nothing on a machine is three metres worn, and nothing is half counted."""
    assert possible is can_be(Quantity(value, None, 0.5), unit)


def saying(unit: str) -> Callable[[str], Linear]:
    """A model that says the same of every number."""
    return lambda _: Linear(list(UNITS), [float(9 * (one == unit)) for one in UNITS], {})


def test_what_was_learned_has_the_last_word(monkeypatch: pytest.MonkeyPatch) -> None:
    """The rules are overruled, both ways."""
    text = "Left rear tyre, twenty-six."
    for unit, expected in (("percent", [(26, "percent")]), ("tenths of a bar", [(2.6, "bar")]), (NONE, [])):
        monkeypatch.setattr(untold_unit, "trained", saying(unit))
        assert expected == amounts(text)


def test_without_weights_the_rules_decide(monkeypatch: pytest.MonkeyPatch) -> None:
    """Who has not trained gets what the rules say."""
    monkeypatch.setattr(untold_unit, "trained", lambda _: None)
    assert [(26, "psi")] == amounts("Left rear tyre, twenty-six.")


def test_the_encoder_knows_the_same_units() -> None:
    """A network taught of other units would answer for the wrong ones."""
    shipped = encoder.shipped()
    assert shipped is not None
    if "unit" in shipped.heads:
        assert len(UNITS) == shipped.heads["unit"].shape[1]


def test_there_is_something_to_learn_from() -> None:
    """Every bare number of a part leaves its features and what the rules say."""
    reading, _ = prepared("Left rear tyre, twenty-six. Two of the edge bolts are loose.", KIND)
    seen = [(number.value.value, ruled) for number, _, ruled in reading.data["bare numbers"]]
    assert [(26, "psi"), (2, "count")] == seen
    features = [names for _, names, _ in reading.data["bare numbers"]]

    assert {"rule=psi", "before0=,", "part=rear tyre"} <= set(features[0])
