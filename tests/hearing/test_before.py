"""What was heard before a phrase."""

import numpy as np
import pytest

from saycheck.hearing.align import Placed
from saycheck.hearing.before import NOTHING, Before
from saycheck.hearing.bias import BEGIN, Bias
from saycheck.hearing.ear import SAMPLE_RATE

WORDS = "the left tyre is flat and the right one is down".split()
BEFORE = Before(
    np.arange(11 * SAMPLE_RATE, dtype=np.float32),
    WORDS,
    [[10 + n, 100 + n] for n in range(11)],
    [Placed(n + 0.2, n + 0.9) for n in range(11)],
)


@pytest.mark.parametrize(
    ("seconds", "first"),
    [
        (20.0, "the"),  # all of it
        (11.0, "the"),
        (10.0, "left"),
        (4.0, "right"),  # it begins 3.8 s before the end
        (3.0, "one"),
    ],
)
def test_the_end_begins_with_a_word(seconds: float, first: str) -> None:
    """No more sound than asked for, from just before a word; words and pieces go with it."""
    end = BEFORE.last(seconds)

    assert first == end.words[0]
    assert len(end.words) == len(end.pieces) == len(end.places)
    assert len(end.samples) <= seconds * SAMPLE_RATE
    assert end.samples[-1] == BEFORE.samples[-1]
    assert [10 + 11 - len(end.words), 100 + 11 - len(end.words)] == end.flat[:2]


@pytest.mark.parametrize("seconds", [1.9, 0.0, -5.0])
def test_too_little_is_nothing(seconds: float) -> None:
    """A phrase that fills the room alone gets nothing ahead of it."""
    assert BEFORE.last(seconds) is NOTHING


def test_nothing_stays_nothing() -> None:
    """The first phrase of a recording."""
    assert NOTHING.last(10.0) is NOTHING
    assert [] == NOTHING.flat
    assert BEGIN == NOTHING.said(None)


class Any:
    """A word model that knows everything."""

    def knows(self, word: str) -> bool:
        """Always."""
        return True

    def logp10(self, history: tuple[str, ...], word: str) -> float:
        """One in ten."""
        return -1.0


def test_it_leaves_its_last_words_as_history() -> None:
    """The language models go on from there."""
    assert (("is", "down"), ("is", "down")) == BEFORE.said(Bias(Any(), Any()))
    assert BEGIN == BEFORE.said(None)


@pytest.mark.parametrize(
    ("reading", "seconds", "ended", "expected"),
    [
        ("handrail solid fuel cap on", 3.0, True, False),
        ("and the right one is fine", 3.0, True, True),  # five words it was given
        ("The right, one is", 2.0, True, True),  # marks and capitals hide nothing
        ("the right one was", 2.0, True, False),
        ("handrail solid fuel cap on", 3.0, False, True),  # given up before the end
        ("handrail solid fuel cap on " * 4, 3.0, True, True),  # faster than anyone talks
        ("handrail", 3.0, True, True),  # a word in three seconds
        ("", 3.0, True, True),
    ],
)
def test_doubtful(reading: str, seconds: float, ended: bool, expected: bool) -> None:
    """A reading that says what was given, or says too much or too little, is not to be trusted."""
    assert expected == BEFORE.doubtful(reading.split(), seconds, ended)
