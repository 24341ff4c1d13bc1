"""Cutting sound that is too long."""

from itertools import pairwise

import numpy as np
import pytest

from saycheck.hearing.ear import SAMPLE_RATE, Samples
from saycheck.hearing.split import pieces


def talk(seconds: float, pauses: tuple[float, ...] = ()) -> Samples:
    """Steady noise with pauses of 0.4 s that begin at the given seconds."""
    sound = np.random.default_rng(1).normal(0, 0.1, int(seconds * SAMPLE_RATE)).astype(np.float32)
    for start in pauses:
        sound[int(start * SAMPLE_RATE) : int((start + 0.4) * SAMPLE_RATE)] *= 0.01
    return sound


@pytest.mark.parametrize("seconds", [0.0, 0.01, 1.0, 24.99, 25.0])
def test_short_sound_stays_whole(seconds: float) -> None:
    """Up to the longest length nothing is cut."""
    sound = talk(seconds)

    assert [(0, len(sound))] == pieces(sound)


def test_cuts_in_the_pause() -> None:
    """A pause near the middle is where the cut falls."""
    (_, cut), _ = pieces(talk(40, pauses=(17.0,)))

    assert 17.0 < cut / SAMPLE_RATE < 17.4


@pytest.mark.parametrize("seconds", [25.1, 49.9, 50.1, 75.3, 301.7])
def test_pieces_join_without_gap_and_none_is_too_long(seconds: float) -> None:
    """Nothing is lost and nothing heard twice."""
    sound = talk(seconds)

    found = pieces(sound)

    assert 0 == found[0][0]
    assert len(sound) == found[-1][1]
    assert all(one[1] == two[0] for one, two in pairwise(found))
    assert all(0 < end - start <= 25 * SAMPLE_RATE for start, end in found)
