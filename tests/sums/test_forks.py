"""Fork arms against ISO 5057."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.forks import (
    ANGLE_LIMIT_DEG,
    TIPS_LIMIT_PERCENT,
    WEAR_LIMIT_PERCENT,
    fork_angle,
    fork_tips,
    fork_wear,
)
from saycheck.sums.reading import Reading

from .conftest import Rows


def test_limits(list_rows: Rows) -> None:
    """Source: ISO 5057:1993 and ANSI/ITSDF B56.1, 6.2.8, as restated in ../shared/outside/public-lists.json."""
    iso = {item["n"]: item["value"] for item in list_rows("iso-5057")}
    american = {item["item"]: item["value"] for item in list_rows("b56-1")}
    assert 100 - iso["wear"] == WEAR_LIMIT_PERCENT == american["Fork blade wear: remove from service"]
    assert iso["tips"] == TIPS_LIMIT_PERCENT == american["Tip alignment difference"]
    assert iso["angle"] == ANGLE_LIMIT_DEG == american["Fork angle deviation"]


@pytest.mark.parametrize(
    ("now", "wide", "verdict"),
    [
        (40, 0, "within"),
        (36.0, 0, "within"),  # nine tenths are left: withdrawn below that, not at it
        (35.9, 0, "beyond"),
        (36.2, 0.5, "too close to call"),
        (35.0, 0.5, "beyond"),
        (40.3, 0.5, "within"),  # new, and measured a little thick
    ],
)
def test_wear(now: float, wide: float, verdict: str) -> None:
    """A fork of 40 mm new."""
    assert verdict == fork_wear(Reading(now, wide), 40).check.verdict


def test_strength_left() -> None:
    """Source: section modulus of a rectangle, b·t²/6: a tenth thinner leaves 81 %."""
    modulus = [100 * thickness**2 / 6 for thickness in (36, 40)]
    assert modulus[0] / modulus[1] == pytest.approx(fork_wear(36, 40).strength_left)
    assert 0.81 == pytest.approx(fork_wear(36, 40).strength_left)


@given(st.floats(20, 39), st.floats(0, 0.9), st.floats(0, 0.9), st.floats(0, 1), st.floats(0, 1))
def test_the_truth_is_inside(
    now: float, wide: float, wide_new: float, where: float, where_new: float
) -> None:
    """Whatever both thicknesses truly are, the wear lies between the ends."""
    span = fork_wear(Reading(now, wide), Reading(40, wide_new)).wear_percent
    true_now, true_new = now + wide * (2 * where - 1), 40 + wide_new * (2 * where_new - 1)
    assert span.low - 1e-9 <= 100 * (1 - true_now / true_new) <= span.high + 1e-9


def test_tips_and_angle() -> None:
    """Tips of a 1,200 mm blade may differ by 36 mm, the angle by 3°."""
    assert "within" == fork_tips(36, 1200).check.verdict
    assert "beyond" == fork_tips(Reading(40, 1), 1200).check.verdict
    assert "too close to call" == fork_tips(Reading(36, 2), 1200).check.verdict
    assert ("within", "beyond") == (fork_angle(3).verdict, fork_angle(3.5).verdict)


def test_plainly() -> None:
    """The sentence names wear, what is left, limit and source, and what to do."""
    assert (
        "The fork is worn 11 % (11 to 12) (35.5 ± 0.2 mm of 40 mm new, about 79 % of its bending strength left), "
        "against a limit of 10 % (ISO 5057:1993): beyond the limit: take the pair out of use."
        == fork_wear(Reading(35.5, 0.2), 40).plainly
    )
    assert (
        "The tips differ by 40 ± 1 mm, 3.3 % (3.2 to 3.4) of the 1,200 mm blade, against a limit of 3 % "
        "(ISO 5057:1993): beyond the limit: take the pair out of use."
        == fork_tips(Reading(40, 1), 1200).plainly
    )


def test_refused() -> None:
    """A fork that grew was measured at another place."""
    with pytest.raises(SumError) as told:
        fork_wear(42, 40)
    assert (
        "a fork of 42 mm cannot have been 40 mm when new; measure both at the same place, the shank above the heel "
        "for the new thickness" == str(told.value)
    )
