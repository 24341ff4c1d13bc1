"""How fluid the review page is in a real browser: 500 findings, two hours of sound.

    python bench/review_page.py

Makes such a walk (the labelled narrations one after the other, as if spoken over two hours, with what a second
ear might have heard), serves it, opens it in Chromium and prints the first paint and how long edits take, from
the key to the changed page, in milliseconds: on the fresh walk, and late in a review of 400 edits. Accepting,
taking off with a reason and undoing take turns. Status 1 where the first paint is 1 s or more, or the middle edit
of either takes 100 ms or more.
"""

import random
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

import numpy as np
from playwright.sync_api import Browser, Page, sync_playwright

from narrations import TUNE, narrations
from saycheck import walkfolder
from saycheck.capture.keep import KeptSound
from saycheck.coverage.checklist import checklist
from saycheck.coverage.questions import questions
from saycheck.hearing.ear import SAMPLE_RATE
from saycheck.models.hearing import OtherReading, Passage
from saycheck.models.walk import Evidence, Finding, Walk
from saycheck.models.wishes import Wish
from saycheck.page.desk import Desk
from saycheck.run import Asked, hear_file
from saycheck.vocabulary.load import load

FINDINGS = 500
SECONDS = 2 * 3600
EDITS = 24
BEFORE = 400
"""Edits that a review has behind it when it is measured late."""
PAINT_MS, EDIT_MS = 1000, 100

MEASURE = """
([focus, press]) => new Promise((done) => {
  if (focus) document.querySelector(focus).focus();
  const told = document.getElementById("told");
  const watch = new MutationObserver(() => {
    watch.disconnect();
    requestAnimationFrame(() => setTimeout(() => done(performance.now() - start)));
  });
  told.textContent = "";
  const start = performance.now();
  watch.observe(told, { childList: true, characterData: true, subtree: true });
  document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key: press, bubbles: true, cancelable: true }));
})
"""
FINDING = "#s-decide .entry.kind-finding, .brief .entry.kind-finding"
KINDS = {"accepting": (FINDING, "Enter"), "undoing": (None, "u"), "taking off": (None, "1")}
"""What is measured in turn: where the focus is set, and the key."""


TALK = {"finding_ids": [], "disposition": "talk", "why": "a story"}


def timed(walk: Walk) -> Walk:
    """The walk with its words laid evenly over two hours, cut to the first 500 findings."""
    words = walk.transcript.words
    step = SECONDS / len(words)
    spoken = [
        w.model_copy(update={"start_s": i * step, "end_s": i * step + 0.6 * step})
        for i, w in enumerate(words)
    ]

    def place(one: Evidence) -> Evidence:
        inside = [w for w in spoken if w.char_start < one.char_end and w.char_end > one.char_start]
        return one.model_copy(update={"start_s": inside[0].start_s, "end_s": inside[-1].end_s})

    def moved(finding: Finding) -> Finding:
        return finding.model_copy(update={"evidence": [place(one) for one in finding.evidence]})

    vocabulary = load(walk.machine.kind)
    findings = [moved(one) for one in walk.findings[:FINDINGS]]
    known = {one.id for one in findings}
    spans = [
        one if known.issuperset(one.finding_ids) else one.model_copy(update=TALK)
        for one in walk.transcript.spans
    ]
    readings = [
        OtherReading(char_start=w.char_start, char_end=w.char_end, text="mumble", ear="trade", confidence=0.5)
        for w in spoken[::8]
    ]
    transcript = {"words": spoken, "spans": spans, "readings": readings}
    whole = walk.model_copy(
        update={
            "transcript": walk.transcript.model_copy(update=transcript),
            "source": walk.source.model_copy(update={"duration_s": float(SECONDS)}),
            "sound": [Passage(start_s=0, end_s=SECONDS, kind="speech", snr_db=20)],
            "findings": findings,
            "checklist": checklist(
                vocabulary, findings, text=walk.transcript.text, spans=walk.transcript.spans
            ),
        }
    )
    return whole.model_copy(update={"questions": questions(vocabulary, whole)})


