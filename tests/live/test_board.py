"""What the view shows as the walk goes on, and what commands do to it."""

from collections.abc import Callable

import pytest

from saycheck.live.board import ANSWER_S, CORRECTED_S, NEW_ANSWER_S, NOTICE_S
from saycheck.live.commands import Command
from saycheck.live.listener import Listener, Wishes, corrected
from saycheck.live.obey import STILL_S
from saycheck.models.hearing import HeardWord
from saycheck.models.walk import Event
from saycheck.understanding.pipeline import understand
from saycheck.vocabulary.compiled import Vocabulary

Make = Callable[..., list[HeardWord]]


@pytest.fixture
def listener(loader: Vocabulary) -> Listener:
    """One that hears nothing by itself; what it says aloud is put down as events of the kind "said"."""
    events: list[Event] = []
    listener = Listener(loader, Wishes("recorder", zones_aloud=True), events.append)
    listener.say = lambda text: events.append(Event(kind="said", start_s=0, end_s=0, text=text))
    listener.events = events
    return listener


def hear(listener: Listener, words: list[HeardWord]) -> None:
    """Let it understand words and show what they mean."""
    listener.running.said(words)
    listener.findings = listener.running.findings()
    listener.look()


def order(listener: Listener, name: str, words: str, start_s: float, zone: str | None = None) -> None:
    """Give it a command of a second and a half."""
    command = Command(name, ("recorder", *words.split()), start_s, start_s + 1.5, zone)
    listener._obey(command, words)


def test_taking_back_moves_nobody(listener: Listener, heard: Make) -> None:
    """Who takes back what was found at the front still stands there."""
    hear(listener, heard("Horn works.", 0.0))
    assert "cab" == listener.view.zone
    hear(listener, heard("Bucket is cracked.", 10.0))
    assert "front" == listener.view.zone
    order(listener, "take back", "take that back", 13.0)
    listener.look()
    assert ("front", "horn") == (listener.view.zone, listener.view.part)


def test_a_command_changes_the_zone_until_something_is_found_elsewhere(
    listener: Listener, heard: Make
) -> None:
    """What was found before the command does not bring the old zone back; what is left open there is said."""
    hear(listener, heard("Bucket is cracked.", 0.0))
    order(listener, "zone", "change zone rear", 4.0, "rear")
    listener.look()
    assert "rear" == listener.view.zone
    assert [True] == [one.text.startswith("Still open. Front: ") for one in listener.events]
    hear(listener, heard("Horn works.", 10.0))
    assert "cab" == listener.view.zone


def test_an_unmeasured_wear_item_is_asked_for_once(listener: Listener, heard: Make) -> None:
    """Right away, in three words; never again, and not where the measure was given."""
    hear(listener, heard("Cutting edge is worn.", 0.0))
    hear(listener, heard("Cutting edge is worn badly.", 5.0))
    assert ["cutting edge thickness?"] == [one.text for one in listener.events]


def test_nothing_said_in_a_pause_counts(listener: Listener, heard: Make) -> None:
    """Not while it lasts, and not afterwards, with our own "paused" in the middle of it."""
    order(listener, "pause", "pause", 0.0)
    listener.own_voice(1.5, 2.5, "paused")
    hear(listener, heard("Paused. Bucket is cracked.", 1.5))
    assert [] == listener.findings
    order(listener, "go on", "go on", 5.0)
    hear(listener, heard("Horn works.", 8.0))
    assert ["horn"] == [one.part for one in listener.findings]


@pytest.mark.parametrize(
    ("talks_at_s", "over"),
    [(None, True), (3.0, False), (1.0, True)],  # 1.0 is the command itself
)
def test_done_waits_for_silence(listener: Listener, talks_at_s: float | None, over: bool) -> None:
    """Who talks on after "done" was not done: then it was no command, and its words count again."""
    order(listener, "done", "done", 1.0)
    listener._obey.think_over(2.6, speaking=False)
    assert not listener.done
    if talks_at_s is not None:
        listener._obey.talk(talks_at_s)
    listener._obey.think_over(2.6 + STILL_S, speaking=True)
    assert not listener.done
    listener._obey.think_over(2.6 + STILL_S, speaking=False)
    assert over == listener.done
    assert over == bool(listener.commands)
    assert over == bool(listener.running.commands)


def test_news_grow_old(listener: Listener) -> None:
    """A correction, an answer in big letters, the answer at all and a notice each have their time."""
    board, view = listener.board, listener.view
    board.correct("corrected: bucket: worn")
    board.answered("photo 1")
    board.tell("the microphone was gone")
    board.grow_old(1.0)
    assert view.answer_is_new
    board.grow_old(NEW_ANSWER_S + 1)
    assert ("photo 1", False) == (view.answer, view.answer_is_new)
    board.grow_old(CORRECTED_S + 1)
    assert "" == view.corrected
    board.grow_old(max(ANSWER_S, NOTICE_S) + 1)
    assert ("", []) == (view.answer, view.notices)


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("Bucket is fine.", "Bucket is cracked.", "corrected: bucket: crack"),
        ("", "Bucket is cracked.", "also heard: bucket: crack"),
        ("Bucket is cracked.", "", "corrected: not bucket: crack"),
        (
            "Mirrors are clean.",
            "Radiator is clean.",
            "corrected: mirrors, both sides: clean is radiator: clean",
        ),
    ],
)
def test_what_the_careful_ears_put_right_is_told(before: str, after: str, said: str) -> None:
    """In a few words: what stands now of the same part, else what it was instead."""
    gone, new = (understand(text, "wheel-loader").findings for text in (before, after))
    assert said == corrected(gone, new, new)
