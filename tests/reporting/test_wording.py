"""Values in plain words."""

import pytest

from saycheck.models.walk import Finding, Measurement
from saycheck.reporting.wording import clock, length, listed, measured, number, plain, said_of, with_side


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [(0, "0:00"), (59.9, "0:59"), (134.2, "2:14"), (3599, "59:59"), (3725, "1:02:05")],
)
def test_a_place_in_the_sound_reads_like_a_clock(seconds: float, shown: str) -> None:
    """Minutes and seconds, hours only where there are any."""
    assert shown == clock(seconds)


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [
        (0, "0 s"),
        (41.4, "41 s"),
        (59.6, "1 min"),
        (724, "12 min 4 s"),
        (3600, "1 h"),
        (3720, "1 h 2 min"),
        (3659, "1 h"),
    ],
)
def test_a_length_is_told_in_units(seconds: float, shown: str) -> None:
    """The two largest units, rounded to seconds below an hour."""
    assert shown == length(seconds)


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (4812.0, "4,812"),
        (4812.5, "4,812.5"),
        (0.25, "0.25"),
        (-35.0, "-35"),
        (1 / 3, "0.3333"),
        (0.1 + 0.2, "0.3"),
    ],
)
def test_a_number_is_written_as_by_hand(value: float, shown: str) -> None:
    """No trailing noughts, thousands apart."""
    assert shown == number(value)


@pytest.mark.parametrize(
    ("given", "shown"),
    [
        ({"value": 17, "unit": "mm"}, "17 mm"),
        ({"value": 17, "unit": "mm", "plus_minus": 0.5}, "17 mm ± 0.5"),
        ({"value": 14, "unit": "mm", "other_units": ["thou"]}, "14 mm or thou"),
        ({"value": 2, "unit": "count"}, "2"),
        ({"value": 25, "unit": "psi", "judged": "beyond"}, "25 psi (beyond)"),
    ],
)
def test_a_measurement_says_what_is_open_in_it(given: dict[str, object], shown: str) -> None:
    """Unit, uncertainty, other readings and judgement stand beside the number."""
    one = Measurement.model_validate({"text": "", "value_si": 0, "unit_si": "m"} | given)
    assert shown == measured(one)


@pytest.mark.parametrize(
    ("denied", "measurements", "shown"),
    [(False, [], "crack"), (True, [], "no crack"), (False, [(17, "mm"), (2, "count")], "crack, 17 mm, 2")],
)
def test_a_finding_says_condition_and_numbers(
    denied: bool, measurements: list[tuple[float, str]], shown: str
) -> None:
    """A denied defect is never shown as a defect."""
    finding = Finding(
        id="f001", zone="front", part="bucket", side="none", check="cracked", state="good", condition="crack",
        denied=denied, heard_as="crack", confidence=0.9, evidence=[],
        measurements=[
            Measurement(value=value, unit=unit, text="", value_si=0, unit_si="m") for value, unit in measurements
        ],
    )  # fmt: skip
    assert shown == said_of(finding)


@pytest.mark.parametrize(
    ("part", "side", "shown"),
    [
        ("mirror", "left", "left mirror"),
        ("mirror", "both", "mirror, both sides"),
        ("bucket", "none", "bucket"),
        ("left mirror", "left", "left mirror"),
    ],
)
def test_a_part_is_named_with_its_side(part: str, side: str, shown: str) -> None:
    """The side stands once."""
    assert shown == with_side(part, side)  # type: ignore[arg-type]  # rows give plain strings


@pytest.mark.parametrize(
    ("names", "shown"), [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")]
)
def test_names_are_listed_in_a_row(names: list[str], shown: str) -> None:
    """The last name is joined with "and"."""
    assert shown == listed(names)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("a  b\nc", "a b c"),
        ("\x1b[31mred\x07", "[31mred"),
        ("\u202eevil", "evil"),
        ("Öl – 5 °C", "Öl – 5 °C"),
    ],
)
def test_text_is_made_plain(text: str, shown: str) -> None:
    """Nothing in a narration or a name can move the cursor or turn the writing round."""
    assert shown == plain(text)
