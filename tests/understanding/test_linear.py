"""The small trained part: sparse features in, shares of classes out."""

import math

import numpy as np
import pytest

from saycheck.understanding.linear import Linear, trained

MODEL = Linear(["good", "writeup"], [0.5, 0.0], {"wet": [-1.0, 1.0], "dry": [2.0, -2.0]})


@pytest.mark.parametrize(
    ("features", "expected"),
    [
        ([], [0.5, 0.0]),
        (["wet"], [-0.5, 1.0]),
        (["wet", "dry"], [1.5, -1.0]),
        (["never seen"], [0.5, 0.0]),  # says nothing either way
    ],
)
def test_scores(features: list[str], expected: list[float]) -> None:
    """A score is the bias of its class and the weights of the features that are there."""
    assert expected == MODEL.scores(features)


@pytest.mark.parametrize("features", [[], ["wet"], ["dry"], ["wet"] * 2000])
def test_shares_sum_to_one(features: list[str]) -> None:
    """Shares are probabilities, also where scores are huge."""
    shares = MODEL.shares(features)
    assert math.isclose(1.0, sum(shares.values()))
    assert {"good", "writeup"} == set(shares)


def test_share_follows_score() -> None:
    """Two classes share by the logistic of the distance of their scores."""
    assert pytest.approx(1 / (1 + math.exp(-1.5))) == MODEL.shares(["wet"])["writeup"]


def test_untrained() -> None:
    """A model that was never trained is None, and the rules decide alone."""
    assert trained("never trained") is None


@pytest.mark.parametrize(
    "name", ["antecedents", "boundaries", "confidence", "names", "sides", "statements", "units"]
)
def test_shipped_weights_are_whole(name: str) -> None:
    """Every shipped model has one bias and one weight a feature for each class, all finite."""
    model = trained(name)
    assert model is not None
    assert ((1 + len(model.rows), len(model.classes)), (len(model.classes),)) == (
        model.table.shape,
        model.bias.shape,
    )
    assert np.isfinite(model.table).all()
    assert np.isfinite(model.bias).all()