def make(folder: Path) -> Walk:
    """The walk folder."""
    labels = [one.labels for one in narrations(TUNE)]
    texts = [one.text for one in labels if one.machine == "wheel loader"]
    given = folder / "long.txt"
    given.write_text(" ".join(texts), encoding="utf-8")
    walk = timed(hear_file(given, Asked("wheel-loader", unit="Number Seven", hours=4812)))
    with walkfolder.writing(folder / "walk") as draft:
        minute = np.random.default_rng(4).normal(0, 0.05, 60 * SAMPLE_RATE).astype(np.float32)
        with KeptSound(draft.sound) as kept:
            for _ in kept.passing(minute for _ in range(SECONDS // 60)):
                pass
        draft.write(walk)
    return walk


def paint(page: Page, address: str) -> tuple[float, float]:
    """First paint and readiness of the page in milliseconds after asking for it."""
    page.goto(address)
    page.wait_for_selector("html[data-ready]")
    ready = page.evaluate("performance.now()")
    painted: Any = page.evaluate("performance.getEntriesByName('first-contentful-paint')[0].startTime")
    return float(painted), float(ready)


def review(folder: Path) -> None:
    """Edit the walk as a reviewer does who goes through it: accept most, change some, take some off."""
    desk, dice = Desk(folder), random.Random(4)
    for number in range(BEFORE):
        finding = dice.choice(desk.sheet().standing.walk.findings).id
        wish: dict[str, object] = {"who": "Ann", "action": "accept", "findings": [finding]}
        if number % 4 == 1:
            wish |= {"action": "change", "patches": [{"state": dice.choice(["good", "watch", "writeup"])}]}
        elif number % 8 == 3:
            wish |= {"action": "drop", "reason": "said twice"}
        desk.do(Wish.model_validate(wish))


def edit_times(page: Page) -> list[float]:
    """Milliseconds from the key to the changed page, for accepting, taking off and undoing in turn."""
    found = []
    for number in range(EDITS):
        focus, key = list(KINDS.values())[number % len(KINDS)]
        if key == "1":
            page.focus(FINDING)
            page.keyboard.press("d")
            page.wait_for_selector("form.drop")
        found.append(float(page.evaluate(MEASURE, [focus, key])))
    return found


def measured(walk: Path, browser: Browser) -> tuple[float, float, list[float]]:
    """First paint, readiness and edits of the page of a walk, in milliseconds."""
    command = [sys.executable, "-m", "saycheck", "review", str(walk)]
    server = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    try:
        assert server.stdout is not None
        link = server.stdout.readline().split()[1]
        page = browser.new_page(viewport={"width": 1280, "height": 800})
        page.goto(link)
        page.wait_for_selector("html[data-ready]")
        paints = [paint(page, link.partition("/open/")[0] + "/") for _ in range(5)]
        edits = edit_times(page)
        page.close()
    finally:
        server.terminate()
        server.wait()
    return statistics.median(one for one, _ in paints), statistics.median(one for _, one in paints), edits


def main() -> int:
    """Measure, print, and tell by the status."""
    chromium = shutil.which("chromium") or shutil.which("google-chrome")
    good = True
    with tempfile.TemporaryDirectory() as name, sync_playwright() as started:
        folder = Path(name)
        walk = make(folder)
        print(f"{len(walk.findings)} findings, {len(walk.transcript.words)} words, {SECONDS} s of sound")
        browser = started.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        for when in ("fresh", f"after {BEFORE} edits"):
            if when != "fresh":
                review(folder / "walk")
            first, ready, edits = measured(folder / "walk", browser)
            edit = statistics.median(edits)
            print(f"{when}: first paint {first:.0f} ms (aim {PAINT_MS}), ready {ready:.0f} ms")
            print(
                f"{when}: edit {edit:.0f} ms in the middle (aim {EDIT_MS}), longest {max(edits):.0f} ms, of {EDITS}"
            )
            kinds = zip(KINDS, (edits[n :: len(KINDS)] for n in range(len(KINDS))), strict=True)
            told = ", ".join(f"{kind} {statistics.median(of_kind):.0f}" for kind, of_kind in kinds)
            print(f"{when}: in the middle, {told} ms")
            good = good and first < PAINT_MS and edit < EDIT_MS
        browser.close()
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
