"""Hearing follows the recording: however slow it is, nothing is left out."""

import queue
import time
from collections import deque
from pathlib import Path
from types import TracebackType
from typing import Any, Self, cast

import numpy as np
import pytest

from saycheck.capture.recording import Recording
from saycheck.errors import EarError
from saycheck.hearing.ear import Phrase
from saycheck.live.follow import Carefully, Drafted, Failed, News, Quickly, Said, Settled
from saycheck.models.hearing import Hearing


class Slow:
    """Stands in for an ear's process: answers after a while, remembers what it was given."""

    def __init__(self, takes_s: float = 0.0, fails: bool = False) -> None:
        self.name, self.pid = "slow", None
        self.given: list[Phrase] = []
        self._waiting: deque[Phrase] = deque()
        self._takes_s, self._fails = takes_s, fails

    def __enter__(self) -> Self:
        return self

    def give(self, phrase: Phrase) -> None:
        self._waiting.append(phrase)

    def answer(self) -> Hearing:
        phrase = self._waiting.popleft()
        if phrase.start_s >= 0:
            time.sleep(self._takes_s)
            self.given.append(phrase)
            if self._fails:
                raise EarError("the slow ear failed; try another with --ear")
        return Hearing(ear=self.name, words=[])

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Nothing to end."""


@pytest.fixture
def recording(tmp_path: Path) -> Path:
    """Ten spoken words, one every two seconds (a voice made of harmonics that the voice finder takes)."""
    from speak import speak

    recording = Recording(tmp_path / "r.wav")
    word = speak("Bucket.", "slt-hts")
    for _ in range(10):
        recording.append((word * 32767).astype(np.int16))
        recording.append(np.zeros(32_000, np.int16))
    recording.close()
    return recording.path


def news_of(follower: Quickly | Carefully) -> list[News]:
    """Everything a follower tells until it has ended."""
    follower.start()
    follower.join(60)
    assert not follower.is_alive()
    told = []
    while not follower.news.empty():
        told.append(follower.news.get())
    return told


@pytest.mark.sound
def test_a_slow_ear_hears_everything(recording: Path) -> None:
    """Hearing that is behind loses nothing: all words come, in order, and do not overlap."""
    ear = Slow(0.3)
    told = news_of(Quickly(recording, lambda: True, queue.SimpleQueue(), cast(Any, [ear]), lambda w, c: None))
    said = [one for one in told if isinstance(one, Said)]
    assert 10 == len(said)
    assert all(isinstance(one, Said | Drafted) for one in told)
    ends = [one.utterance.phrase.end_s for one in said]
    starts = [one.utterance.phrase.start_s for one in said]
    assert starts == sorted(starts)
    assert all(end <= start + 1e-6 for end, start in zip(ends, starts[1:], strict=False))


@pytest.mark.sound
def test_a_draft_that_is_all_is_heard_once(recording: Path) -> None:
    """A quick ear hears each word after a breath and need not hear it again when the pause is sure."""
    ear = Slow()
    told = news_of(Quickly(recording, lambda: True, queue.SimpleQueue(), cast(Any, [ear]), lambda w, c: None))
    said = [one for one in told if isinstance(one, Said)]
    for one in said:
        assert 1 == sum(given.start_s == one.utterance.phrase.start_s for given in ear.given)


@pytest.mark.sound
def test_the_careful_ears_are_given_what_hear_gives_them(recording: Path) -> None:
    """The very phrases that ``saycheck hear`` would cut, sample for sample."""
    from saycheck.capture.files import blocks
    from saycheck.capture.phrases import phrases

    ear = Slow()
    told = news_of(Carefully(recording, lambda: True, queue.SimpleQueue(), cast(Any, [ear])))
    wanted = list(phrases(blocks(recording)))
    assert [one.end_s for one in wanted] == [one.end_s for one in told if isinstance(one, Settled)]
    for one, given in zip(wanted, ear.given, strict=True):
        assert one.start_s == given.start_s
        assert np.array_equal(one.samples, given.samples)


@pytest.mark.sound
def test_an_ear_that_fails_is_told_of(recording: Path) -> None:
    """The sentence of the ear reaches whoever listens, and the follower ends."""
    told = news_of(Carefully(recording, lambda: True, queue.SimpleQueue(), cast(Any, [Slow(fails=True)])))
    assert isinstance(told[-1], Failed)
    assert "the slow ear failed; try another with --ear" == str(told[-1].error)
