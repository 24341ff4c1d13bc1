"""What each spoken command does."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from saycheck.live.commands import Command
from saycheck.live.marked import Stretch
from saycheck.live.missing import AT_ONCE, told
from saycheck.models.walk import Event, Finding
from saycheck.reporting.wording import said_of, with_side

if TYPE_CHECKING:
    from saycheck.live.listener import Listener


STILL_S = 3.0
"""So long must nobody talk after "done" for the walk to be over, seconds."""


class Obedience:
    """Obeys one command after another; calling it with a command and the words heard in it does so."""

    def __init__(self, listener: "Listener") -> None:
        self._listener = listener
        self._told = 0
        self._photos = 0
        self._paused_s: float | None = None
        self._done: Command | None = None

    @property
    def paused(self) -> bool:
        """Whether what is said now does not count."""
        return self._paused_s is not None

    def __call__(self, command: Command, heard: str) -> None:
        """Do what was asked for."""
        listener = self._listener
        if self.paused:
            # "Go on" and "done" sound alike, and going on does less harm: "all done" ends it then.
            bare = command.words[-2:] == (listener.lead[-1], "done")
            command = replace(command, name="go on") if bare else command
            if command.name not in ("go on", "done"):
                return
        listener.commands.append(command)
        listener.running.commands.append(command)
        listener.view.answer = ""
        match command.name:
            case "take back":
                self._take_back()
            case "zone" | "next zone":
                listener.board.entered(command.zone or self._next_zone(), command.end_s)
                listener.tone("heard")
            case "same again":
                listener.tone("heard")
            case "note":
                self._note(command, heard)
            case "photo":
                self._photo(command)
            case "pause":
                self._paused_s = listener.running.paused_s = command.end_s
                listener.answer("paused")
            case "go on":
                listener.answer("going on" if self.paused else "not paused")
                self.go_on(command.start_s)
            case "missed":
                listener.look()
                self._tell_open(0)
            case "more":
                self._tell_open(self._told)
            case "read back":
                last = listener.last
                listener.answer(words_of(last) if last else "nothing yet")
            case "done":
                self._done = command
                listener.answer("done: the walk is written when you say nothing more", aloud=False)

    def go_on(self, at_s: float) -> None:
        """End a pause, if there is one."""
        if self._paused_s is None:
            return
        self._listener.mark(Stretch(self._paused_s, at_s, "talk", "said while paused"))
        self._listener.happened(Event(kind="pause", start_s=self._paused_s, end_s=at_s))
        self._paused_s = self._listener.running.paused_s = None

    def talk(self, began_s: float) -> None:
        """Take note that someone talks: who talks on was not done, and that command was none."""
        done, listener = self._done, self._listener
        if done is None or listener.done or began_s < done.end_s:
            return
        self._done = None
        for commands in (listener.commands, listener.running.commands):
            if done in commands:
                commands.remove(done)
        listener.answer("not done: you are still talking", aloud=False)

    def think_over(self, now_s: float, speaking: bool) -> None:
        """End the walk when "done" was said and nothing after it."""
        if self._done is not None and not speaking and now_s > self._done.end_s + STILL_S:
            self._done = None
            self._listener.done = True
            self._listener.tone("saved")

    def _tell_open(self, first: int) -> None:
        parts = self._listener.board.open
        self._listener.answer(told(parts, first), parts=parts[first : first + AT_ONCE])
        self._told = first + AT_ONCE

    def _take_back(self) -> None:
        """Understanding takes back what was said last; tell what that was."""
        listener = self._listener
        before = listener.findings
        listener.findings = listener.running.findings()
        left = {key_of(one) for one in listener.findings}
        gone = [one for one in before if key_of(one) not in left] or listener.corrected
        listener.corrected = []
        listener.answer(f"taken back: {words_of(gone[-1])}" if gone else "nothing to take back")

    def _next_zone(self) -> str:
        names = [zone.name for zone in self._listener.vocabulary.zones]
        zone = self._listener.view.zone
        return names[(names.index(zone) + 1) % len(names)] if zone in names else names[0]

    def _note(self, command: Command, heard: str) -> None:
        text = behind(heard, command.words)
        self._listener.happened(Event(kind="note", start_s=command.start_s, end_s=command.end_s, text=text))
        self._listener.mark(Stretch(command.start_s, command.end_s, "command", "note"))
        self._listener.answer(f"noted: {text}" if text else "noted", aloud=False)
        self._listener.tone("saved")

    def _photo(self, command: Command) -> None:
        self._photos += 1
        number = str(self._photos)
        self._listener.happened(
            Event(kind="photo", start_s=command.start_s, end_s=command.end_s, text=number)
        )
        self._listener.answer(f"photo {number}")


def behind(heard: str, words: Sequence[str]) -> str:
    """What was heard behind the words of a command, as far as an ear wrote those as they are."""
    rest = heard.split()
    lowered = [word.strip(",.:;!?").lower() for word in rest]
    last = words[-1].lower()
    place = lowered.index(last) + 1 if last in lowered[:6] else min(len(words), len(rest))
    return " ".join(rest[place:])


def key_of(finding: Finding) -> tuple[str, str, str, str, bool]:
    """What makes two findings the same for someone who listens."""
    return finding.part, finding.side, finding.state, finding.condition, finding.denied


def words_of(finding: Finding) -> str:
    """A finding in a few words: "left front tyre: cut"."""
    return f"{with_side(finding.part, finding.side)}: {said_of(finding)}"
