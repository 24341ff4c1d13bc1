"""Every trained part without a writer: what ``bench/left_out.py`` scores by."""

from pathlib import Path

from left_out import half, scored
from narrations import TUNE, narrations
from saycheck.understanding import encoder
from saycheck.understanding.linear import STANDING_IN
from train_statements import left_out


def test_halves_are_whole_together() -> None:
    """Each narration is in one half, and neither half is that of a writer."""
    given = narrations(TUNE)[:12]
    odd, even = half(given, "odd"), half(given, "even")
    assert sorted(one.name for one in odd + even) == [one.name for one in given]
    assert half(given, None) == given
    assert {one.writer for one in odd} == {one.writer for one in even}


def test_who_was_not_left_out_is_passed_over(tmp_path: Path) -> None:
    """Where nothing was learned without a writer, nothing stands in and nothing is scored."""
    with left_out("w1", tmp_path) as there:
        assert not there
        assert not STANDING_IN
    assert [] == scored(narrations(TUNE, "w1-0"), tmp_path)
    assert not STANDING_IN
    assert not encoder.STANDING_IN
