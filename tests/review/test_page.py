"""A person with a browser reviews a walk by keys alone; every key does what the page says it does."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from saycheck.models.walk import Walk
from saycheck.models.wishes import Wish
from saycheck.standing import apply, standing

from .browser import CHROMIUM, Server, needs_browser, served
from .conftest import lay, part

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = needs_browser


@pytest.fixture(scope="module")
def browser() -> Iterator["Browser"]:
    """Debian's Chromium."""
    playwright = pytest.importorskip("playwright.sync_api")
    with playwright.sync_playwright() as started:
        opened = started.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield opened
        opened.close()


@pytest.fixture
def server(spoken_folder: Path) -> Iterator[Server]:
    """The spoken walk, served."""
    with served(spoken_folder) as running:
        yield running


def opened(browser: "Browser", link: str, **context: object) -> "Page":
    """The page behind a link, ready, in a browser of its own; an error in the page is printed."""
    page = browser.new_context(**context).new_page()  # type: ignore[arg-type]
    page.on("pageerror", lambda error: print(f"the page says: {error}"))  # noqa: T201
    page.goto(link)
    page.wait_for_selector("html[data-ready]")
    return page


@pytest.fixture
def page(browser: "Browser", server: Server) -> Iterator["Page"]:
    """The page."""
    opened_page = opened(browser, server.link, viewport={"width": 1280, "height": 800})
    yield opened_page
    opened_page.context.close()


def here(page: "Page") -> str:
    """The heading of the entry one is at."""
    return page.locator(".entry.current h3").inner_text().replace("\n", " ").strip()


def go_to(page: "Page", words: str) -> None:
    """Walk down by key until a finding whose heading holds these words."""
    for _ in range(60):
        if words in here(page) and page.locator(".entry.current").get_attribute("data-finding"):
            return
        page.keyboard.press("ArrowDown")
    raise AssertionError(f"'{words}' was not come to")


def edited(page: "Page", words: str) -> None:
    """Wait until the page says that something was done."""
    page.wait_for_function("words => document.getElementById('told').textContent.includes(words)", arg=words)


def test_the_first_to_decide_is_open(page: "Page") -> None:
    """The page opens at what needs deciding, with the focus on it and what can be done."""
    assert "To decide" in page.locator("section:has(.entry.current) h2").inner_text()
    assert page.evaluate("document.activeElement.classList.contains('current')")
    assert page.locator(".entry.current button:visible").count() > 1


def test_accept(page: "Page", spoken_folder: Path) -> None:
    """Enter accepts what stands; the edit is on the disk and the next entry is open."""
    go_to(page, "lift cylinder")
    page.keyboard.press("Enter")
    edited(page, "Ann accepted")
    (edit,) = standing(spoken_folder).edits
    assert ("accept", "Ann", "page") == (edit.action, edit.who, edit.way)
    assert page.evaluate("document.activeElement.classList.contains('entry')")


def test_change_by_type_ahead(page: "Page", spoken_folder: Path) -> None:
    """c opens the form; a part is found by what the trade calls it, side and state by the arrows."""
    go_to(page, "lift cylinder")
    page.keyboard.press("c")
    page.wait_for_selector("form.edit [name=part]:focus")
    page.keyboard.type("tilt ram")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    assert "tilt cylinder" == page.locator("form.edit [name=part]").input_value()
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowRight")  # from left to right
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowLeft")  # from write up to watch
    page.keyboard.press("Tab")
    page.keyboard.type("weeping")
    page.keyboard.press("Enter")
    edited(page, "Ann changed")
    (edit,) = standing(spoken_folder).edits
    (now,) = edit.after
    assert ("tilt cylinder", "right", "watch", "weeping") == (now.part, now.side, now.state, now.condition)
    assert "lift cylinder" == edit.before[0].part


def test_take_off_with_a_reason_and_undo(page: "Page", spoken_folder: Path) -> None:
    """d and a number take a finding off with a reason; u brings it back, U takes it off again."""
    count = len(standing(spoken_folder).walk.findings)
    go_to(page, "lift cylinder")
    page.keyboard.press("d")
    page.wait_for_selector("form.drop")
    page.keyboard.press("2")
    edited(page, "Ann took off")
    there = standing(spoken_folder)
    assert ("another machine", count - 1) == (there.edits[0].reason, len(there.walk.findings))
    page.keyboard.press("u")
    edited(page, "Ann undid")
    assert count == len(standing(spoken_folder).walk.findings)
    page.keyboard.press("U")
    edited(page, "Ann redid")
    assert count - 1 == len(standing(spoken_folder).walk.findings)


