"""The tornado plot."""

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from saycheck.errors import SumError
from saycheck.sums.reading import Reading
from saycheck.sums.tornado import draw, picture_form, sketch
from saycheck.sums.waiting import Job, Waiting, now_or_later


@pytest.fixture
def hose() -> Waiting:
    """A hose in autumn."""
    return now_or_later(
        now=Job(1200, 4),
        later=Job(1200),
        failed=Job(Reading(4000, 1000), Reading(24, 8)),
        crew_per_h=Reading(180, 20),
        machine_per_h=120,
        chance=Reading(0.15, 0.05),
        period="spring",
        money="CAD",
    )


def test_sketch(hose: Waiting) -> None:
    """The longest bar on top, the line of nothing between, guessed rows marked, no line over 80 columns."""
    assert [
        "chance of failure                ██████████████████████████████████",
        "hours down after a failure            ████████████████████████",
        "parts and labour now *                  ████████████████████",
        "hours down now *                        ████████████████████",
        "parts and labour later *                │██████████████████",
        "parts and labour after a failure        │    ██████████",
        "idle machine an hour *                  │        ██",
        "idle crew an hour                       │        ██",
        "                                 −200                           800",
        "waiting costs less than now │ more (CAD); * taken as ±25 %",
    ] == sketch(hose).splitlines()
    assert all(len(line) <= 80 for line in sketch(hose).splitlines())


def test_picture_says_every_row(hose: Waiting) -> None:
    """Every row's name and both its ends can be read in the SVG, and it is the same each time."""
    pytest.importorskip("matplotlib")
    picture = draw(hose, "svg", "Hose of loader seven")
    words = [
        "".join(text.itertext()).strip()
        for text in ET.fromstring(picture).iter("{http://www.w3.org/2000/svg}text")
    ]
    assert {row.name for row in hose.rows} <= set(words)
    assert {"10 %", "20 %", "16", "32", "900", "1,500", "Hose of loader seven"} <= set(words)
    assert "waiting is cheaper" in words
    assert picture == draw(hose, "svg", "Hose of loader seven")


def test_picture_as_png(hose: Waiting) -> None:
    """A PNG by its first bytes."""
    pytest.importorskip("matplotlib")
    assert draw(hose, "png").startswith(b"\x89PNG\r\n\x1a\n")


def test_form_by_name() -> None:
    """The name of the file says which picture is wanted; another name is refused."""
    assert ("svg", "png") == (picture_form(Path("a.svg")), picture_form(Path("A.PNG")))
    with pytest.raises(SumError) as told:
        picture_form(Path("a.doc"))
    assert "'a.doc' is no picture that can be drawn; end its name in .svg or .png" == str(told.value)
