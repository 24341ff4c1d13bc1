"""What is kept is kept whole."""

from pathlib import Path

import pytest

from saycheck.errors import EarError
from saycheck.hearing.language.cache import KEPT, kept


def make(folder: Path) -> None:
    (folder / "thing").write_text("made", encoding="utf-8")


def test_made_once(tmp_path: Path) -> None:
    """The second time it is taken from where it was put."""
    first = kept("language", "loader-1", make, tmp_path)

    def never(folder: Path) -> None:
        raise AssertionError("made again")

    assert first == kept("language", "loader-1", never, tmp_path)
    assert "made" == (first / "thing").read_text(encoding="utf-8")


def test_broken_off_leaves_nothing(tmp_path: Path) -> None:
    """Half a folder is never found by the next one."""

    def broken(folder: Path) -> None:
        (folder / "thing").write_text("ha", encoding="utf-8")
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        kept("language", "loader-1", broken, tmp_path)
    assert [] == list((tmp_path / "language").iterdir())


def test_disk_full(tmp_path: Path) -> None:
    """A disk that is full is told in one sentence."""

    def full(folder: Path) -> None:
        raise OSError(28, "No space left on device")

    with pytest.raises(EarError) as caught:
        kept("language", "loader-1", full, tmp_path)
    message = f"the cache folder '{tmp_path / 'language'}' cannot be written (No space left on device); free some space"
    assert message == str(caught.value)


def test_a_file_in_the_way(tmp_path: Path) -> None:
    """A cache folder that cannot be made is told in one sentence."""
    (tmp_path / "language").write_text("in the way", encoding="utf-8")
    with pytest.raises(EarError) as caught:
        kept("language", "loader-1", make, tmp_path)
    assert str(caught.value).startswith(f"the cache folder '{tmp_path / 'language'}' cannot be written (")


def test_old_ones_go(tmp_path: Path) -> None:
    """No more than a dozen are kept, the newest among them."""
    for number in range(KEPT + 3):
        kept("language", f"loader-{number}", make, tmp_path)
    left = {folder.name for folder in (tmp_path / "language").iterdir()}
    assert KEPT == len(left)
    assert f"loader-{KEPT + 2}" in left
