"""What trained networks share: their file (names in the order of their rows, arrays in half precision) and how
scores become shares.
"""

from collections.abc import Iterable, Mapping
from math import prod
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

Names = dict[str, list[str]]
Weights = dict[str, NDArray[np.float32]]


def write(path: Path, names: Mapping[str, Iterable[str]], weights: Weights) -> None:
    """Keep the names and arrays of a network."""
    kept = {f"names_{kind}": np.array(list(known)) for kind, known in names.items()}
    arrays = {f"weights_{name}": array.astype(np.float16) for name, array in weights.items()}
    np.savez_compressed(path, **kept, **arrays)  # type: ignore[arg-type]


def read(path: Path) -> tuple[Names, Weights]:
    """Names and arrays that ``write`` kept."""
    with np.load(path, allow_pickle=False) as data:
        names = {k.removeprefix("names_"): [str(n) for n in data[k]] for k in data if k.startswith("names_")}
        weights = {k.removeprefix("weights_"): data[k] for k in data if k.startswith("weights_")}
        return names, weights


def shared(scores: NDArray[np.float32]) -> NDArray[np.float32]:
    """Shares from scores (log odds up to a constant), each row of the last axis 1 in all."""
    grown = np.exp(scores - scores.max(axis=-1, keepdims=True))
    return np.asarray(grown / grown.sum(axis=-1, keepdims=True), np.float32)


def agreed(*weighed: tuple[dict[str, float], float]) -> dict[str, float]:
    """Several opinions taken together as their geometric mean, each with its weight; the weights add up to 1."""
    return {k: prod(shares[k] ** weight for shares, weight in weighed) for k in weighed[0][0]}
