"""Weights of ``agreement``, made by ``bench/train_agreement.py``; not written by hand."""

SECOND_IS_RIGHT = (
    -0.4, 0.0, 0.4, 0.0, 0.3, 0.0, 0.0, 0.0, 0.0, 0.0, -0.2, 0.2, 0.0, 0.0, 0.0,
)  # fmt: skip
AGREED = (0.3, 0.3, 0.3, 1.0)
CHOSEN = (0.5, 0.5, 0.0, 0.0)
