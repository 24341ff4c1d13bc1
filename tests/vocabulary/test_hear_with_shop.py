"""A shop's words and a unit's file reach a whole walk: what is understood, asked for and kept."""

import json
import os
import subprocess
import sys
from typing import Any

import pytest

UNIT = 'name = "loader seven"\nmachine = "wheel-loader"\noptions = ["canopy", "quick coupler"]\n'
MACHINE = """\
[[zone]]
name = "front"

[[zone.part]]
name = "nail magnet"
sayings = ["road magnet"]
checks = ["loose"]
"""
CUES = '[[cue]]\ncategory = "later"\nphrases = ["one for the night shift"]\n'


@pytest.fixture(scope="module")
def walk(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """A walk round loader seven, heard with the shop's folder."""
    root = tmp_path_factory.mktemp("yard")
    for name, text in (
        ("units/seven.toml", UNIT),
        ("machines/wheel-loader.toml", MACHINE),
        ("shared/cues.toml", CUES),
    ):
        path = root / "own" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    given = root / "walk.txt"
    given.write_text("The road magnet is loose. The horn is one for the night shift.", encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "saycheck", "hear", str(given), "--machine", "wheel-loader", "--unit", "Loader Seven",
         "--shop", str(root / "own"), "--out", str(root / "walk"), "--json"],
        capture_output=True, encoding="utf-8", check=True, env=os.environ | {"XDG_DATA_HOME": str(root)},
    )  # fmt: skip
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def test_own_words_are_understood(walk: dict[str, Any]) -> None:
    """The shop's part, saying and cue count."""
    assert [("nail magnet", "writeup"), ("horn", "later")] == [
        (finding["part"], finding["state"]) for finding in walk["findings"]
    ]


def test_checklist_is_that_of_the_unit(walk: dict[str, Any]) -> None:
    """What the unit has is on its list, what it has not is not."""
    parts = {line["part"] for line in walk["checklist"]}

    assert {"coupler", "coupler lock", "nail magnet"} <= parts
    assert not parts & {"cab door", "windscreen", "wipers", "heater"}
