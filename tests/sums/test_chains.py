"""Chain elongation."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.chains import DISCARD_PERCENT, WATCH_PERCENT, chain_wear
from saycheck.sums.reading import Reading

from .conftest import Rows


def test_limits(list_rows: Rows) -> None:
    """Source: lift-chain in ../shared/outside/public-lists.json, suppliers' and makers' manuals."""
    rows = list_rows("lift-chain")
    limits = {item["n"]: item["value"] for item in rows if item["n"] in ("watch", "discard")}
    assert {"watch": WATCH_PERCENT, "discard": DISCARD_PERCENT} == limits
    (example,) = [item["value"] for item in rows if (item["unit"] or "").startswith("in ")]
    grown = chain_wear(example * 25.4, 12.0 * 25.4)  # a telehandler maker's own example
    assert 3 == pytest.approx(grown.elongation_percent.value)


@pytest.mark.parametrize(
    ("length", "wide", "verdict", "watch"),
    [
        (1200, 0, "within", False),
        (1223, 0, "within", False),
        (1224, 0, "within", True),
        (1226, 1, "within", True),
        (1236, 0, "within", True),
        (1235, 2, "too close to call", True),
        (1240, 1, "beyond", True),
    ],
)
def test_verdict(length: float, wide: float, verdict: str, watch: bool) -> None:
    """A lift chain of 1,200 mm new."""
    worn = chain_wear(Reading(length, wide), 1200)
    assert (verdict, watch) == (worn.check.verdict, worn.watch)


def test_the_makers_own_limit() -> None:
    """A maker who says 2 % is followed, and watched no later than that."""
    strict = chain_wear(1230, 1200, limit_percent=2, source="maker's manual")
    assert ("beyond", 2) == (strict.check.verdict, strict.watch_percent)


def test_plainly() -> None:
    """The sentence names growth, lengths, limit and what to do."""
    assert (
        "The chain has grown 2.2 % (2.1 to 2.2) (1,226 ± 1 mm for 1,200 mm new), against a limit of 3 %: within the "
        "limit, but a competent person should now set the day of replacement."
        == chain_wear(Reading(1226, 1), 1200).plainly
    )
    assert chain_wear(1240, 1200).plainly.endswith(
        "beyond the limit: replace the chains before the next lift."
    )


@given(st.floats(1200, 1300), st.floats(1200, 1300))
def test_longer_is_worse(one: float, other: float) -> None:
    """Elongation rises with length."""
    short, long = sorted((one, other))
    assert chain_wear(short, 1200).elongation_percent.value <= chain_wear(long, 1200).elongation_percent.value


@pytest.mark.parametrize(
    ("length", "sentence"),
    [
        (1190, "a chain of 1,190 mm is shorter than its 1,200 mm when new; count the links again"),
        (
            1400,
            "a chain length of 1400 mm is outside 0 to 1320 mm, where this sum holds; count the links again",
        ),
    ],
)
def test_refused(length: float, sentence: str) -> None:
    """A miscount is not elongation."""
    with pytest.raises(SumError) as told:
        chain_wear(length, 1200)
    assert sentence == str(told.value)
