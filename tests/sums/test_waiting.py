"""Now against later."""

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.errors import SumError
from saycheck.sums.reading import Reading
from saycheck.sums.waiting import GUESSED, Job, Waiting, now_or_later


def hose(**more: Any) -> Waiting:
    """A hose: 1,200 now with 4 idle hours, the same in winter with none, 4,000 and 24 hours when it bursts."""
    wanted: dict[str, Any] = {
        "now": Job(1200, 4),
        "later": Job(1200, 0),
        "failed": Job(Reading(4000, 1000), Reading(24, 8)),
        "crew_per_h": Reading(180, 20),
        "machine_per_h": 120.0,
        "chance": Reading(0.15, 0.05),
        "period": "spring",
    }
    return now_or_later(**(wanted | more))


def test_counted_by_hand() -> None:
    """2,400 now; 15 % of 11,200 and 85 % of 1,200 by waiting; even at 1,200 saved of 10,000 at stake."""
    told = hose()
    assert 1200 + 4 * 300 == pytest.approx(told.now.value)
    assert 0.15 * (4000 + 24 * 300) + 0.85 * 1200 == pytest.approx(told.waiting.value)
    assert 1200 / (4000 + 24 * 300 - 1200) == pytest.approx(told.break_even.value)


@given(st.floats(1, 1000), st.floats(1.01, 100))
def test_cost_loss_ratio(cost: float, times: float) -> None:
    """Source: Murphy 1977 (from memory): with nothing to pay later, protect where p is above cost / loss."""
    told = hose(
        now=Job(cost), later=Job(0), failed=Job(cost * times), crew_per_h=0, machine_per_h=0, chance=0.5
    )
    assert 1 / times == pytest.approx(told.break_even.value)


@given(
    st.floats(0, 5000),
    st.floats(0, 20),
    st.floats(0, 5000),
    st.floats(6000, 50000),
    st.floats(0, 500),
    st.floats(0, 1),
)
def test_at_the_break_even_chance_both_cost_the_same(
    now: float, hours: float, later: float, failed: float, idle: float, chance: float
) -> None:
    """On either side of it the cheaper way changes."""
    wanted: dict[str, Any] = {
        "now": Job(now, hours), "later": Job(later), "failed": Job(failed), "crew_per_h": idle, "machine_per_h": 0,
    }  # fmt: skip
    even = hose(**wanted, chance=chance).break_even.value
    if 0 < even < 1:
        assert hose(**wanted, chance=even).difference == pytest.approx(0, abs=1e-6 * failed)
    told = hose(**wanted, chance=chance)
    if abs(chance - even) > 1e-9:
        assert (told.difference < 0) == (chance < even) or told.difference == pytest.approx(0, abs=1e-6)


def test_simulated_outcomes() -> None:
    """Source: 40,000 winters drawn: the mean cost of waiting is the expected one, less chance (4 sigma)."""
    rng = random.Random(8)
    told = hose(chance=0.15)
    failed, later = 4000 + 24 * 300, 1200
    drawn = [failed if rng.random() < 0.15 else later for _ in range(40_000)]
    sigma = (failed - later) * (0.15 * 0.85 / len(drawn)) ** 0.5
    assert told.waiting.value == pytest.approx(sum(drawn) / len(drawn), abs=4 * sigma)


@given(st.integers(0, 10_000))
def test_the_truth_is_inside(seed: int) -> None:
    """Whatever each number truly is between its ends, costs and break-even chance lie between theirs."""
    rng = random.Random(seed)
    told = hose()
    truth = hose(
        failed=Job(rng.uniform(3000, 5000), rng.uniform(16, 32)),
        crew_per_h=rng.uniform(160, 200),
        chance=rng.uniform(0.1, 0.2),
    )
    for wide, true in (
        (told.now, truth.now),
        (told.waiting, truth.waiting),
        (told.break_even, truth.break_even),
    ):
        assert wide.low - 1e-9 <= true.value <= wide.high + 1e-9


@pytest.mark.parametrize(
    ("chance", "verdict"),
    [(0.05, "wait"), (0.3, "now"), (Reading(0.15, 0.05), "too close to call"), (0.12, "too close to call")],
)
def test_verdict(chance: Reading | float, verdict: str) -> None:
    """Called only where all that the numbers leave open agrees."""
    assert verdict == hose(chance=chance).verdict


def test_a_job_that_has_to_be_done_anyway() -> None:
    """Where it costs as much later, waiting gains nothing at any chance."""
    told = hose(now=Job(1200), later=Job(1200), chance=0.01)
    assert ("now", 0) == (told.verdict, told.break_even.value)
    assert told.plainly.startswith("Waiting does not pay at any chance of failure.")


def test_waiting_that_cannot_lose() -> None:
    """Where doing it now costs more than a failure later."""
    told = hose(now=Job(50_000), chance=0.9)
    assert ("wait", 1) == (told.verdict, told.break_even.value)
    assert told.plainly.startswith("Waiting pays even if it fails before spring.")


def test_tornado() -> None:
    """Each row is the whole sum again with one number at its ends; the longest bar stands first."""
    told = hose()
    swings = [row.swing for row in told.rows]
    assert sorted(swings, reverse=True) == swings
    rows = {row.name: row for row in told.rows}
    chance = rows["chance of failure"]
    assert (hose(chance=0.1).difference, hose(chance=0.2).difference) == pytest.approx(
        (chance.at_low, chance.at_high)
    )
    assert not chance.guessed
    guess = rows["parts and labour now"]
    assert guess.guessed
    assert (1200 * (1 - GUESSED), 1200 * (1 + GUESSED)) == pytest.approx((guess.low_input, guess.high_input))
    assert hose(now=Job(1500, 4)).difference == pytest.approx(guess.at_high)
    assert "hours down later" not in rows  # nothing of it moves the verdict


def test_plainly() -> None:
    """The words of the issue: waiting pays only if the chance of failure before spring is below so much."""
    told = hose(later=Job(0), now=Job(1200), failed=Job(10_000, 24), crew_per_h=180, chance=0.03, money="CAD")
    assert (
        "Waiting pays only if the chance of failure before spring is below 7 %; it is put at 3 %, so it can wait. "
        "Doing it now costs 1,200 CAD; waiting until spring is expected to cost 516 CAD." == told.plainly
    )
    assert (
        "Waiting pays only if the chance of failure before spring is below 12 % (8.8 to 18); it is put at 10 to 20 %, "
        "too close to call." in hose().plainly
    )
    assert "Where a failure can hurt somebody it is no sum" in told.caution


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        (
            {"chance": 7},
            "a chance of failure of 7 is outside 0 to 1, where this sum holds; give it as a share, 0.07 for 7 %",
        ),
        (
            {"now": Job(-5)},
            "parts and labour now of -5 is outside 0 to 1e+12, where this sum holds; check the number",
        ),
        (
            {"failed": Job(500)},
            "a failure at 500 costs no more than the job later at 1200, so nothing is at stake; count the hours down "
            "and the idle crew as well",
        ),
    ],
)
def test_refused(more: dict[str, Any], sentence: str) -> None:
    """What cannot be is refused in one sentence."""
    with pytest.raises(SumError) as told:
        hose(**more)
    assert sentence == str(told.value)
