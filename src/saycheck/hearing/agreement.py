"""One reading from two ears: where they agree, and where not, the likelier one; the other is kept beside it.

Each disagreement is weighed by what is known of both sides: how sure each ear is, how well the words sit
between their neighbours by the vocabulary's language model and by general English, how long they are. The
weights come from a logistic regression (``bench/train_agreement.py``) on synthetic sound of narrations
that the figures in ``bench/ears.py`` leave out.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from saycheck.hearing.joining import Other
from saycheck.hearing.lattice import Folded, Slot, side_by_side
from saycheck.models.hearing import HeardWord, Hearing


class Probabilities(Protocol):
    """Word probabilities; both ``language.model.WordModel`` and ``bias.GeneralEnglish`` are some."""

    def logp10(self, history: tuple[str, ...], word: str) -> float:
        """log10 of the probability of ``word`` after ``history``."""
        ...

    def knows(self, word: str) -> bool:
        """Whether the word is known."""
        ...
