"""Denials against an annotated set from medicine; ``bench/denial.py`` prints the figures beside others."""

from collections.abc import Callable

from denial import annotated, judge, ours


def test_denials(outside: Callable[[str], str]) -> None:
    """Source: NegEx annotations (Chapman et al. 2001), 1,200 hospital sentences; F1 0.95 or better."""
    outside("negex-annotations.txt")
    sentences = list(annotated())
    assert len(sentences) == 1200

    result, _ = judge(sentences, ours(sorted({one.term for one in sentences})))

    assert result.figures[2] >= 0.95