def test_split_and_join(page: "Page", spoken_folder: Path) -> None:
    """s makes two of one, m makes one of two."""
    count = len(standing(spoken_folder).walk.findings)
    go_to(page, "bucket")
    page.keyboard.press("s")
    page.wait_for_selector("form.edit .piece + .piece")
    second = page.locator("form.edit .piece").nth(1)
    second.locator("[name=part]").focus()
    page.keyboard.type("cutting edge")
    second.locator("[name=condition]").focus()
    page.keyboard.type("worn")
    page.keyboard.press("Enter")
    edited(page, "Ann split")
    assert count + 1 == len(standing(spoken_folder).walk.findings)
    go_to(page, "bucket")
    page.keyboard.press("m")
    page.wait_for_selector("form.join button[data-number-key]")
    page.keyboard.press("1")
    edited(page, "Ann joined")
    assert count == len(standing(spoken_folder).walk.findings)


def test_a_finding_of_the_words(page: "Page", spoken_folder: Path) -> None:
    """w goes to the words; marked with Shift and the arrows they become a finding on Enter."""
    page.keyboard.press("w")
    page.wait_for_selector(".words:focus")
    for key in ["ArrowLeft"] * 80 + [
        "ArrowRight"
    ] * 160:  # before or behind the words of the entry one was at
        if "cracks" in page.evaluate("getSelection().toString()"):
            break
        page.keyboard.press(key)
    page.keyboard.press("Shift+ArrowRight")
    page.wait_for_selector("#marked:not([hidden])")
    page.keyboard.press("Enter")
    page.wait_for_selector("#words + form, .words + form")
    page.locator("form [name=part]").fill("bucket")
    page.keyboard.press("Tab")
    page.locator("form .pick[data-name=state] input[value=watch]").check()
    page.keyboard.press("Enter")
    edited(page, "Ann added")
    (made,) = standing(spoken_folder).edits[-1].after
    assert ("bucket", "watch", "cracks there.") == (made.part, made.state, made.heard_as)


def test_the_two_seconds_play(page: "Page") -> None:
    """Space plays the seconds of the entry and no more."""
    go_to(page, "lift cylinder")
    page.keyboard.press(" ")
    page.wait_for_function("() => document.getElementById('player').duration > 0")
    assert 2 <= page.evaluate("document.getElementById('player').duration") < 4
    assert page.evaluate("document.getElementById('player').error") is None


def test_two_browsers(browser: "Browser", server: Server, page: "Page", spoken_folder: Path) -> None:
    """The later sees the earlier's edit and is told; edits of the same finding both count and both stay."""
    other = opened(browser, server.next_link())
    other.locator("#who").fill("Ben")
    other.locator("#who").press("Enter")
    go_to(page, "lift cylinder")
    go_to(other, "lift cylinder")
    page.keyboard.press("d")
    page.wait_for_selector("form.drop")
    page.keyboard.press("1")
    edited(page, "Ann took off")
    edited(other, "Ann took off")
    other.keyboard.press("u")
    edited(other, "Ben undid")
    edited(page, "Ben undid: Ann took off")
    assert ["Ann", "Ben"] == standing(spoken_folder).by


def test_what_others_did_to_the_same_is_told(
    browser: "Browser", server: Server, page: "Page", spoken_folder: Path
) -> None:
    """Who changes what another has just changed is told so, and both edits are kept."""
    other = opened(browser, server.next_link())
    other.locator("#who").fill("Ben")
    other.locator("#who").press("Enter")
    for one in (page, other):
        one.evaluate(
            "document.hidden || Object.defineProperty(document, 'hidden', {value: true})"
        )  # no polling
        go_to(one, "lift cylinder")
    page.keyboard.press("Enter")
    edited(page, "Ann accepted")
    other.keyboard.press("d")
    other.wait_for_selector("form.drop")
    other.keyboard.press("3")
    edited(other, "just before you; yours stands now, and undo brings theirs back")
    assert ["accept", "drop"] == [edit.action for edit in standing(spoken_folder).edits]


