"""The write-up on paper, opened by poppler and by pikepdf."""

import re
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import pikepdf
import pytest

from saycheck.models.walk import Walk
from saycheck.reporting.writeup.compose import compose
from saycheck.reporting.writeup.given import Given
from saycheck.reporting.writeup.pdf import Paper, as_pdf
from saycheck.vocabulary.load import kinds, load
from writeup import walk_of

from .conftest import MADE, Make
from .hostile import HOSTILE, hostile_walk
from .paper import boxes, opened, pages, tags
from .pictures_made import jpeg

SIZES = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}


def pdf_of(given: Given, paper: Paper = "a4") -> bytes:
    """The PDF of what is given."""
    return as_pdf(compose(given), given.made, given.pictures, paper)


def test_what_stands_on_it(given: Given) -> None:
    """Unit, hours, when, weather, words said, limit, verdict, source, choices and digests are there."""
    text = " ".join(pages(pdf_of(given)))
    for words in (
        "tipper nine", "road truck", "4,812 h", "2025-03-09 06:40", "“Cold morning, minus four.”",
        "“Left front tyre has a cut in the sidewall”", "3.2 ± 0.05 mm", "at least 4.8 mm", "beyond the limit",
        "49 CFR 393.47(d)(1) as restated", "now later not at all", "Never open it hot.",
        "“I can't see the frame for the mud”", "“Battery later, when it is warm”", "builtin and trade ears",
        "41 s of 2 min 51 s of speech could not be trusted: wind", "5" * 64, "7" * 64,
    ):  # fmt: skip
        assert words in text, words


def test_the_order(given: Given) -> None:
    """What is urgent and can injure stands first, sections in the order in which the owner needs them."""
    text = " ".join(pages(pdf_of(given)))
    wanted = [
        "To decide", "Before it goes to work", "left steer tyre: cut", "This week", "radiator: blocked", "To watch",
        "fan belt: worn", "Could not be seen", "Put off", "Not mentioned", "Open questions", "Not understood",
        "Take care", "How this was made", "The whole checklist",
    ]  # fmt: skip
    places = [text.find(words) for words in wanted]
    assert sorted(places) == places
    assert -1 not in places


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_paper(given: Given, paper: Paper) -> None:
    """Every page has the size of its paper (ISO 216 A4, ANSI Letter), in points."""
    with opened(pdf_of(given, paper)) as pdf:
        sizes = {tuple(round(float(side), 2) for side in page.mediabox[2:]) for page in pdf.pages}
    assert {SIZES[paper]} == sizes


def test_tags(given: Given) -> None:
    """It is tagged as PDF/UA-1 (ISO 14289-1) asks: marked, titled, in English, headings that skip no level."""
    with opened(pdf_of(given)) as pdf:
        found = tags(pdf)
        assert pdf.Root["/MarkInfo"]["/Marked"]
        assert pdf.Root["/ViewerPreferences"]["/DisplayDocTitle"]
        assert str(pdf.Root["/Lang"]).startswith("en")
        with pdf.open_metadata() as metadata:
            assert "1" == metadata["pdfuaid:part"]
            assert "tipper nine" in metadata["dc:title"]
    levels = [int(name[1]) for name, _ in found if re.fullmatch(r"H\d", name)]
    assert 1 == levels[0]
    assert 1 == levels.count(1)
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_every_page_is_tagged(given: Given) -> None:
    """No page is left out of the structure."""
    with opened(pdf_of(given)) as pdf:
        assert all("/StructParents" in page for page in pdf.pages)


def test_photographs(given: Given) -> None:
    """A photograph is in the PDF as a figure that says in words what it shows."""
    standing = given.standing.model_copy(update={"photos": {"f1": ["a.jpg"]}})
    with opened(pdf_of(replace(given, standing=standing, pictures={"a.jpg": jpeg()}))) as pdf:
        figures = [alt for name, alt in tags(pdf) if name == "Figure"]
        images = [
            one
            for page in pdf.pages
            for one in page.resources.get("/XObject", pikepdf.Dictionary()).values()
            if one.get("/Subtype") == "/Image"
        ]
    assert ["photograph of radiator: blocked"] == figures
    assert 1 == len(images)


def test_not_reviewed_stands_on_every_page(given: Given) -> None:
    """A walk that nobody reviewed says so at the top of every page, before anything else on the first."""
    texts = pages(pdf_of(given))
    wanted = "Not reviewed: nobody has checked what was heard and 1 question is open."
    assert len(texts) > 2
    assert [] == [text for text in texts if text.count(wanted) != 1]
    assert texts[0].startswith(wanted)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_warning_is_at_the_top(given: Given, paper: Paper) -> None:
    """It stands in the upper eighth of every page."""
    tops = [
        y1 / height for _, y1, _, _, _, height, word in boxes(pdf_of(given, paper)) if word == "reviewed:"
    ]
    assert tops
    assert max(tops) < 1 / 8


