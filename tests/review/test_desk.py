"""What is on the desk after one edit after the other is what a program that has just started would show."""

import json
import random
import re
from pathlib import Path
from typing import Any

import pytest

from saycheck.errors import ReviewError
from saycheck.joined import joined
from saycheck.models.walk import Walk
from saycheck.page import setting
from saycheck.page.desk import Desk
from saycheck.page.words import paragraphs
from saycheck.review.edits import EDITS
from saycheck.run import Asked, hear_file
from saycheck.standing import standing
from saycheck.vocabulary.load import load

from .conftest import lay
from .wishing import wish

NARRATION = Path(__file__).parents[1] / "narrations" / "tune" / "w1-01.json"
STEPS = 40


class Browser:
    """What a browser holds: it starts empty and takes in what it is sent, as ``static/sheet.js`` does."""

    def __init__(self) -> None:
        self.version = ""
        self.order: dict[str, tuple[str, list[str]]] = {}
        self.html: dict[str, str] = {}
        self.words: dict[str, str] = {}
        self.marks: dict[str, str] = {}
        self.head: object = None
        self.zones: object = None

    def look(self, desk: Desk) -> None:
        """Ask what has changed, and take it in."""
        said = setting.changes(desk, self.version)
        if "again" in said:
            self.__init__()  # type: ignore[misc]
            self.look(desk)
            return
        self.version = said["version"]
        if "order" not in said:
            return
        self.head = said["head"]
        order = self.order | {one["key"]: (one["title"], one["entries"]) for one in said["order"]}
        self.order = {key: order[key] for key in said["sections"]}
        self.html |= said["html"]
        self.words |= said["words"]
        if strip := said.get("strip"):
            (self.zones,) = re.findall(r'The recording: (.*?)" .*<g id="strip-zones">(.*?)</g>', strip, re.S)
            self.marks = {key: html for html, key in re.findall(r'(<rect id="(m-[^"]+)".*?</rect>)', strip)}
        elif zones := said.get("zones"):
            self.zones = (zones["told"], zones["html"])
        self.marks |= said.get("marks", {})
        there = {key for _, keys in self.order.values() for key in keys}
        self.html = {key: html for key, html in self.html.items() if key in there}
        self.marks = {key: html for key, html in self.marks.items() if key.replace("m-", "f-", 1) in there}


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> Walk:
    """A longer walk, from a labelled narration."""
    path = tmp_path_factory.mktemp("told") / "told.txt"
    labels = json.loads(NARRATION.read_text(encoding="utf-8"))
    path.write_text(labels["text"], encoding="utf-8")
    return hear_file(path, Asked(labels["machine"].replace(" ", "-")))


@pytest.fixture(params=["heard", "spoken", "told"])
def walk(request: pytest.FixtureRequest) -> Walk:
    """Walks to edit: a text, the same spoken, and a longer one."""
    found: Walk = request.getfixturevalue(request.param)
    return found


def shown(desk: Desk) -> dict[str, Any]:
    """All that is on a desk, but for how often it changed."""
    sheet = desk.sheet()
    return {
        "standing": sheet.standing,
        "sections": sheet.sections,
        "words": sheet.words,
        "strip": sheet.strip,
    }


@pytest.mark.parametrize("seed", range(3))
def test_edit_by_edit_is_as_from_the_start(walk: Walk, tmp_path: Path, seed: int) -> None:
    """After each edit at random, also of another program, desk and browser hold what a fresh start gives."""
    dice = random.Random(seed)
    folder = lay(tmp_path / "walk", walk)
    desk, other = Desk(folder), Desk(folder)
    browser = Browser()
    browser.look(desk)
    done = 0
    for _ in range(STEPS):
        by = dice.choice([desk, desk, desk, other])
        try:
            by.do(wish(dice, by.sheet().standing, by.vocabulary))
        except ReviewError:
            continue
        done += 1
        if dice.random() < 0.05:  # heard again, a little otherwise
            gone = dice.choice(walk.findings)
            lay(
                folder,
                walk.model_copy(update={"findings": [one for one in walk.findings if one is not gone]}),
            )
        fresh = Desk(folder)
        assert shown(fresh) == shown(desk)
        assert standing(folder) == desk.sheet().standing
        if dice.random() < 0.7:  # a browser may look after several edits only
            browser.look(desk)
            anew = Browser()
            anew.look(fresh)
            assert vars(anew) | {"version": browser.version} == vars(browser)
    assert done > STEPS / 2


def test_a_line_taken_out_by_hand(folder: Path) -> None:
    """A log that someone put right by hand is read anew, not from where it was left."""
    desk = Desk(folder)
    ids = [one.id for one in desk.sheet().standing.walk.findings[:3]]
    dice = random.Random(0)
    for _ in ids:
        desk.do(wish(dice, desk.sheet().standing, desk.vocabulary).model_copy(
            update={"action": "accept", "findings": ids, "patches": []}))  # fmt: skip
    lines = (folder / EDITS).read_bytes().splitlines(keepends=True)
    (folder / EDITS).write_bytes(b"".join([lines[0], lines[2]]))
    assert shown(Desk(folder)) == shown(desk)
    assert 2 == len(desk.sheet().standing.edits)


def test_all_recordings_are_named(spoken: Walk) -> None:
    """A walk of two recordings says both, when the second begins, and where in the transcript each does."""
    whole = joined(spoken, spoken, 40.0, load("wheel-loader"))
    (second,) = whole.joined
    back = second.model_copy(update={"source": second.source.model_copy(update={"name": "back <b>.m4a"})})
    whole = whole.model_copy(update={"joined": [back]})
    assert "from yard.m4a, then back <b>.m4a from 0:40 on" == setting.recordings(whole)
    begins = {one.start: one.begins for one in paragraphs(whole) if one.begins}
    assert {0: "yard.m4a", back.char_start: "back <b>.m4a"} == begins
    assert "".join(s.text for p in paragraphs(whole) for s in p.stretches) == whole.transcript.text
    (html,) = [setting.paragraph_html(one) for one in paragraphs(whole) if one.start == back.char_start]
    assert "back &lt;b&gt;.m4a" in html


def test_one_recording_is_named_once(spoken: Walk) -> None:
    """A walk of one recording says it at the top only."""
    assert "from yard.m4a" == setting.recordings(spoken)
    assert {""} == {one.begins for one in paragraphs(spoken)}
