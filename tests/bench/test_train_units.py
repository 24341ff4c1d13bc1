"""What a bare number is taken to be by the labels that it stands in."""

from typing import Any

import pytest

from train_units import figures, rows, truth

Measures = list[dict[str, Any]]


@pytest.mark.parametrize(
    ("value", "measures", "expected"),
    [
        (26, [{"value": 26, "unit": "mm"}], "mm"),
        (26, [{"value": 2.6, "unit": "bar"}], "tenths of a bar"),
        (24, [{"value": 0.75, "unit": "in"}], "thirty-seconds"),
        (0.5, [{"value": 50, "unit": "%"}], "of a whole"),
        (2, [{"value": 2, "unit": "count"}, {"value": 9, "unit": "mm"}], "count"),
        (8, [], "none"),
        (8, [{"value": 12, "unit": "mm"}], "none"),
        (800, [{"value": 800, "unit": "rpm"}], "none"),  # a unit that is never left to be learned
    ],
)
def test_truth(value: float, measures: Measures, expected: str) -> None:
    """The measure of a label that is as much, in its unit or in parts of one."""
    assert expected == truth(value, [{"measures": measures}])


def test_rows_are_of_numbers_within_labels() -> None:
    """A number outside every label teaches nothing."""
    label = {
        "machine": "wheel-loader",
        "text": "Left rear tyre, twenty-six on the depth gauge. The other one over there had twenty-eight.",
        "gold": [
            {"quote": "twenty-six on the depth gauge", "measures": [{"value": 26, "unit": "mm"}]},
        ],
    }
    assert [(26, "mm", "psi")] == [(number.value, meant, ruled) for number, _, meant, ruled in rows(label)]


def test_figures() -> None:
    """Right of all, of what is measured, and of what is entered."""
    told = [("mm", "mm"), ("mm", "none"), ("none", "psi"), ("none", "none")]
    assert figures(told) == "right 0.500, found 0.500, of those entered right 0.500"
