"""No accessibility violations by axe-core, in every state of the page, by day, by night and for the sun."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from .browser import CHROMIUM, needs_browser, served
from .conftest import png

if TYPE_CHECKING:
    from playwright.sync_api import Browser, FileChooser, FilePayload, Page

pytestmark = needs_browser
PICTURE: "FilePayload" = {"name": "a.png", "mimeType": "image/png", "buffer": png(1)}


@pytest.fixture(scope="module")
def browser() -> Iterator["Browser"]:
    """Debian's Chromium."""
    playwright = pytest.importorskip("playwright.sync_api")
    with playwright.sync_playwright() as started:
        opened = started.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield opened
        opened.close()


def violations(page: "Page") -> list[str]:
    """What axe-core finds, each with the first element that it is about."""
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    found = axe.run(page).response["violations"]
    return [
        f"{one['id']}: {one['nodes'][0]['html'][:160]} {one['nodes'][0]['failureSummary'][-160:]}"
        for one in found
    ]


@pytest.mark.parametrize("width", [1400, 390])
@pytest.mark.parametrize("look", ["light", "dark", "sun"])
def test_no_violations(browser: "Browser", spoken_folder: Path, look: str, width: int) -> None:
    """The page as it opens, with a form, with a list of names, with marked words and with the keys shown."""
    with served(spoken_folder) as server:
        page = browser.new_context(viewport={"width": width, "height": 900}, bypass_csp=True).new_page()
        page.add_init_script(f"localStorage.setItem('look', '{look}')")
        page.goto(server.link)
        page.wait_for_selector("html[data-ready]")
        assert [] == violations(page)
        page.locator(".entry.kind-finding").first.focus()
        page.keyboard.press("c")
        page.wait_for_selector("form.edit")
        page.keyboard.type("cyl")
        page.wait_for_selector("[role=option]")
        page.keyboard.press("ArrowDown")
        assert [] == violations(page)
        page.keyboard.press("Escape")
        page.keyboard.press("Escape")
        page.keyboard.press("w")
        page.wait_for_selector("#marked:not([hidden])")
        assert [] == violations(page)
        page.keyboard.press("Escape")
        page.keyboard.press("?")
        page.wait_for_selector("dialog[open]")
        assert [] == violations(page)
        page.context.close()


@pytest.mark.parametrize("width", [1400, 390])
@pytest.mark.parametrize("look", ["light", "dark", "sun"])
def test_no_violations_while_it_is_worked_on(
    browser: "Browser", spoken_folder: Path, look: str, width: int
) -> None:
    """With the reasons, the findings to join, what was taken off, a photograph, parts one by one, and at the end."""
    with served(spoken_folder) as server:
        page = browser.new_context(viewport={"width": width, "height": 900}, bypass_csp=True).new_page()

        def choose(chooser: "FileChooser") -> None:
            chooser.set_files(PICTURE)

        page.on("filechooser", choose)
        page.add_init_script(f"localStorage.setItem('look', '{look}')")
        page.goto(server.link)
        page.wait_for_selector("html[data-ready]")
        for key, opened in (("m", "form.join button[data-number-key]"), ("d", "form.drop")):
            page.locator(".entry.kind-finding").first.focus()
            page.keyboard.press(key)
            page.wait_for_selector(opened)
            assert [] == violations(page)
            page.keyboard.press("Escape" if key == "m" else "2")
        page.wait_for_selector("#s-dropped .entry")
        page.locator(".entry.kind-finding").first.focus()
        page.keyboard.press("p")
        page.wait_for_selector(".photos img")
        page.locator("#s-dropped .entry").focus()
        assert [] == violations(page)
        page.locator(".entry:has(details)").first.focus()
        page.locator(".entry.current summary").click()
        assert [] == violations(page)
        page.locator("#s-decide .entry, #s-skipped .entry").first.focus()
        for _ in range(60):
            if page.locator("#s-end").is_visible():
                break
            choices = page.locator(".entry.current [data-key-hint=t], .entry.current [data-key-hint=o]")
            hint = choices.first.get_attribute("data-key-hint") if choices.count() else None
            page.keyboard.press(hint or "Enter")
            page.wait_for_timeout(120)
        assert page.locator("#s-end").is_visible()
        assert [] == violations(page)
        page.context.close()


def test_the_way_in_by_code(browser: "Browser", spoken_folder: Path) -> None:
    """The page that asks for the code has none either."""
    with served(spoken_folder, "--lan") as server:
        page = browser.new_context(bypass_csp=True).new_page()
        page.goto(server.base + "/")
        page.wait_for_selector("[name=code]")
        assert [] == violations(page)
        page.context.close()