def test_a_photograph(page: "Page", spoken_folder: Path) -> None:
    """A photograph that is chosen lies in the walk folder and stands on the page; it can be taken off."""
    page.on("filechooser", lambda _: None)  # from here on the browser hands choosers to the test
    go_to(page, "lift cylinder")
    with page.expect_file_chooser() as chosen:
        page.keyboard.press("p")
    picture = page.screenshot(type="jpeg")
    chosen.value.set_files({"name": "../../evil.jpg", "mimeType": "image/jpeg", "buffer": picture})
    edited(page, "Ann added a photograph")
    (kept,) = (spoken_folder / "photos").iterdir()
    assert picture == kept.read_bytes()
    page.wait_for_function("() => document.querySelector('.photos img').naturalWidth > 0")
    page.locator("[data-photo-off]").click()
    edited(page, "Ann took a photograph off")
    assert {} == standing(spoken_folder).photos


SHOWN = """() => {
  const told = (node) => {
    const copy = node.cloneNode(true);
    for (const open of copy.querySelectorAll(".place > *, [data-do]")) open.remove();
    const kind = (copy.getAttribute("class") ?? "").replace(/ current| here/g, "");
    return [copy.id, kind, copy.textContent.trim(), copy.getAttribute("x")];
  };
  const of = (place) => [...place.querySelectorAll("h2, .entry, .words, .words > span, rect, .zone")].map(told);
  const marks = of(document.getElementById("strip-marks")).sort();
  const others = document.querySelectorAll("header h1, main .part:not([hidden]), #words, #strip-zones");
  return [marks, ...[...others].map((one) => [one.id, of(one)])];
}"""
"""What a person sees, without what is open at the moment."""


def test_the_page_stays_as_a_new_one_would_be(page: "Page", spoken_folder: Path) -> None:
    """After forty keys and another person's edits, in a zone of their own too, no trace of before is left."""
    keys = ["Enter", "Enter", "d", "2", "ArrowDown", "Enter", "u", "u", "U", "End"]
    for key in [*keys * 3, *"uuuuUUuuuu"]:
        page.keyboard.press(key)
        page.wait_for_timeout(60)
    strange = {"action": "add", "patches": [{"part": "bell", "state": "good", "zone": "roof"}]}
    for wish in (strange, {"action": "undo"}, {"action": "redo"}):
        apply(spoken_folder, Wish.model_validate(wish | {"who": "Ben"}))
        with page.expect_response("**/changes?*"):
            page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
        page.wait_for_timeout(200)
        other = page.context.new_page()
        other.goto(page.url)
        other.wait_for_selector("html[data-ready]")
        assert other.evaluate(SHOWN) == page.evaluate(SHOWN)
        other.close()
    assert len(standing(spoken_folder).edits) > 12
    assert ["roof"] == page.locator("h2 .name", has_text="roof").all_inner_texts()


def test_heard_again_while_the_page_is_open(page: "Page", spoken_folder: Path, spoken: Walk) -> None:
    """The page begins anew with what is heard now; while someone writes it says so and waits."""
    gone = part(spoken, "lift cylinder")
    others = [one for one in spoken.findings if one is not gone]
    go_to(page, "lift cylinder")
    page.keyboard.press("c")
    page.wait_for_selector("form.edit [name=part]:focus")
    lay(spoken_folder, spoken.model_copy(update={"findings": others}))
    edited(page, "The walk was heard again meanwhile")
    assert page.locator("form.edit [name=part]").is_visible()
    page.keyboard.press("Escape")
    page.keyboard.press("Escape")
    page.wait_for_function("id => !document.getElementById(id)", arg=f"f-{gone.id}")
    page.wait_for_selector("html[data-ready]")
    assert len(others) == page.locator(".entry.kind-finding").count()


def test_on_a_phone(browser: "Browser", server: Server) -> None:
    """At phone width nothing runs out of the page, and every target is large enough for a cold finger."""
    phone = opened(
        browser, server.link, viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True
    )
    go_to(phone, "lift cylinder")
    assert phone.evaluate("document.documentElement.scrollWidth") <= 360
    sizes = phone.locator(".entry.current .actions button").evaluate_all(
        "list => list.map(one => one.getBoundingClientRect()).map(({width, height}) => [width, height])"
    )
    assert len(sizes) > 4
    assert [] == [size for size in sizes if min(size) < 44]  # WCAG 2.2, 2.5.5: 44 by 44 CSS pixels
    phone.locator(".entry.current [data-do=accept]").tap()
    edited(phone, "Ann accepted")
