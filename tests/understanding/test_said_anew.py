"""Numbers that are said anew without their unit."""

import pytest

from saycheck.understanding.pipeline import prepared


def assert_in_one_unit(text: str, expected: list[float]) -> None:
    """The numbers of a text are these, all in the same unit."""
    reading, _ = prepared(text, "wheel-loader")
    numbers = [m.value for m in reading.of("quantity")]
    assert expected == [n.value for n in numbers]
    assert 1 == len({n.unit for n in numbers})


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Bucket pin moves three mil, no, I had the bar crooked, it's five.", [3, 5]),
        ("Bucket pin moves three mil. Hold on, wrong side of the rule. Five.", [3, 5]),
        ("Front tyre is thirty psi, the gauge slipped, it's forty two.", [30, 42]),
        ("Front tyre is thirty psi, yes, thirty.", [30, 30]),  # said once more
        ("Bucket pin moves three mil, no, not three, it's five.", [3, 3, 5]),
    ],
)
def test_number_in_the_unit_before(text: str, expected: list[float]) -> None:
    """The number that puts right, or says once more, has the unit of the one before it."""
    assert_in_one_unit(text, expected)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Wear pads, left one is three mil, right one is five.", [3, 5]),
        ("Kingpins, nearside, point two of a mil. Offside, point six.", [0.2, 0.6]),
        ("Wear pads, three mil on the left, and there's five on the right.", [3, 5]),
        ("Tyres are at sixty percent and fifty five.", [60, 55]),  # a list
    ],
)
def test_the_next_one_alike(text: str, expected: list[float]) -> None:
    """What is measured of one is measured of the next one in the same unit."""
    assert_in_one_unit(text, expected)


@pytest.mark.parametrize(
    "text",
    [
        "Cutting edge, twelve mil, no cracks. Teeth, eight.",  # of another part
        "Bucket pin moves three mil, no, two bolts are loose.",  # counts
        "Left pad is three mil, right two bolts are loose.",  # counts
        "Bucket pin moves three mil, no, make that two tooth pins gone.",  # counts what is named behind it
        "Bucket pin moves three mil. Idler is good, ten.",  # nothing is put right
        "Front tyre is forty psi, sorry, axle four hundred and five.",  # far from it
    ],
)
def test_number_of_its_own(text: str) -> None:
    """Any other bare number stays bare."""
    reading, _ = prepared(text, "wheel-loader")
    assert reading.of("quantity")[-1].value.unit is None


@pytest.mark.parametrize(
    "text",
    [
        "Bucket pin has three mil, no, I had the bar crooked, it's five.",
        "Bucket pin has three mil. No, I had the bar on the wrong end of it the first time I pushed. It's five.",
    ],
)
def test_only_the_right_number_stands(text: str) -> None:
    """The number that was put right is not entered."""
    _, statements = prepared(text, "wheel-loader")
    assert [5] == [q.value for s in statements for q, _ in s.quantities]


def test_part_named_where_it_went_wrong() -> None:
    """A part that is named to tell where the tape was is not what was measured."""
    text = "Track sag is sixty mil, hang on, the tape was on the wrong shoe, fifty."
    _, statements = prepared(text, "crawler-excavator")
    assert [("track tensioner", [50])] == [
        (s.subject.part.name, [q.value for q, _ in s.quantities]) for s in statements
    ]
