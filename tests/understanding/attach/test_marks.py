"""Hidden, put off, watched, written up, absent."""

from collections.abc import Callable

import pytest

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Can't see the articulation joint for mud.", ("articulation joint", "none", "hidden", "hidden")),
        ("Radiator grille is packed with mud.", ("radiator grille", "none", "hidden", "hidden")),
        ("I couldn't get at the valve bank.", ("valve bank", "none", "hidden", "hidden")),
        ("I'll do the horn later.", ("horn", "none", "later", "later")),
        ("Horn later, when she's running.", ("horn", "none", "later", "later")),
        ("Keep an eye on the fan belt.", ("fan belt", "none", "watch", "watch")),
        ("Fan belt is slack, keep an eye on it.", ("fan belt", "none", "watch", "play")),
        ("Fan belt is slack. Write that up.", ("fan belt", "none", "writeup", "play")),
        ("Tilt cylinder weeping, will do for now.", ("tilt cylinder", "none", "watch", "leak")),
        ("No fire extinguisher.", ("fire extinguisher", "none", "writeup", "missing")),
        ("There's no fire extinguisher.", ("fire extinguisher", "none", "writeup", "missing")),
        ("Horn doesn't work.", ("horn", "none", "writeup", "inoperative")),
    ],
)
def test_marks(ruled: Rows, text: str, expected: Row) -> None:
    """Hidden, put off, watched, written up, absent: what the walker says of it, in one sentence or two."""
    assert [expected] == ruled(text)
