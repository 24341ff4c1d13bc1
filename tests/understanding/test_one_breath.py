"""What is said of one part in one breath is one finding; anything else stays two."""

import pytest

from saycheck.models.walk import Evidence, Finding, Measurement, State
from saycheck.understanding.one_breath import in_one_breath
from saycheck.understanding.pipeline import understand

TEXT = "Belt is good, no cracks at all. Belt is fine"


def finding(start: int, end: int, state: State = "good", **more: object) -> Finding:
    """A finding on characters of the text."""
    given = {
        "id": "f1", "zone": "engine bay", "part": "fan belt", "side": "none", "check": "good", "state": state,
        "condition": "good", "heard_as": "belt", "confidence": 0.8,
        "evidence": [Evidence(char_start=start, char_end=end)],
    }  # fmt: skip
    return Finding.model_validate(given | more)


GOOD = finding(0, 12)
DENIED = finding(14, 23, check="crack", condition="crack", denied=True)


def test_one_of_two() -> None:
    """The stretch of both, the trouble that is named as absent, what was measured of both."""
    length = Measurement(value=5, unit="mm", text="five mil", value_si=0.005, unit_si="m", plus_minus=0.5)
    [one] = in_one_breath(TEXT, [GOOD, DENIED.model_copy(update={"measurements": [length]})])
    assert (0, 23) == (one.evidence[0].char_start, one.evidence[0].char_end)
    assert ("good", "crack", True, [length]) == (one.state, one.condition, one.denied, one.measurements)


def test_trouble_outweighs_what_is_not_there() -> None:
    """ "Worn, no cracks" is worn."""
    [one] = in_one_breath(
        TEXT, [finding(0, 12, "watch", condition="worn", check="worn", confidence=0.5), DENIED]
    )
    assert ("watch", "worn", False) == (one.state, one.condition, one.denied)


@pytest.mark.parametrize(
    "other",
    [
        {"part": "alternator belt"},
        {"side": "left"},
        {"state": "writeup"},
        {"heard_as": "rib"},
        {"evidence": [Evidence(char_start=32, char_end=44)]},  # another sentence
    ],
    ids=str,
)
def test_two_stay_two(other: dict[str, object]) -> None:
    """Another part, side, name or sentence, or good and bad side by side, are two findings."""
    changed = Finding.model_validate(DENIED.model_dump() | other)
    assert 2 == len(in_one_breath(TEXT, [GOOD, changed]))


def test_the_number_to_it() -> None:
    """What is measured of the part goes into what was just said of it, whatever it was called there."""
    play = Measurement(value=5, unit="mm", text="five mil", value_si=0.005, unit_si="m", plus_minus=0.5)
    number = finding(14, 23, heard_as="rib").model_copy(update={"measurements": [play]})
    [one] = in_one_breath(TEXT, [GOOD, number])
    assert ([play], 23) == (one.measurements, one.evidence[0].char_end)


def test_two_numbers_of_one_unit_stay_two() -> None:
    """ "Thirty six psi, forty psi" are two tyres."""
    psi = Measurement(value=36, unit="psi", text="36 psi", value_si=248211, unit_si="Pa", plus_minus=0.5)
    both = [f.model_copy(update={"measurements": [psi]}) for f in (GOOD, DENIED)]
    assert 2 == len(in_one_breath(TEXT, both))


def test_in_a_walk() -> None:
    """Good, with a trouble named as absent: one finding that names it."""
    found = understand("Steering ball joint, good, no play in it.", "wheel-loader").findings
    assert [("steering ball joint", "good", "play", True)] == [
        (f.part, f.state, f.condition, f.denied) for f in found
    ]


@pytest.mark.parametrize(
    ("first", "second", "expected"),
    [
        (("good", 0.9), ("writeup", 0.5), "writeup"),
        (("watch", 0.6), ("good", 0.8), "good"),
        (("watch", 0.8), ("good", 0.6), "watch"),
    ],
)
def test_more_said_before_the_breath_is_out(
    first: tuple[State, float], second: tuple[State, float], expected: State
) -> None:
    """What begins with the same words and goes on to another state is one finding."""
    one = finding(0, 12, first[0], confidence=first[1])
    [made] = in_one_breath(TEXT, [one, finding(0, 23, second[0], confidence=second[1])])
    assert (expected, 23) == (made.state, made.evidence[0].char_end)


def test_one_of_several_stays_apart() -> None:
    """ "Four good, one missing" is said of two."""
    text = "Teeth four good, one missing"
    assert 2 == len(in_one_breath(text, [finding(0, 15), finding(0, 28, "writeup")]))