def test_a_review_that_is_not_finished_says_so(given: Given) -> None:
    """What is left to be looked at and asked is counted on every page."""
    standing = given.standing.model_copy(
        update={"by": ["A. Brandt"], "reviewed_share": 0.5, "open_findings": ["f4"]}
    )
    for text in pages(pdf_of(replace(given, standing=standing))):
        assert (
            "Review not finished: 1 finding and 1 passage still to be looked at and 1 question is open."
            in text
        )


def test_open_questions_alone_are_told(given: Given) -> None:
    """All findings looked at and a question open: every page says that."""
    standing = given.standing.model_copy(update={"by": ["A. Brandt"], "reviewed_share": 1.0})
    assert all(
        "Open questions: 1 question is open." in text
        for text in pages(pdf_of(replace(given, standing=standing)))
    )


def test_a_reviewed_walk_has_no_warning(reviewed: Given) -> None:
    """Who reviewed it is named, and no page carries a warning."""
    text = " ".join(pages(pdf_of(reviewed)))
    assert "by A. Brandt; 100 % of what needed a look has had it" in text
    assert not re.search(r"Not reviewed|not finished|is open|are open", text)


def test_a_hundred_findings(make_given: Make) -> None:
    """Each of a hundred findings is there with its words, the checklist still on one page."""
    walk = walk_of(100)
    texts = pages(pdf_of(make_given(walk)))
    text = " ".join(texts)
    for one in walk.findings:
        at = one.evidence[0]
        assert walk.transcript.text[at.char_start : at.char_end] in text
    assert 1 == sum("The whole checklist" in page for page in texts)


def test_nothing_heard(make_given: Make, make_walk: Callable[..., Walk]) -> None:
    """An empty walk makes a write-up that says nothing was heard and does not call the machine fine."""
    walk = make_walk("", unit=None, transcript={"text": "", "words": []}, machine={"kind": "wheel-loader"})
    text = " ".join(pages(pdf_of(make_given(walk))))
    assert "Unit not named" in text
    assert "Nothing to write up was heard. That does not say that all is well" in text
    assert "not read" in text


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("kind", kinds())
def test_the_checklist_is_on_one_page(
    make_given: Make, make_walk: Callable[..., Walk], kind: str, paper: Paper
) -> None:
    """Whatever the machine, all lines of its checklist stand on one page of their own, readable."""
    from saycheck.coverage.checklist import checklist

    walk = make_walk("", machine={"kind": kind}, checklist=checklist(load(kind), []), findings=[])
    pdf = pdf_of(make_given(walk), paper)
    (page,) = (text for text in pages(pdf) if "The whole checklist" in text)
    missing = [line.part for line in walk.checklist if line.part not in page]
    assert [] == missing
    assert len(walk.checklist) == page.count("unsaid")
    heights = [y2 - y1 for _, y1, _, y2, _, _, word in boxes(pdf) if word == "unsaid"]
    assert min(heights) > 5.5


@pytest.mark.parametrize("words", HOSTILE)
def test_nothing_said_can_set_anything(make_given: Make, make_walk: Callable[..., Walk], words: str) -> None:
    """Marks of typst, HTML and others in every text of a walk are letters on the page, and stay on it."""
    pdf = pdf_of(make_given(hostile_walk(make_walk, words)))
    text = "".join(pages(pdf)).replace(" ", "")
    shown = "".join("\ufffd" if letter in "中文" else letter for letter in words if letter.isprintable())
    if shown.isascii():  # what is not may be shaped or turned round by the reader
        assert shown.replace(" ", "") in text
    outside = [box for box in boxes(pdf) if box[0] < 0 or box[2] > box[4] or box[1] < 0 or box[3] > box[5]]
    assert [] == outside


def test_letters_that_no_font_has(make_given: Make, make_walk: Callable[..., Walk]) -> None:
    """They are shown as the sign for an unknown letter, the rest of the words as it was."""
    text = " ".join(pages(pdf_of(make_given(hostile_walk(make_walk, "Čapek 中文 ζ")))))
    assert "Čapek \ufffd\ufffd ζ" in text


def test_the_same_twice(given: Given) -> None:
    """The same walk at the same time gives the same bytes, so that a digest proves something."""
    assert pdf_of(given) == pdf_of(given)


def test_when_it_was_made(given: Given) -> None:
    """The date in the PDF is the one given, not that of the machine."""
    with opened(pdf_of(given)) as pdf:
        assert str(pdf.docinfo["/CreationDate"]).startswith(MADE.strftime("D:%Y%m%d%H%M"))
