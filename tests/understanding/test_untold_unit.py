"""What a number is whose unit was left out: by the part, the words around it, and what was told before."""

from collections.abc import Callable

import pytest

from saycheck.understanding import untold_unit
from saycheck.understanding.linear import Linear
from saycheck.understanding.pipeline import prepared, understand
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.untold_unit import NONE, UNITS, in_unit, name_of

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
    assert (value, told) == (pytest.approx(made.value), made.unit)


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


def test_what_was_told_before_counts() -> None:
    """The same bare number is a depth where depths were told, and a pressure where pressures were."""
    deep = amounts("Left front tyre has thirty mil of tread. Right front tyre, twenty-eight.")
    hard = amounts("Left front tyre has thirty psi in it. Right front tyre, twenty-eight.")
    assert [["mm", "mm"], ["psi", "psi"]] == [[unit for _, unit in some] for some in (deep, hard)]


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


def test_there_is_something_to_learn_from() -> None:
    """Every bare number of a part leaves its features and what the rules say."""
    reading, _ = prepared("Left rear tyre, twenty-six. Two of the edge bolts are loose.", KIND)
    seen = [(number.value.value, ruled) for number, _, ruled in reading.data["bare numbers"]]
    assert [(26, "psi"), (2, "count")] == seen
    features = [names for _, names, _ in reading.data["bare numbers"]]

    assert {"rule=psi", "before0=,", "part=rear tyre"} <= set(features[0])
