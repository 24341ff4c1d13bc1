"""What is understood while the walk goes on: quick words, then careful ones, in memory that stays small."""

from collections.abc import Callable
from pathlib import Path

import pytest

from saycheck.live.commands import Command
from saycheck.live.running import MOST_WORDS, Running
from saycheck.models.hearing import HeardWord
from saycheck.models.walk import Finding
from saycheck.vocabulary.chosen import SHOP
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load

UNIT = """
name = "loader seven"
machine = "wheel-loader"

[[zone]]
name = "front"

[[zone.part]]
name = "nail magnet"
sayings = ["road magnet"]
checks = ["loose"]
"""

Make = Callable[..., list[HeardWord]]


def brief(findings: list[Finding]) -> list[tuple[str, str, str]]:
    """Part, side and state of each."""
    return [(one.part, one.side, one.state) for one in findings]


def test_quick_words_count_until_the_careful_ones_come(loader: Vocabulary, heard: Make) -> None:
    """The careful ears put right what was heard wrongly, and what came after stays."""
    running = Running(loader, ("recorder",))
    running.said(heard("Bucket is fine.", 0.0))
    running.said(heard("Seat belt works.", 5.0))
    assert [("bucket", "none", "good"), ("seat belt", "none", "good")] == brief(running.findings())
    running.heard(3.0, heard("Bucket is cracked.", 0.0))
    assert [("bucket", "none", "writeup"), ("seat belt", "none", "good")] == brief(running.findings())


def test_taking_back_takes_back_the_last(loader: Vocabulary, heard: Make) -> None:
    """The command works on the words before it, whatever the ears made of it."""
    running = Running(loader, ("recorder",))
    running.said(heard("Seat belt works. Bucket is cracked.", 0.0))
    running.commands.append(Command("take back", ("recorder", "take", "that", "back"), 4.0, 6.0))
    assert [("seat belt", "none", "good")] == brief(running.findings())


@pytest.mark.parametrize(
    ("before", "part", "state"),
    [
        ("Lift cylinder on the left is leaking.", "lift cylinder", "writeup"),
        ("Left rear wheel nuts are all tight.", "wheel nuts", "good"),
        ("Could not see the left front hub for mud.", "wheel hub", "hidden"),
    ],
)
def test_the_same_again_is_no_talk(
    loader: Vocabulary, heard: Make, before: str, part: str, state: str
) -> None:
    """By command, what was said last holds for the side that the walker has come to."""
    running = Running(loader, ("recorder",))
    running.heard(10.0, heard(before, 0.0))
    for at, name, words in (
        (11.0, "zone", "recorder change zone to right side"),
        (16.0, "same again", "recorder same again on this side"),
    ):
        running.heard(at + 4, heard(words, at))
        running.commands.append(Command(name, tuple(words.split()), at, at + 3))
    first, again = running.findings()
    assert (first.state, again.state, again.side) == (state, state, "right")
    assert part in first.part
    assert part in again.part


def test_a_note_is_no_finding(loader: Vocabulary, heard: Make) -> None:
    """What is noted is kept and not understood."""
    running = Running(loader, ("recorder",))
    running.said(heard("Record or note bucket is cracked.", 0.0))
    running.commands.append(Command("note", ("recorder", "note"), 0.0, 4.0))
    assert [] == running.findings()


def test_a_long_walk_keeps_its_findings_and_forgets_its_words(loader: Vocabulary, heard: Make) -> None:
    """After thousands of words every finding is still there, once, and few words are read again."""
    running = Running(loader, ("recorder",))
    running.heard(2.0, heard("Seat belt is torn.", 0.0))
    for minute in range(1, 40):
        text = "The weather was lovely and nobody had much to say about it all week long. " * 6
        running.heard(minute * 60.0, heard(text, minute * 60.0 - 50))
        running.findings()
    running.heard(3_000.0, heard("Bucket is cracked.", 2_990.0))
    assert [("seat belt", "none", "writeup"), ("bucket", "none", "writeup")] == brief(running.findings())
    assert len(running._settled) <= MOST_WORDS + 200


def test_what_is_said_again_and_again_takes_no_more_memory(loader: Vocabulary, heard: Make) -> None:
    """Findings that say the same are kept once, the last of them; what changed since is kept too."""
    running = Running(loader, ("recorder",))
    text = "Bucket is cracked. Seat belt works. Horn is fine. " + "It was a long and quiet week up here. " * 8
    for turn in range(60):
        running.heard(turn * 60 + 55.0, heard(text, turn * 60.0))
        found = running.findings()
    assert 180 == running.count
    assert len(found) < 40
    running.heard(3_660.0, heard("Horn is broken.", 3_650.0))
    assert {("horn", "none", "good"), ("horn", "none", "writeup")} <= set(brief(running.findings()))


def test_the_words_of_the_unit_are_understood(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, heard: Make
) -> None:
    """A part that only this unit has is found while the walk goes on, as it is in the walk afterwards."""
    (tmp_path / "units").mkdir()
    (tmp_path / "units" / "seven.toml").write_text(UNIT)
    monkeypatch.setenv(SHOP, str(tmp_path))
    for unit, known in (("loader seven", True), (None, False)):
        running = Running(load("wheel-loader", unit=unit), ("recorder",))
        running.said(heard("The road magnet is loose."))
        assert known is (("nail magnet", "none", "writeup") in brief(running.findings()))
