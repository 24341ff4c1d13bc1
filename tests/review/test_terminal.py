"""The review in a terminal makes the same edits as the page, from typed lines."""

import io
from collections.abc import Iterator
from pathlib import Path

import pytest
from rich.console import Console

from saycheck.errors import ReviewError
from saycheck.page.terminal import Terminal
from saycheck.page.typed import patch_typed
from saycheck.standing import standing
from saycheck.vocabulary.load import load

from .conftest import png


def typed(folder: Path, *lines: str) -> str:
    """Type these lines one after the other, then end; what the terminal showed."""
    rest: Iterator[str] = iter(lines)

    def ask(_: str) -> str:
        try:
            return next(rest)
        except StopIteration:
            raise EOFError from None

    shown = io.StringIO()
    Terminal(folder, "Ann", Console(file=shown, width=80), ask).run()
    return shown.getvalue()


def at(folder: Path, words: str) -> list[str]:
    """The lines that lead to the entry whose heading holds these words, to decide or through the zones."""
    for begin in ([], ["z"]):
        for steps in range(20):
            lines = [*begin, *["n"] * steps]
            shown = typed(folder, *lines).split("\n\n")[-1]
            if words in shown.splitlines()[0]:
                return lines
    raise AssertionError(f"'{words}' is not there")


def test_all_is_decided_by_return(folder: Path) -> None:
    """Return takes each entry as it stands; the unclear passage must be decided, and a number settles it."""
    shown = typed(folder, *[""] * 30)
    assert "this must be decided; type the number of an answer" in shown
    shown = typed(folder, *["1", ""] * 20)
    assert "Reviewed. Nothing is left to decide." in shown
    assert standing(folder).reviewed


@pytest.mark.parametrize(
    ("line", "action"),
    [
        ("c state watch, condition damp, 3 mm", "change"),
        ("d another machine", "drop"),
        ("m 1", "merge"),
        ("a", "accept"),
    ],
)
def test_each_action(folder: Path, line: str, action: str) -> None:
    """The line makes one edit of that kind, signed, made in a terminal; u takes it back."""
    typed(folder, *at(folder, "lift cylinder —"), line)
    (edit,) = standing(folder).edits
    assert (action, "Ann", "terminal") == (edit.action, edit.who, edit.way)
    assert ["lift cylinder"] == [one.part for one in edit.before][:1]
    typed(folder, "u")
    assert standing(folder).heard.findings == standing(folder).walk.findings


def test_split_and_find(folder: Path) -> None:
    """A finding is split by two lines; words make a finding."""
    typed(folder, *at(folder, "lift cylinder —"), "s condition leak", "part bucket, condition worn, watch")
    typed(folder, *at(folder, "lift cylinder —"), "f look for cracks", "part bucket, write up, crack")
    split, added = standing(folder).edits
    assert ("split", 2) == (split.action, len(split.after))
    assert ("add", "look for cracks") == (added.action, added.after[0].heard_as)


def test_a_photograph_and_a_wrong_one(folder: Path, tmp_path: Path) -> None:
    """A picture is attached; a text that calls itself one is refused in a sentence."""
    (tmp_path / "a.png").write_bytes(png(4))
    (tmp_path / "b.png").write_text("<script>")
    way = at(folder, "lift cylinder —")
    assert "attached." in typed(folder, *way, f"p {tmp_path / 'a.png'}")
    assert "this is no photograph that can be kept" in typed(folder, *way, f"p {tmp_path / 'b.png'}")
    assert 1 == sum(len(files) for files in standing(folder).photos.values())


TYPED = [
    ("part bucket, side left", {"part": "bucket", "side": "left"}),
    ("Write up, bent", {"state": "writeup", "condition": "bent"}),
    ("tilt ram", {"part": "tilt cylinder"}),
    (
        "not, 1,5 mm ± 0.5",
        {
            "denied": True,
            "measurements": [{"value": 1.5, "unit": "mm", "plus_minus": 0.5, "unit_told": False}],
        },
    ),
    ("3", {"measurements": [{"value": 3.0, "unit": "", "plus_minus": 0.0, "unit_told": False}]}),
]


@pytest.mark.parametrize(("line", "patch"), TYPED)
def test_what_is_typed(line: str, patch: dict[str, object]) -> None:
    """Words between commas tell part, side, state, condition and numbers."""
    told = patch_typed(line, load("wheel-loader")).model_dump(exclude_none=True)
    assert patch == {name: value for name, value in told.items() if value != []}


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("", "nothing was typed; say it like: part bucket, state watch, condition worn, 12 mm"),
        ("state bad", "there is no state 'bad'; it is one of good, watch, write up, writeup, hidden, later"),
        (
            "part buckett",
            "there is no part 'buckett'; did you mean 'bucket'? `saycheck vocab show` lists them",
        ),
    ],
)
def test_what_cannot_be_typed(line: str, sentence: str) -> None:
    """It is refused in a sentence."""
    with pytest.raises(ReviewError) as caught:
        patch_typed(line, load("wheel-loader"))
    assert sentence == str(caught.value)
