"""A small trained part: sparse features in, one score for each class out.

The weights are made by the scripts ``bench/train_*.py`` from material in this repository and shipped as
JSON: ``{"classes": [...], "bias": [...], "weights": {feature: [one number a class]}}``.
"""

import json
import math
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from pathlib import Path

import numpy as np

FOLDER = Path(__file__).parent / "trained"


class Linear:
    """Multinomial logistic model over named binary features.

    The weights lie in one table: as objects they would take as much memory as an ear.
    """

    def __init__(self, classes: list[str], bias: list[float], weights: Mapping[str, Sequence[float]]) -> None:
        self.classes = classes
        self.bias = np.array(bias, np.float32)
        # Nothing stands in the first row: a row that is told is never nought, which is quick to ask.
        self.rows = {name: row for row, name in enumerate(weights, 1)}
        self.table = np.array([[0.0] * len(classes), *weights.values()], np.float32)

    def knows(self, feature: str) -> bool:
        """Whether anything was learned of a feature."""
        return feature in self.rows

    def scores(self, features: Iterable[str]) -> list[float]:
        """The score (log odds up to a constant) of each class; features never seen add nothing."""
        rows = list(filter(None, map(self.rows.get, features)))
        scores: list[float] = (self.table.take(rows, axis=0).sum(axis=0) + self.bias).tolist()
        return scores

    def shares(self, features: Iterable[str]) -> dict[str, float]:
        """Probability of each class."""
        totals = self.scores(features)
        most = max(totals)
        grown = [math.exp(t - most) for t in totals]
        whole = sum(grown)
        return {c: g / whole for c, g in zip(self.classes, grown, strict=True)}


STANDING_IN: dict[str, Linear | None] = {}
"""Models used in place of the shipped ones, None for none: the training scripts leave writers out by it."""


def trained(name: str) -> Linear | None:
    """The model of that name, shipped or standing in for it; None where it has not been trained."""
    return STANDING_IN[name] if name in STANDING_IN else shipped(name)


@lru_cache
def shipped(name: str) -> Linear | None:
    """The shipped model of that name, or None where there is none."""
    path = FOLDER / f"{name}.json"
    return read(path) if path.exists() else None


def read(path: Path) -> Linear:
    """The model in a JSON file that a training script wrote."""
    data = json.loads(path.read_text(encoding="utf-8"))
    return Linear(data["classes"], data["bias"], data["weights"])
