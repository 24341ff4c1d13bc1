"""One reading from two ears: where they agree, and where not, the likelier one; the other is kept beside it.

Each disagreement is weighed by what is known of both sides: how sure each ear is, how well the words sit
between their neighbours by the language model made from the vocabulary, how much else of the
phrase the ears agree on. The weights are a logistic regression made by ``bench/train_agreement.py`` from
synthetic sound of narrations that no figure of the fused reading is measured on.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol, Self

from saycheck.hearing.agreement_weights import AGREED, CHOSEN, SECOND_IS_RIGHT
from saycheck.hearing.homophones import with_numbers
from saycheck.hearing.joining import Other
from saycheck.hearing.lattice import Folded, Slot, runs_unlike, side_by_side
from saycheck.models.hearing import HeardWord, Hearing
from saycheck.vocabulary.compiled import Vocabulary

_MARKS = ".,?!;:"
_MOST = 12.0
_NUMBERS = frozenset(
    "zero oh one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen"
    " seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred thousand point"
    " half quarter third eighth sixteenth minus".split()
)


class Probabilities(Protocol):
    """Word probabilities; ``language.model.WordModel`` is such."""

    def logp10(self, history: tuple[str, ...], word: str) -> float:
        """log10 of the probability of ``word`` after ``history``."""
        ...


@dataclass(frozen=True)
class Weights:
    """Logistic weights: is the ``second`` ear right, is an ``agreed`` word right, is a ``chosen`` one."""

    second: tuple[float, ...]
    agreed: tuple[float, ...]
    chosen: tuple[float, ...]


LEARNED = Weights(SECOND_IS_RIGHT, AGREED, CHOSEN)


@dataclass(frozen=True)
class Around:
    """What stands around a slot: the two said words before it, the word after, and how the phrase fares."""

    before: tuple[str, ...]
    after: str
    agreement: float
    first_sure: float
    second_sure: float


@dataclass(frozen=True)
class Settled:
    """One slot settled: the words ``taken`` and ``left``, whether the ``second`` ear's were taken.

    ``reason`` is what the confidence of the words taken is worked out from.
    """

    taken: list[HeardWord]
    left: tuple[HeardWord, ...]
    said: tuple[str, ...]
    second: bool
    agree: bool
    reason: tuple[float, ...]


class Agreement:
    """Makes one reading of what a general ear and the trade ear heard in a phrase."""

    def __init__(self, trade: Probabilities, folded: Folded, weights: Weights = LEARNED) -> None:
        """``folded`` brings said words to the spelling of ``trade``."""
        self._trade, self.folded, self.weights = trade, folded, weights

    @classmethod
    def for_machine(cls, vocabulary: Vocabulary, folders: Sequence[Path] = ()) -> Self:
        """With the language of a machine kind; EarError as from ``trade_language`` and pocketsphinx."""
        from saycheck.hearing.language.model import trade_language

        words = trade_language(vocabulary, folders).words
        return cls(words, words.folded)

    def one_reading(self, general: Hearing, trade: Hearing) -> tuple[list[HeardWord], list[Other]]:
        """The fused words, and at each disagreement the words that were not taken.

        Confidence is how likely the word is right, seeing what both ears say. Words of the general ear
        keep their writing and punctuation; where the trade ear's win, its words take over the punctuation
        that ended the others.
        """
        words: list[HeardWord] = []
        others: list[Other] = []
        for part in self.reasons(general, trade):
            if not part.agree:
                ear = general.ear if part.second else trade.ear
                sure = _mean([w.confidence for w in part.left])
                text = " ".join(w.text for w in part.left)
                others.append(Other(len(words), len(words) + len(part.taken), text, ear, sure))
            weights = self.weights.agreed if part.agree else self.weights.chosen
            words += [_with(word, _squashed(weights, part.reason)) for word in part.taken]
        return with_numbers(words, others, self._fits_between, trade.ear)

    def _fits_between(self, before: tuple[str, ...], word: str, after: str) -> float:
        return _log_fit(self._trade, self.folded((word,)), Around(before, after, 0.0, 0.0, 0.0))

    def reasons(self, general: Hearing, trade: Hearing) -> list[Settled]:
        """What is taken in each slot, and why; confidences still those of the ears."""
        settled: list[Settled] = []
        before: tuple[str, ...] = ("<s>", "<s>")
        slots = side_by_side(general.words, trade.words, self.folded)
        for place, slot in enumerate(slots):
            part = self._settled(slot, surroundings(slots, place, before))
            settled.append(part)
            before = (*before, *part.said)[-2:]
        return settled

    def _settled(self, slot: Slot, around: Around) -> Settled:
        first, second = (_mean([w.confidence for w in words]) for words in (slot.first, slot.second))
        reason: tuple[float, ...]
        if slot.agree:
            reason = (_logit(first), _logit(second), _logit(around.agreement), 1.0)
            # Words that sound alike are written as the trade writes them.
            if len(slot.said_first) == len(slot.said_second) and self._fits(
                slot.said_second, around
            ) > self._fits(slot.said_first, around):
                return Settled(
                    _rewritten(slot.second, slot.first), slot.first, slot.said_second, True, True, reason
                )
            return Settled(list(slot.first), slot.second, slot.said_first, False, True, reason)
        p = _squashed(self.weights.second, self.features(slot, around))
        if p > 0.5:
            reason = (_logit(p), _logit(second), _logit(around.agreement), 1.0, 1.0)
            return Settled(
                _rewritten(slot.second, slot.first), slot.first, slot.said_second, True, False, reason
            )
        reason = (_logit(1 - p), _logit(first), _logit(around.agreement), 0.0, 1.0)
        return Settled(list(slot.first), slot.second, slot.said_first, False, False, reason)

    def _fits(self, said: Sequence[str], around: Around) -> float:
        return _log_fit(self._trade, said, around)

    def features(self, slot: Slot, around: Around) -> tuple[float, ...]:
        """What is known of a disagreement, for ``Weights.second``; see ``FEATURES``."""
        mine, theirs = ([w.confidence for w in words] for words in (slot.first, slot.second))
        numbers = [sum(w in _NUMBERS for w in said) for said in (slot.said_first, slot.said_second)]
        return (
            _logit(_mean(mine)) if mine else 0.0,
            _logit(min(mine)) if mine else 0.0,
            _logit(_mean(theirs)) if theirs else 0.0,
            _logit(min(theirs)) if theirs else 0.0,
            _clipped(self._fits(slot.said_second, around) - self._fits(slot.said_first, around)),
            float(len(slot.said_second) - len(slot.said_first)),
            float(not mine),
            float(not theirs),
            _logit(around.agreement),
            _logit(around.first_sure),
            _logit(around.second_sure),
            runs_unlike(slot.said_first, slot.said_second) if mine and theirs else 0.0,
            float(numbers[1] > 0) - float(numbers[0] > 0),
            1.0,
        )


FEATURES = (
    "first sure", "first least sure", "second sure", "second least sure", "fits trade",
    "longer", "first silent", "second silent", "agreement", "first sure around", "second sure around",
    "unlike", "numbers", "always",
)  # fmt: skip


def surroundings(slots: Sequence[Slot], place: int, before: tuple[str, ...]) -> Around:
    """What stands around the slot at ``place``, ``before`` being the last two words said."""
    after = "</s>"
    if place + 1 < len(slots):
        following = slots[place + 1].said_first or slots[place + 1].said_second
        after = following[0] if following else after
    agreeing = sum(len(slot.first) for slot in slots if slot.agree)
    longest = max(sum(len(slot.first) for slot in slots), sum(len(slot.second) for slot in slots), 1)
    sure = [_mean([w.confidence for slot in slots for w in words(slot)]) for words in (_firsts, _seconds)]
    return Around(before, after, agreeing / longest, sure[0], sure[1])


def _firsts(slot: Slot) -> tuple[HeardWord, ...]:
    return slot.first


def _seconds(slot: Slot) -> tuple[HeardWord, ...]:
    return slot.second


def _log_fit(model: Probabilities, said: Sequence[str], around: Around) -> float:
    """log10 of the probability of the words and of the one after them."""
    total, history = 0.0, around.before
    for word in (*said, around.after):
        total += model.logp10(history, word)
        history = (*history, word)[-2:]
    return total


def _rewritten(words: Sequence[HeardWord], instead_of: Sequence[HeardWord]) -> list[HeardWord]:
    """Words with the capital and the closing mark of those whose place they take."""
    taken = list(words)
    if taken and instead_of:
        if instead_of[0].text[:1].isupper():
            taken[0] = _with_text(taken[0], taken[0].text[:1].upper() + taken[0].text[1:])
        if instead_of[-1].text[-1:] in _MARKS:
            taken[-1] = _with_text(taken[-1], taken[-1].text + instead_of[-1].text[-1])
    return taken


def _with_text(word: HeardWord, text: str) -> HeardWord:
    return word.model_copy(update={"text": text})


def _with(word: HeardWord, confidence: float) -> HeardWord:
    return word.model_copy(update={"confidence": confidence})


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values) if values else 0.5


def _logit(p: float) -> float:
    p = min(max(p, 0.01), 0.99)
    return math.log(p / (1 - p))


def _clipped(value: float) -> float:
    return min(max(value, -_MOST), _MOST)


def _squashed(weights: Sequence[float], features: Sequence[float]) -> float:
    """The logistic function of the weighted sum."""
    total = sum(w * f for w, f in zip(weights, features, strict=True))
    return 1 / (1 + math.exp(-max(min(total, 30.0), -30.0)))
