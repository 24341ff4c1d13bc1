"""Numbers that tell how much it may be or should be."""

import pytest

from saycheck.understanding.pipeline import prepared, understand
from saycheck.understanding.told_limits import Kind


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("Three mil, limit's two.", "limit", 2),
        ("Three mil, the limit on these is two.", "limit", 2),
        ("Three mil. Two's the limit.", "limit", 2),
        ("Three mil, they gave two as the limit.", "limit", 2),
        ("Edge is at eighteen mil, scrap at twelve.", "limit", 12),
        ("Three mil, max is two.", "most", 2),
        ("Three mil, two is maximum.", "most", 2),
        ("Three mil. Book says two at most.", "due", 2),
        ("Five mil remaining, minimum three.", "least", 3),
        ("Forty psi, it should be fifty.", "due", 50),
        ("Forty psi, it ought to be around fifty.", "due", 50),
        ("Forty psi and the plate says fifty.", "due", 50),
        ("Forty psi, sticker wants fifty.", "due", 50),
        ("Eighteen mil, new is thirty-two.", "new", 32),
        ("Eighteen mil, and they start at thirty-two.", "new", 32),
        ("Eighteen mil, it was thirty-two when new.", "new", 32),
        ("Eighteen mil left of the thirty-two.", "new", 32),
        ("Eighteen mil, and they come at thirty-two.", "new", 32),
        ("Sixty mil of sag, and I like forty.", "due", 40),
        ("Sixty mil of sag, it wants forty.", "due", 40),
        ("Eighteen mil, spec is twenty.", "due", 20),
        ("Eighteen mil, we'd turn it at ten.", "limit", 10),
    ],
)
def test_what_a_number_is_told_for(text: str, kind: Kind, value: float) -> None:
    """The words ahead of it or behind it make it a limit, what it should be, or what a new one has."""
    reading, _ = prepared(f"Bucket pin. {text}", "wheel-loader")
    assert [(kind, value)] == [(m.value.kind, m.value.much.value) for m in reading.of("told")]


@pytest.mark.parametrize(
    "text",
    [
        "Oil is three millimetres under max.",
        "Pin has four mil of play.",
        "Tyre should be changed, two mil left.",
        "Says here the hours are four thousand.",
        "Sag is fifty, near the limit.",
    ],
)
def test_measurements_stay_measurements(text: str) -> None:
    """A number that no such word stands next to is none."""
    reading, _ = prepared(text, "wheel-loader")
    assert not reading.of("told")
    assert len(reading.of("quantity")) == 1


@pytest.mark.parametrize(
    ("text", "held"),
    [
        ("Bucket pin has 2.6 mm of play, the limit is 2.", "writeup"),
        ("Bucket pin has 1.2 mm of play, the limit is 2.", "watch"),
        ("Bucket pin has 0.4 mm of play, the limit is 2.", "good"),
        ("Bucket pin has 1.2 mm of play. Max is 1.", "writeup"),
        ("Cutting edge is 18 mm, the limit is 12.", "good"),
        ("Cutting edge is 14 mm, the limit is 12.", "watch"),
        ("Cutting edge is 11 mm, the limit is 12.", "writeup"),
        ("Left front tyre 48 psi, should be 50.", "good"),
        ("Left front tyre 44 psi, should be 50.", "watch"),
        ("Left front tyre 30 psi, the sticker says 50.", "writeup"),
        ("Left front tyre 60 psi, the sticker says 50.", "writeup"),
        ("Fan belt gives 12 mm, should be ten to fifteen.", "good"),
        ("Cutting edge is 18 mm, new is 32.", None),  # says nothing of when it is worn out
        ("Bucket pin has 2.6 mm of play, the limit is 2 psi.", None),  # not of one kind
    ],
)
def test_held_against_it(text: str, held: str | None) -> None:
    """The more play the worse, the less edge the worse; what it should be may be missed either way."""
    _, statements = prepared(text, "wheel-loader")
    assert [held] == [s.held for s in statements if s.quantities]


@pytest.mark.parametrize(
    ("text", "state", "value"),
    [
        ("Lower hinge pin two point six mil, and the limit's two point zero.", "writeup", 2.6),
        ("Left front tyre, fifty-four psi, sticker says sixty-five.", "writeup", 54),
        ("Left front tyre three and a half bar. It should be five and a half.", "writeup", 3.5),
        ("Left front tyre, forty-nine psi, book says fifty.", "good", 49),
    ],
)
def test_one_finding_with_its_own_number(text: str, state: str, value: float) -> None:
    """What was told is no measurement of the part, and the paper it stands on is no part."""
    (finding,) = understand(text, "wheel-loader").findings
    assert (state, [value]) == (finding.state, [m.value for m in finding.measurements])
