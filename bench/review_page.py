"""How fluid the review page is in a real browser: 500 findings, two hours of sound.

    python bench/review_page.py

Makes such a walk (the labelled narrations one after the other, as if spoken over two hours), serves it, opens
it in Chromium and prints the first paint and how long edits take, from the key to the changed page, in
milliseconds. Status 1 where the first paint is 1 s or more, or the middle edit takes 100 ms or more.
"""

import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

import numpy as np
from playwright.sync_api import Page, sync_playwright

from narrations import TUNE, narrations
from saycheck import walkfolder
from saycheck.capture.keep import KeptSound
from saycheck.coverage.checklist import checklist
from saycheck.coverage.questions import questions
from saycheck.hearing.ear import SAMPLE_RATE
from saycheck.models.hearing import Passage
from saycheck.models.walk import Evidence, Finding, Walk
from saycheck.run import Asked, hear_file
from saycheck.vocabulary.load import load

FINDINGS = 500
SECONDS = 2 * 3600
EDITS = 20
PAINT_MS, EDIT_MS = 1000, 100

MEASURE = """
(press) => new Promise((done) => {
  document.querySelector("#s-decide .entry.kind-finding").focus();
  const start = performance.now();
  const told = document.getElementById("told");
  const watch = new MutationObserver(() => {
    watch.disconnect();
    requestAnimationFrame(() => setTimeout(() => done(performance.now() - start)));
  });
  watch.observe(told, { childList: true, characterData: true, subtree: true });
  told.textContent = "";
  watch.takeRecords();
  document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key: press, bubbles: true, cancelable: true }));
})
"""


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
    whole = walk.model_copy(
        update={
            "transcript": walk.transcript.model_copy(update={"words": spoken}),
            "source": walk.source.model_copy(update={"duration_s": float(SECONDS)}),
            "sound": [Passage(start_s=0, end_s=SECONDS, kind="speech", snr_db=20)],
            "findings": findings,
            "checklist": checklist(vocabulary, findings, text=walk.transcript.text),
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


def main() -> int:
    """Measure, print, and tell by the status."""
    chromium = shutil.which("chromium") or shutil.which("google-chrome")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        walk = make(folder)
        print(f"{len(walk.findings)} findings, {len(walk.transcript.words)} words, {SECONDS} s of sound")
        command = [sys.executable, "-m", "saycheck", "review", str(folder / "walk")]
        server = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        try:
            assert server.stdout is not None
            link = server.stdout.readline().split()[1]
            with sync_playwright() as started:
                browser = started.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
                page = browser.new_page(viewport={"width": 1280, "height": 800})
                page.goto(link)
                page.wait_for_selector("html[data-ready]")
                paints = [paint(page, link.partition("/open/")[0] + "/") for _ in range(5)]
                edits = [float(page.evaluate(MEASURE, "Enter" if n % 2 else "u")) for n in range(-1, EDITS)]
                browser.close()
        finally:
            server.terminate()
            server.wait()
    first = statistics.median(one for one, _ in paints)
    edit = statistics.median(edits)
    print(
        f"first paint {first:.0f} ms (aim {PAINT_MS}), ready {statistics.median(r for _, r in paints):.0f} ms"
    )
    print(f"edit {edit:.0f} ms in the middle (aim {EDIT_MS}), longest {max(edits):.0f} ms, of {len(edits)}")
    return 0 if first < PAINT_MS and edit < EDIT_MS else 1


if __name__ == "__main__":
    sys.exit(main())
