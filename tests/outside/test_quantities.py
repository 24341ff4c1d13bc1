"""Spoken quantities against public lists; ``bench/quantities.py`` prints the figures beside quantulum3."""

from collections.abc import Callable

from quantities import choose, judge, nemo, ours, quantulum


def test_quantities(outside: Callable[[str], str]) -> None:
    """Source: NeMo's spoken measures and quantulum3's test sentences; value and unit right in 0.97."""
    outside("nemo-itn-measure.txt")
    outside("quantulum3-quantities.json")
    given = choose(nemo())[0] + choose(quantulum())[0]
    assert len(given) >= 80

    figures, wrong = judge(given, ours())

    assert figures["share"] >= 0.97, wrong
    assert figures["extra"] == 0
