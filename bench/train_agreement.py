"""Find the weights with which two ears are made one reading, from what ``hearings.py`` kept in a folder.

    python bench/train_agreement.py fit FOLDER                  fit, print figures, write the weights
    python bench/train_agreement.py figures FOLDER [FOLDER2]    figures of the weights as they are

``fit`` learns from every second narration (by name) and prints figures of the others, which it never saw; what
it writes it learns from all of them, so that figures of it belong on narrations kept aside. A
disagreement teaches which side the narration bears out: the path through all slots with the fewest word
errors (dynamic programming). Weights go to ``src/saycheck/hearing/agreement_weights.py``.
"""

import argparse
import re
import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from heard import score
from hearings import Heard, read
from saycheck.hearing import agreement as agreeing
from saycheck.hearing.agreement import FEATURES, LEARNED, Agreement, Weights, surroundings
from saycheck.hearing.lattice import Slot, side_by_side
from speak import spoken

WEIGHTS = Path(agreeing.__file__).with_name("agreement_weights.py")


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
        rows = [side_by_side(a.words, b.words, agreement.folded) for a, b in one.phrases]
        slots = [slot for row in rows for slot in row]
        words = said_in(one.text, agreement)
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


def said_in(text: str, agreement: Agreement) -> list[str]:
    """The words of a narration as said, in the language model's spelling."""
    plain = re.sub(r"[^a-z' ]", " ", spoken(text).lower().replace("\u2019", "'"))
    return list(agreement.folded(plain.split()))


class Agreements:
    """The agreement of each machine kind, made once."""

    def __init__(self) -> None:
        self._made: dict[str, Agreement] = {}
        self.weights = LEARNED

    def use(self, weights: Weights) -> None:
        """Weigh with ``weights`` from now on."""
        self.weights = weights
        for agreement in self._made.values():
            agreement.weights = weights

    def of(self, kind: str) -> Agreement:
        """That of a machine kind."""
        if kind not in self._made:
            from saycheck.hearing.language.model import trade_language
            from saycheck.vocabulary.load import load

            words = trade_language(load(kind)).words
            self._made[kind] = Agreement(words, words.folded, self.weights)
        return self._made[kind]


def fitted(rows: Sequence[tuple[tuple[float, ...], bool]], strength: float = 1.0) -> list[float]:
    """Weights of a logistic regression; the last feature is always one, so no intercept is needed."""
    from sklearn.linear_model import LogisticRegression

    model = LogisticRegression(C=strength, fit_intercept=False, max_iter=1000)
    model.fit(np.array([f for f, _ in rows]), np.array([right for _, right in rows]))
    return [float(weight) for weight in model.coef_[0]]


def sureness(heard: Sequence[Heard], agreements: Agreements) -> Examples:
    """Which of the words taken with the weights as they are were right: what their confidence is made of."""
    from rapidfuzz.distance import Levenshtein

    found = Examples([], [], [])
    for one in heard:
        agreement = agreements.of(one.kind)
        taken = [part for a, b in one.phrases for part in agreement.reasons(a, b)]
        said = [word for part in taken for word in part.said]
        wrong = {
            op.src_pos for op in Levenshtein.editops(said, said_in(one.text, agreement)) if op.tag != "insert"
        }
        at = 0
        for part in taken:
            rows = found.agreed if part.agree else found.chosen
            for _ in part.said:
                rows.append((part.reason, at not in wrong))
                at += 1
    return found


def figures(heard: Sequence[Heard], agreements: Agreements) -> dict[str, list[float]]:
    """Word error rate and share of statements word-perfect: first ear, second, either, fused, best path."""
    counts = {name: [0.0, 0.0, 0.0, 0.0] for name in ("general", "trade", "either", "fused", "best path")}
    for one in heard:
        agreement = agreements.of(one.kind)
        rows = [side_by_side(a.words, b.words, agreement.folded) for a, b in one.phrases]
        slots = [slot for row in rows for slot in row]
        sides = best_path(slots, said_in(one.text, agreement))
        texts = {
            "general": [w.text for a, _ in one.phrases for w in a.words],
            "trade": [w.text for _, b in one.phrases for w in b.words],
            "fused": [w.text for a, b in one.phrases for w in agreement.one_reading(a, b)[0]],
            "best path": [
                w.text
                for slot, side in zip(slots, sides, strict=True)
                for w in (slot.second if side == 1 else slot.first)
            ],
        }
        scores = {name: score(one.text, " ".join(words), one.quotes) for name, words in texts.items()}
        for name, got in scores.items():
            for n, value in enumerate((got.errors, got.words, sum(got.perfect), len(got.perfect))):
                counts[name][n] += value
        either = sum(a or b for a, b in zip(scores["general"].perfect, scores["trade"].perfect, strict=True))
        counts["either"][2] += either
        counts["either"][3] += len(one.quotes)
    return {name: [c[0] / max(c[1], 1), c[2] / max(c[3], 1)] for name, c in counts.items()}


def show(heard: Sequence[Heard], agreements: Agreements) -> None:
    """Print the figures for each level."""
    print(f"{'level':8}{'':12}{'word error':>11}{'perfect':>9}")
    for level in sorted({one.level for one in heard}):
        for name, (wer, perfect) in figures([o for o in heard if o.level == level], agreements).items():
            print(f"{level:8}{name:12}{wer:11.3f}{perfect:9.3f}")


def write_weights(**weights: Sequence[float]) -> None:
    """Write the module of weights."""
    lines = ['"""Weights of ``agreement``, made by ``bench/train_agreement.py``; not written by hand."""', ""]
    for name, values in weights.items():
        lines += [f"{name} = (", *(f"    {value:.4f}," for value in values), ")"]
    WEIGHTS.write_text("\n".join(lines) + "\n", encoding="utf-8")


def fit(heard: Sequence[Heard]) -> None:
    """Fit on every second narration, look at the others; then fit on all and write the weights."""
    names = sorted({one.name for one in heard})
    half = [one for one in heard if names.index(one.name) % 2 == 0]
    others = [one for one in heard if names.index(one.name) % 2 == 1]
    agreements = Agreements()
    count = _learn(half, agreements)
    print(f"learned from {count} disagreements in {len(half)} stretches; figures of {len(others)} others")
    show(others, agreements)
    count = _learn(heard, agreements)
    weights = agreements.weights
    print(f"written: weights learned from all {count} disagreements")
    for name, weight in zip(FEATURES, weights.second, strict=True):
        print(f"  {name:20}{weight:8.3f}")
    write_weights(SECOND_IS_RIGHT=weights.second, AGREED=weights.agreed, CHOSEN=weights.chosen)


def _learn(heard: Sequence[Heard], agreements: Agreements) -> int:
    """Set the weights learned from ``heard``; return how many disagreements taught them."""
    rows = examples(heard, agreements).second
    agreements.use(replace(LEARNED, second=tuple(fitted(rows))))
    sure = sureness(heard, agreements)
    agreements.use(
        replace(agreements.weights, agreed=tuple(fitted(sure.agreed)), chosen=tuple(fitted(sure.chosen)))
    )
    return len(rows)


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("what", choices=("fit", "figures"))
    parser.add_argument("folder", type=Path, nargs="+", help="where hearings.py kept what was heard")
    asked = parser.parse_args()
    heard = [one for folder in asked.folder for one in read(folder)]
    if asked.what == "fit":
        fit(heard)
    else:
        show(heard, Agreements())
    return 0


if __name__ == "__main__":
    sys.exit(main())
