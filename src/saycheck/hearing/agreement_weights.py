"""Weights of ``agreement``, made by ``bench/train_agreement.py``; not written by hand."""

SECOND_IS_RIGHT = (
    -0.9566,
    0.3497,
    0.2389,
    0.1268,
    0.1154,
    -0.2241,
    0.1438,
    -0.7980,
    0.2371,
    -0.3859,
    -0.4028,
    -1.0634,
    0.0640,
    0.9383,
)
AGREED = (
    0.3251,
    0.2955,
    0.2463,
    1.6250,
)
CHOSEN = (
    0.4048,
    0.5563,
    0.0838,
    0.3549,
    -0.9522,
)
