"""The write-up as a page, read by Python's own HTML parser."""

import shutil
from collections.abc import Callable
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest

from saycheck.models.walk import Walk
from saycheck.reporting.writeup.compose import compose
from saycheck.reporting.writeup.given import Given
from saycheck.reporting.writeup.html import as_html

from .conftest import Make
from .hostile import HOSTILE, hostile_walk

CHROMIUM = shutil.which("chromium")
EMPTY = {"meta", "img", "br", "line", "polyline", "circle", "rect"}


class Reader(HTMLParser):
    """Collects tags and attributes, and sees to it that what is opened is closed in order."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in EMPTY:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag not in EMPTY:
            assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if "style" not in self.open:
            self.words.append(data)


def read(page: str) -> Reader:
    """The page as read to its end."""
    reader = Reader()
    reader.feed(page)
    reader.close()
    assert [] == reader.open
    return reader


def page_of(given: Given) -> str:
    """The page of what is given."""
    return as_html(compose(given), given.pictures)


def test_it_says_the_same_as_the_paper(given: Given) -> None:
    """Words said, limit, verdict, choices, warning and digests are there."""
    text = " ".join(" ".join(read(page_of(given)).words).split())
    for words in (
        "Not reviewed: nobody has checked", "tipper nine", "“Left front tyre has a cut in the sidewall”",
        "at least 4.8 mm", "beyond the limit", "not at all", "5" * 64,
    ):  # fmt: skip
        assert words in text, words


def test_nothing_from_outside(given: Given) -> None:
    """No address but data in the page itself, no script, and the page forbids the rest to the browser."""
    tags = read(page_of(given)).tags
    addresses = [
        value or "" for _, attributes in tags for name, value in attributes.items() if name in ("src", "href")
    ]
    assert [] == [address for address in addresses if not address.startswith("data:image/")]
    assert "script" not in {tag for tag, _ in tags}
    (policy,) = [one["content"] for tag, one in tags if one.get("http-equiv") == "Content-Security-Policy"]
    assert "default-src 'none'; style-src 'unsafe-inline'; img-src data:" == policy


def test_its_heads_and_language(given: Given) -> None:
    """One heading of the first level, the language named, a title."""
    tags = read(page_of(given)).tags
    assert 1 == sum(tag == "h1" for tag, _ in tags)
    assert ("html", {"lang": "en"}) in tags
    assert 1 == sum(tag == "title" for tag, _ in tags)
    levels = [int(tag[1]) for tag, _ in tags if tag[0] == "h" and tag[1:].isdigit()]
    assert all(after <= before + 1 for before, after in pairwise(levels))


@pytest.mark.skipif(CHROMIUM is None, reason="no chromium here; Debian: apt install chromium")
def test_it_can_be_read_by_everyone(given: Given, tmp_path: Path) -> None:
    """Axe, a checker of the W3C's accessibility guidelines (WCAG), finds nothing, and nothing runs off a phone."""
    from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
    from playwright.sync_api import sync_playwright

    (tmp_path / "page.html").write_text(page_of(given), encoding="utf-8")
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_context(bypass_csp=True, viewport={"width": 360, "height": 740}).new_page()
        page.goto((tmp_path / "page.html").as_uri())
        found = Axe().run(page).response["violations"]
        width = page.evaluate("document.documentElement.scrollWidth")
        browser.close()
    assert [] == [f"{one['id']}: {one['help']}" for one in found]
    assert width <= 360


@pytest.mark.parametrize("words", HOSTILE)
def test_nothing_said_becomes_markup(make_given: Make, make_walk: Callable[..., Walk], words: str) -> None:
    """The tags and attributes are those of plain words, whatever was said; the words are all there."""
    plain = read(page_of(make_given(hostile_walk(make_walk, "word"))))
    hostile = read(page_of(make_given(hostile_walk(make_walk, words))))
    shape = [(tag, sorted(attributes)) for tag, attributes in plain.tags]
    assert shape == [(tag, sorted(attributes)) for tag, attributes in hostile.tags]
    shown = "".join(letter for letter in words if letter.isprintable()).replace(" ", "")
    assert shown[:100] in "".join("".join(hostile.words).split())
