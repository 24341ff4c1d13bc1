"""One question after the other: asked, answered, understood, read back, and only then kept."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from saycheck.asking.given import Answers, Given
from saycheck.asking.keep import count, made_of
from saycheck.asking.matter import Answer, Matter
from saycheck.asking.readback import read_back
from saycheck.asking.replies import begins, is_reply
from saycheck.asking.understand import understand
from saycheck.coverage.wording import sentence
from saycheck.errors import ReviewError
from saycheck.models.review import Edit
from saycheck.models.wishes import Wish
from saycheck.reporting.wording import plain
from saycheck.review.edits import read
from saycheck.standing import after
from saycheck.vocabulary.load import load
from saycheck.walkfolder import read as read_walk

RIGHT = "Right? (yes/no)"
EARS = 4
"""Readings that may be offered in place of a refused one: both ears' together, and each ear's own."""

TRIES = 3
"""How often one question is asked before it is left open."""


@dataclass
class Outcome:
    """How many questions were answered, and how many are still open."""

    answered: int = 0
    left: int = 0


class Session:
    """Asks the open questions of a walk; ``say`` shows a line to the person."""

    def __init__(self, folder: Path, who: str, answers: Answers, say: Callable[[str], None]) -> None:
        self.folder, self.who, self.answers, self.say = folder, who, answers, say
        self.outcome = Outcome()
        self._passed: set[str] = set()
        self._ended = False

    def run(self) -> Outcome:
        """Ask until no question is left, or the person stops; what was confirmed is kept already."""
        heard = read_walk(self.folder)
        self.vocabulary = load(heard.machine.kind, unit=heard.machine.unit)
        while True:
            standing = after(read_walk(self.folder), read(self.folder), self.vocabulary)
            self.outcome.left = len(standing.open_questions)
            if self._ended:
                break
            here = [one for one in standing.open_questions if one.id not in self._passed]
            if not here:
                break
            self._passed.add(here[0].id)  # answered it is closed; left open it is not asked twice
            self._one(Matter(here[0], standing, self.vocabulary), len(here))
        return self.outcome

    def _one(self, matter: Matter, left: int) -> None:
        self.say("")
        zone = matter.question.about.zone
        self.say(f"{left} to answer" + (f", {plain(zone)}" if zone else ""))
        question = matter.question.text
        turn: Callable[[str], str] | None = None
        pending: Given | None = None
        self.say(plain(question))
        for _ in range(TRIES * 2):
            given, pending = pending or self._ask(question, turn is not None), None
            if given is None:
                self._ended = True
                return
            answer, words = self._understood(matter, given, turn)
            if answer.kind == "stop":
                self._ended = True
                return
            if answer.kind == "open":
                self.say("Left open.")
                return
            if answer.kind == "more" and answer.turn:
                question, turn = answer.ask, answer.turn
                self.say(plain(question))
            elif answer.kind == "edit" and answer.wish:
                done, pending = self._confirmed(matter, answer, words, given)
                if not done and pending is None and (other := self._other(matter, answer, given, turn)):
                    self.say("Or was it this?")
                    done, pending = self._confirmed(matter, *other, given)
                if done:
                    return
                if pending is None:
                    self.say(plain(matter.question.text))
                turn = None
            elif answer.kind == "again":
                self.say(plain(question))
            else:
                self._not_understood(given)
                if self.answers.way == "voice" and given.file is not None:
                    return
        self.say("Left open.")

    def _ask(self, question: str, goes_on: bool) -> Given | None:
        """The next answer; what completes a recorded one is typed."""
        return self.answers.confirm(">") if goes_on else self.answers.answer(question)

    def _understood(
        self, matter: Matter, given: Given, turn: Callable[[str], str] | None
    ) -> tuple[Answer, str]:
        """The first reading of the words that answers the question, and that reading."""
        answer, words = Answer("unknown"), ""
        for reading in given.readings:
            if turn and is_reply(reading, "stop", "open"):
                found, said = understand(matter, reading), reading
            else:
                said = turn(reading) if turn else reading
                found = understand(matter, said)
            if found.kind == "edit" and found.wish and self._trial(matter, found.wish) is None:
                continue
            if found.kind != "unknown":
                return found, said
            words = words or said
        return answer, words

    def _other(
        self, matter: Matter, refused: Answer, given: Given, turn: Callable[[str], str] | None
    ) -> tuple[Answer, str] | None:
        """What another ear heard and the refused answer does not say: "a thousand", "eight thousand"."""
        if self._ended or refused.wish is None:
            return None
        said = self._said(matter, refused)
        for reading in given.readings[1:EARS]:
            words = turn(reading) if turn else reading
            answer = understand(matter, words)
            if answer.kind == "edit" and self._said(matter, answer) not in ("", said):
                return answer, words
        return None

    def _said(self, matter: Matter, answer: Answer) -> str:
        """The answer as it would be read back; empty where it cannot be made."""
        trial = self._trial(matter, answer.wish) if answer.wish else None
        return read_back(trial, answer.note) if trial else ""

    def _trial(self, matter: Matter, wish: Wish) -> Edit | None:
        """The edit that the answer would make; None where it cannot be made."""
        try:
            return made_of(wish, matter, matter.standing)
        except ReviewError:
            return None

    def _confirmed(
        self, matter: Matter, answer: Answer, words: str, given: Given
    ) -> tuple[bool, Given | None]:
        """Read back and keep where it is right; else False, with what was said instead, if anything."""
        assert answer.wish is not None
        trial = self._trial(matter, answer.wish)
        if trial is None:
            return False, None
        if self.answers.way == "voice":
            self.say(f"heard: “{plain(words)}”")
        self.say(read_back(trial, answer.note))
        for _ in range(TRIES):
            reply = self.answers.confirm(RIGHT)
            if reply is None:
                self._ended = True
                return True, None
            for reading in reply.readings:
                said, rest = begins(reading)
                if said == "yes" or is_reply(reading, "yes"):
                    self._keep(matter, answer.wish, words, given)
                    return True, None
                if is_reply(reading, "stop"):
                    self._ended = True
                    return True, None
                if is_reply(reading, "open"):
                    self.say("Left open.")
                    return True, None
                if said == "no" and rest:
                    return False, Given((reading, rest), reply.file, reply.samples)
                if said == "no":
                    self.say("Not taken.")
                    return False, None
            self.say("Yes or no?")
        self.say("Not taken.")
        return True, None

    def _keep(self, matter: Matter, wish: Wish, words: str, given: Given) -> None:
        signed = wish.model_copy(update={"who": self.who, "way": self.answers.way})
        try:
            edit = count(self.folder, matter, signed, words, given)
        except ReviewError as error:  # someone answered it meanwhile
            self.say(f"{sentence(str(error))}.")
            return
        self.outcome.answered += edit.question is not None
        if edit.question is None and given.file is None:  # some of a zone; what is left of it is asked now
            self._passed.discard(matter.question.id)
        self.say("Noted.")
        for caution in dict.fromkeys(one.caution for one in edit.after if one.caution):
            self.say(f"Take care: {plain(caution)}")

    def _not_understood(self, given: Given) -> None:
        heard = next((one for one in given.readings if one.strip()), "")
        self.say(f"Not understood: “{plain(heard)}”." if heard else "Nothing was heard.")
        if self.answers.way == "keyboard":
            self.say("Say it in other words; skip leaves it open, stop ends.")
