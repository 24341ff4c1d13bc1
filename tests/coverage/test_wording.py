"""How parts are named in questions."""

import pytest

from saycheck.coverage.wording import called, clock, is_or_are, listed, one_each, quoted, said, slug
from saycheck.models.walk import Side

from .conftest import Say


@pytest.mark.parametrize(
    ("side", "name"),
    [("left", "left tyre"), ("right", "right tyre"), ("both", "left and right tyre"), ("none", "tyre")],
)
def test_called(side: Side, name: str) -> None:
    """The side stands before the part."""
    assert name == called("tyre", side)


@pytest.mark.parametrize(
    ("names", "text"),
    [
        ([], ""),
        (["horn"], "horn"),
        (["horn", "seat"], "horn and seat"),
        (["horn", "seat", "radio"], "horn, seat and radio"),
        (["a", "b", "c", "d"], "a, b and 2 more"),
    ],
)
def test_listed(names: list[str], text: str) -> None:
    """Names stand in a row, and where there are too many the rest is counted; never "and 1 more"."""
    assert text == listed(names, most=2)


@pytest.mark.parametrize(
    ("part", "verb"), [("cutting edge", "is"), ("forks", "are"), ("bucket teeth", "are"), ("cab glass", "is")]
)
def test_verb(part: str, verb: str) -> None:
    """The verb goes with the number of the part."""
    assert verb == is_or_are(part)


def test_one_each() -> None:
    """Left and right of a part stand together, in the order of the walk."""
    names: list[tuple[str, Side]] = [("tyre", "left"), ("seat", "none"), ("tyre", "right"), ("step", "right")]

    assert ["left and right tyre", "seat", "right step"] == one_each(names)


def test_quoted() -> None:
    """Long passages are cut."""
    assert "“one two …”" == quoted("one two three", 2)
    assert "“one two”" == quoted("one two", 2)


@pytest.mark.parametrize(("seconds", "text"), [(5.9, "0:05"), (125.0, "2:05"), (3600.0, "60:00")])
def test_clock(seconds: float, text: str) -> None:
    """Places in the recording are minutes and seconds."""
    assert text == clock(seconds)


def test_slug() -> None:
    """Ids hold words and hyphens only."""
    assert "skipped-operator's-place" == slug("skipped", "operator's place", None)


@pytest.mark.parametrize(("text", "words"), [("bucket is cracked", "bucket"), ("", "the bucket")])
def test_said(say: Say, text: str, words: str) -> None:
    """A finding's words come from the transcript, else from what its part was called."""
    found = say("bucket", heard_as="the bucket", evidence=[{"char_start": 0, "char_end": 6}])

    assert words == said(found, text)
