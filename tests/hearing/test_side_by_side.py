"""Ears in processes of their own: order, and every way in which one may fail."""

import os
from collections.abc import Callable
from functools import partial

import numpy as np
import pytest

from saycheck.errors import EarError
from saycheck.hearing.choose import open_ear
from saycheck.hearing.ear import Phrase
from saycheck.hearing.side_by_side import AHEAD, EarProcess, heard_by_all
from saycheck.models.hearing import Hearing


def phrase(start_s: float = 0.0) -> Phrase:
    """A tenth of a second of silence."""
    return Phrase(np.zeros(1600, np.float32), start_s)


@pytest.mark.parametrize(
    ("opened", "sentence"),
    [
        (
            partial(open_ear, "nobody", "wheel-loader"),
            "there is no ear 'nobody'; choose one of both, builtin, plain, trade, vosk",
        ),
        (
            partial(int, "no number"),
            "an ear failed (ValueError: invalid literal for int() with base 10: 'no number'); "
            "try another with --ear",
        ),
        (
            partial(os._exit, 3),
            "the toy ear was ended from outside (status 3); free some memory and start again",
        ),
    ],
    ids=["its own error", "any error", "ended from outside"],
)
def test_a_failing_ear_is_told(opened: Callable[[], object], sentence: str) -> None:
    """Whatever happens in the ear's process comes out as one sentence."""
    ear = EarProcess("toy", opened)  # type: ignore[arg-type]  # the ear is never built
    with pytest.raises(EarError) as caught, ear:
        list(heard_by_all([phrase()], [ear]))
    assert sentence == str(caught.value)


class Toy(EarProcess):
    """Stands for an ear's process: remembers how far ahead it is given phrases."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.waiting: list[Phrase] = []
        self.most = 0

    def give(self, phrase: Phrase) -> None:
        self.waiting.append(phrase)
        self.most = max(self.most, len(self.waiting))

    def answer(self) -> Hearing:
        return Hearing(ear=f"{self.name} at {self.waiting.pop(0).start_s:g}", words=[])


@pytest.mark.parametrize("count", [0, 1, 2, 3, 10])
def test_every_ear_hears_every_phrase_in_order(count: int) -> None:
    """Phrases come out in the order of the sound, each with what both ears made of it, never many at once."""
    ears = [Toy("one"), Toy("other")]
    heard = list(heard_by_all((phrase(float(n)) for n in range(count)), ears))
    assert [(n, [f"one at {n}", f"other at {n}"]) for n in range(count)] == [
        (given.start_s, [hearing.ear for hearing in hearings]) for given, hearings in heard
    ]
    assert all(ear.most <= AHEAD for ear in ears)
