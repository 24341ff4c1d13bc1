"""The readings of a stretch of sound, best first: beam search with the vocabulary's say at every word.

A reading grows by one piece at a time, all readings of the beam together. Its score is the network's log
probability plus the gain of its words and the promise of the word it is in the middle of (``bias``).
Readings that say the same words and differ only in capitals or punctuation count as one, so that the beam
holds different words. A reading that goes round in circles is dropped.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from saycheck.hearing.before import NOTHING, Before
from saycheck.hearing.bias import Bias, Said
from saycheck.hearing.ear import SAMPLE_RATE, Samples
from saycheck.hearing.speech_model import Floats, SpeechModel
from saycheck.hearing.tokens import END, SPACE, Tokens


@dataclass(frozen=True)
class Search:
    """How widely to search. Found best on synthetic voices not used for measuring."""

    width: int = 6
    """Readings kept."""
    options: int = 12
    """Pieces tried after each."""
    margin: float = 10.0
    """Pieces less likely than exp(-margin) are not tried."""
    ahead: float = 3.0
    """The search ends when no growing reading comes within this much of the best that has ended."""
    pieces_per_s: float = 9.0
    """No one says more; a longer reading is made up."""
    readings: int = 5
    """Readings returned at most."""


@dataclass(frozen=True)
class Reading:
    """A finished reading: pieces without marks, the log probability of each, and the whole score.

    ``ended`` is False where the search gave up before the network said it was at the end.
    """

    pieces: tuple[int, ...]
    logps: tuple[float, ...]
    score: float
    ended: bool


class _Growing(NamedTuple):
    pieces: tuple[int, ...]
    logps: tuple[float, ...]
    logp: float
    gain: float
    said: Said
    word: str
    key: str


class _Step(NamedTuple):
    score: float
    parent: int
    piece: int
    logp: float
    gain: float
    said: Said
    word: str


def search(
    model: SpeechModel,
    samples: Samples,
    bias: Bias | None = None,
    how: Search | None = None,
    before: Before = NOTHING,
) -> list[Reading]:
    """Return the readings of ``samples`` (16 kHz, at least 0.1 s), best first; none says the same twice.

    ``before`` is what was heard ahead of them; it is in no reading.
    """
    how = how or Search()
    tokens = model.tokens
    heard, scores = model.begin(np.concatenate([before.samples, samples]), before.flat)
    growing = [_Growing((), (), 0.0, 0.0, before.said(bias), "", "")]
    ended: list[tuple[str, Reading]] = []
    for _ in range(int(len(samples) / SAMPLE_RATE * how.pieces_per_s) + 10):
        steps = _steps(tokens, growing, _log_softmax(scores, tokens), bias, how)
        kept, parents, finished = _kept(tokens, growing, steps, how.width)
        ended += finished
        if not kept:
            break
        growing = kept
        best = max((reading.score for _, reading in ended), default=-np.inf)
        if growing[0].logp + growing[0].gain < best - how.ahead or len(ended) >= 3 * how.width:
            break
        scores = model.step(heard, [g.pieces[-1] for g in growing], parents)
    if not ended:
        ended = [(g.key, Reading(g.pieces, g.logps, g.logp + g.gain, False)) for g in growing]
    return _different(ended)[: how.readings]


def _steps(
    tokens: Tokens, growing: Sequence[_Growing], logps: Floats, bias: Bias | None, how: Search
) -> list[_Step]:
    """Every way to go on, best first."""
    steps: list[_Step] = []
    options = np.argpartition(logps, -how.options, axis=1)[:, -how.options :]
    for parent, one in enumerate(growing):
        closed: tuple[float, Said] | None = None  # the word so far taken as whole, worked out once
        for piece in options[parent].tolist():
            logp = float(logps[parent, piece])
            if logp < -how.margin:
                continue
            gain, said, word = one.gain, one.said, one.word
            if piece == END or tokens.begins_word[piece]:
                if bias and word:
                    if closed is None:
                        closed = bias.word(said, word)
                    gain, said = gain + closed[0], closed[1]
                word = ""
            if piece != END:
                word += tokens.shown[piece].strip(SPACE)
            promise = bias.beginning(word) if bias and word else 0.0
            steps.append(_Step(one.logp + logp + gain + promise, parent, piece, logp, gain, said, word))
    steps.sort(key=lambda step: -step.score)
    return steps


def _kept(
    tokens: Tokens, growing: Sequence[_Growing], steps: Sequence[_Step], width: int
) -> tuple[list[_Growing], list[int], list[tuple[str, Reading]]]:
    """The best ``width`` ways to go on that say different words, whose they are, and readings that end."""
    kept: list[_Growing] = []
    parents: list[int] = []
    finished: list[tuple[str, Reading]] = []
    seen: set[str] = set()
    for step in steps:
        if len(kept) == width:
            break
        one = growing[step.parent]
        if step.piece == END:
            finished.append((one.key, Reading(one.pieces, one.logps, step.score, True)))
            continue
        key = _key(one.key, tokens.shown[step.piece])
        pieces = (*one.pieces, step.piece)
        if key in seen or circling(pieces):
            continue
        seen.add(key)
        logps = (*one.logps, step.logp)
        kept.append(_Growing(pieces, logps, one.logp + step.logp, step.gain, step.said, step.word, key))
        parents.append(step.parent)
    return kept, parents, finished


def circling(pieces: Sequence[int]) -> bool:
    """Whether ``pieces`` end in one run of up to 12 three times over (a run of one or two: five times)."""
    for length in range(1, 13):
        times = 5 if length < 3 else 3
        if len(pieces) < length * times:
            continue
        last = pieces[-length:]
        if all(pieces[-length * (n + 1) : len(pieces) - length * n] == last for n in range(1, times)):
            return True
    return False


def _different(ended: Sequence[tuple[str, Reading]]) -> list[Reading]:
    best: dict[str, Reading] = {}
    for key, reading in sorted(ended, key=lambda pair: -pair[1].score):
        best.setdefault(key, reading)
    return list(best.values())


_NO_SOUND = str.maketrans("", "", ',!?;:"()' + SPACE)


def _key(key: str, shown: str) -> str:
    """The key of a reading with one more piece: what it sounds like, without capitals, marks and spaces.

    "handrail" and "hand rail" are said alike. Between figures a space or a point is heard and stays:
    "1 4", "14" and "1.4" are three things.
    """
    after_figure = key[-1:].isdigit()
    sound = shown.lower().translate(_NO_SOUND)
    if after_figure and shown.startswith(SPACE) and sound[:1].isdigit():
        return f"{key} {sound}"
    return key + (sound if after_figure else sound.replace(".", ""))


def _log_softmax(scores: Floats, tokens: Tokens) -> Floats:
    """Log probabilities, shape (readings, pieces); pieces that must never be written get none."""
    scores = np.where(tokens.silent, np.float32(-np.inf), scores)
    top = scores.max(axis=1, keepdims=True)
    return np.asarray(scores - (top + np.log(np.exp(scores - top).sum(axis=1, keepdims=True))), np.float32)
