"""Find the weights with which two ears are made one reading, from narrations spoken by synthetic voices.

    python bench/train_agreement.py hear FOLDER --levels clean,10     hear narrations with both ears, keep
    python bench/train_agreement.py fit FOLDER                        fit, print figures, write the weights
    python bench/train_agreement.py figures FOLDER                    figures of the weights as they are

``fit`` learns from every second narration (by name) and prints figures of the others, which it never saw. A
disagreement teaches which side the narration bears out: the path through all slots with the fewest word
errors (dynamic programming). Weights go to ``src/saycheck/hearing/agreement_weights.py``.
"""

import pickle
import re
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from ears import cut
from narrations import Narration
from saycheck.hearing import agreement as agreeing
from saycheck.hearing.agreement import Agreement, surroundings
from saycheck.hearing.bias import GeneralEnglish
from saycheck.hearing.lattice import Slot, side_by_side
from saycheck.models.hearing import Hearing
from speak import speak, spoken, with_noise

VOICES = ("rms", "slt-hts", "awb", "kal16", "slt", "espeak-us")
WEIGHTS = Path(agreeing.__file__).with_name("agreement_weights.py")


@dataclass
class Heard:
    """One narration as both ears heard it, phrase by phrase."""

    name: str
    kind: str
    level: str
    text: str
    quotes: list[str]
    phrases: list[tuple[Hearing, Hearing]]


def hear(chosen: Sequence[Narration], levels: Sequence[str], folder: Path) -> None:
    """Hear each narration in one voice at each level and keep what was heard in ``folder``."""
    from saycheck.hearing.builtin_ear import biased_ear
    from saycheck.hearing.language.model import trade_language
    from saycheck.hearing.trade_ear import TradeEar
    from saycheck.vocabulary.load import load

    folder.mkdir(parents=True, exist_ok=True)
    loaded = ""
    for level in levels:
        for number, narration in enumerate(sorted(chosen, key=lambda n: n.labels.machine)):
            path = folder / f"{narration.name}-{level}.pickle"
            if path.exists():
                continue
            machine = narration.labels.machine
            if machine != loaded:
                loaded = machine
                ears = biased_ear(load(machine)), TradeEar(trade_language(load(machine)))
            sound = speak(narration.labels.text, VOICES[number % len(VOICES)])
            found = cut(sound if level == "clean" else with_noise(sound, float(level), seed=number))
            phrases = [(ears[0].hear(phrase), ears[1].hear(phrase)) for phrase in found]
            quotes = [item.quote for item in narration.labels.gold]
            heard = Heard(narration.name, machine, level, narration.labels.text, quotes, phrases)
            path.write_bytes(pickle.dumps(heard))
            print(path.name, file=sys.stderr, flush=True)


def read(folder: Path) -> list[Heard]:
    """What ``hear`` kept; the folder is one's own, so unpickling it is safe."""
    return [pickle.loads(path.read_bytes()) for path in sorted(folder.glob("*.pickle"))]


def best_path(slots: Sequence[Slot], words: Sequence[str]) -> list[int]:
    """For each slot the side with which the whole has fewest word errors: 0, 1, or -1 where it is the same."""
    rows = [np.arange(len(words) + 1.0)]
    sides = []
    for slot in slots:
        ends = []
        for said in (slot.said_first, slot.said_second):
            row = rows[-1]
            for word in said:
                wrong = np.array([word != w for w in words], float)
                changed = np.minimum(row[1:], row[:-1] + wrong - 1) + 1
                row = np.concatenate([[row[0] + 1], changed])
                steps = np.arange(len(row))
                row = np.minimum.accumulate(row - steps) + steps
            ends.append(row)
        rows.append(np.minimum(*ends))
        sides.append(ends)
    # Backwards: the cost of what is left from each place on.
    left = np.arange(len(words), -1, -1.0)
    chosen = [-1] * len(slots)
    for place in range(len(slots) - 1, -1, -1):
        costs = [float((end + left).min()) for end in sides[place]]
        if slots[place].agree or costs[0] == costs[1]:
            chosen[place] = -1
        else:
            chosen[place] = int(costs[1] < costs[0])
        said = slots[place].said_second if chosen[place] == 1 else slots[place].said_first
        for word in reversed(said):
            wrong = np.array([word != w for w in words], float)
            row = np.concatenate([np.minimum(left[:-1], left[1:] + wrong - 1) + 1, [left[-1] + 1]])
            steps = np.arange(len(row))
            left = np.minimum.accumulate((row - steps[::-1])[::-1])[::-1] + steps[::-1]
    return chosen


@dataclass
class Examples:
    """Rows of features and what was right, for each of the three sets of weights."""

    second: list[tuple[tuple[float, ...], bool]]
    agreed: list[tuple[tuple[float, ...], bool]]
    chosen: list[tuple[tuple[float, ...], bool]]


def examples(heard: Sequence[Heard], agreements: "Agreements") -> Examples:
    """What the narrations teach."""
    found = Examples([], [], [])
    for one in heard:
        agreement = agreements.of(one.kind)
        rows = [side_by_side(a.words, b.words, agreement._folded) for a, b in one.phrases]
        slots = [slot for row in rows for slot in row]
        words = agreement._folded(
            re.sub(r"[^a-z' ]", " ", spoken(one.text).lower().replace("\u2019", "'")).split()
        )
        sides = best_path(slots, words)
        at = 0
        for row in rows:
            before: tuple[str, ...] = ("<s>", "<s>")
            for place, slot in enumerate(row):
                around = surroundings(row, place, before)
                side = sides[at]
                if not slot.agree and side >= 0:
                    found.second.append((agreement.features(slot, around), side == 1))
                before = (*before, *(slot.said_second if side == 1 else slot.said_first))[-2:]
                at += 1
    return found


class Agreements:
    """The agreement of each machine kind, made once."""

    def __init__(self) -> None:
        self._made: dict[str, Agreement] = {}
        self._general = GeneralEnglish()

    def of(self, kind: str) -> Agreement:
        """That of a machine kind."""
        if kind not in self._made:
            from saycheck.hearing.language.model import trade_language
            from saycheck.vocabulary.load import load

            words = trade_language(load(kind)).words
            self._made[kind] = Agreement(words, self._general, words.folded)
        return self._made[kind]


def fitted(rows: Sequence[tuple[tuple[float, ...], bool]], strength: float = 1.0) -> list[float]:
    """Weights of a logistic regression; the last feature is always one, so no intercept is needed."""
    from sklearn.linear_model import LogisticRegression

    model = LogisticRegression(C=strength, fit_intercept=False, max_iter=1000)
    model.fit(np.array([f for f, _ in rows]), np.array([right for _, right in rows]))
    return [float(weight) for weight in model.coef_[0]]
