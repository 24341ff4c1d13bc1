"""The same review where there is no browser: one entry after the other, one letter for what to do.

Reads from standard input and writes to standard output, so that it works over a line of any kind.
"""

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from rich.console import Console
from rich.text import Text

from saycheck.errors import ReviewError
from saycheck.models.wishes import Wish
from saycheck.page.choices import Choice
from saycheck.page.desk import Desk
from saycheck.page.entry import Entry
from saycheck.page.news import sentence
from saycheck.page.setting import progress
from saycheck.page.typed import patch_typed
from saycheck.reporting.layout import MARGIN
from saycheck.reporting.wording import STATE_WORDS, plain

HELP = """\
a or Return  right as it stands; to a question the first answer     n, b  next, back
c  change    d  take off    s  split    m  join with another        u, r  undo, redo
w  the words around it      f  make a finding of words              z     go through the zones
p FILE  attach a photograph                                         q     end (all is kept already)
A change is typed in words: part bucket, side left, state write up, condition worn, 12 mm, not"""


@dataclass
class _Place:
    """Where one is: the number in the list, and whether the zones are gone through."""

    at: int = 0
    zones: bool = False


class Terminal:
    """One review; ``ask`` gives the next line typed (EOFError at the end of input)."""

    def __init__(self, folder: Path, who: str, console: Console, ask: Callable[[str], str]) -> None:
        self.desk, self.who, self.console, self.ask = Desk(folder), who, console, ask
        self.place = _Place()

    def run(self) -> None:
        """Go through the walk until all is decided or the person ends it."""
        self._say(HELP)
        while True:
            entries = self._entries()
            if not entries:
                self._say(self._told())
                if self.place.zones or not self._zones():
                    return
                self._say("z goes through the zones, q ends.")
            self.place.at = min(self.place.at, max(len(entries) - 1, 0))
            entry = entries[self.place.at] if entries else None
            if entry:
                self._show(entry, len(entries))
            try:
                typed = self.ask("? ").strip()
            except EOFError:
                return
            if typed in ("q", "quit"):
                return
            try:
                self._do(typed, entry)
            except ReviewError as error:
                self._say(f"{error}.")

    def _entries(self) -> list[Entry]:
        sections = self.desk.sheet().sections
        wanted = self._zones() if self.place.zones else sections[:2]
        return [entry for section in wanted for entry in section.entries]

    def _zones(self) -> list[Any]:
        return [one for one in self.desk.sheet().sections[2:] if one.entries]

    def _told(self) -> str:
        decide, skipped, *_ = self.desk.sheet().sections
        return progress(len(decide.entries), len(skipped.entries))

    def _say(self, text: str) -> None:
        self.console.print(text, markup=False, highlight=False)

    def _show(self, entry: Entry, count: int) -> None:
        self._say("")
        margin = Text(f"{entry.margin:>{MARGIN}}  ", style="bold")
        head = entry.title + (f" — {entry.said}" if entry.said else "")
        self.console.print(margin + Text(head, style="bold"), highlight=False)
        pad = " " * (MARGIN + 2)
        for quote in entry.quotes:
            self._say(f"{pad}“{quote.text}”" + (f"  {entry.at}" if entry.at else ""))
        for here, there in entry.readings:
            self._say(f"{pad}the other ear: {there} for “{here}”")
        for line in (*(f"look again: {one}" for one in entry.why), *entry.notes):
            self._say(f"{pad}{line}")
        if entry.caution:
            self._say(f"{pad}take care: {entry.caution}")
        for number, choice in enumerate(entry.choices, 1):
            self._say(f"{pad}{number}  {choice.words}")
        self._say(f"{pad}{self.place.at + 1} of {count}; {self._told()}")

    def _do(self, typed: str, entry: Entry | None) -> None:
        word, _, rest = typed.partition(" ")
        rest = rest.strip()
        if word in ("u", "r"):
            self._wish(action="undo" if word == "u" else "redo")
        elif word in ("h", "?", "help"):
            self._say(HELP)
        elif word == "z":
            self.place = _Place(zones=not self.place.zones)
        elif word == "n":
            self.place.at += 1
        elif word == "b":
            self.place.at = max(self.place.at - 1, 0)
        elif entry is None:
            self._say("Nothing is left to decide.")
        elif word.isdecimal() and 1 <= int(word) <= len(entry.choices):
            self._choose(entry, entry.choices[int(word) - 1])
        elif word in ("", "a"):
            self._accept(entry)
        elif word in _FOR_FINDINGS:
            if not entry.finding:
                raise ReviewError("this is a question; type the number of an answer")
            _FOR_FINDINGS[word](self, entry, rest)
        elif word == "w":
            self._words(entry)
        elif word == "f":
            self._find(entry, rest)
        else:
            self._say(f"“{plain(typed)}” is no command; ? tells them.")

    def _accept(self, entry: Entry) -> None:
        if entry.kind == "dropped" or (entry.finding and not entry.choices):
            self._wish(action="accept", findings=[entry.finding])
            self.place.at += self.place.zones
        elif entry.choices and entry.choices[0].key == "Enter":
            self._choose(entry, entry.choices[0])
        else:
            raise ReviewError("this must be decided; type the number of an answer")

    def _choose(self, entry: Entry, choice: Choice) -> None:
        if choice.wish:
            self._wish(**json.loads(choice.wish))
        elif choice.opens == "unit":
            self._wish(action="machine", unit=self.ask("name of the unit: "), question=entry.question)
        elif choice.opens == "hours":
            hours = patch_typed(self.ask("the hour meter reads: ") + " h", self.desk.vocabulary).measurements
            self._wish(action="machine", hours=hours[0].value if hours else None, question=entry.question)
        elif choice.opens == "measure":
            patch = patch_typed(self.ask("how much, with unit: "), self.desk.vocabulary)
            measured = [one.model_dump() for one in patch.measurements or []]
            patches = [{"measured": measured}]
            self._wish(action="change", findings=[choice.finding], patches=patches, question=entry.question)
        elif choice.opens == "edit":
            self._change(entry, "", choice.finding)
        elif choice.part:
            typed = f"part {choice.part}, side {choice.side}, " + self.ask("how is it: ")
            self._add(typed, None)
        else:
            self._find(entry, "")

    def _change(self, entry: Entry, rest: str, finding: str = "") -> None:
        patch = patch_typed(rest or self.ask("change to: "), self.desk.vocabulary)
        question = {"question": entry.question} if entry.question else {}
        finding = finding or entry.finding
        self._wish(action="change", findings=[finding], patches=[patch.model_dump()], **question)

    def _drop(self, entry: Entry, rest: str) -> None:
        self._wish(action="drop", findings=[entry.finding], reason=rest or self.ask("why: "))

    def _split(self, entry: Entry, rest: str) -> None:
        first = patch_typed(rest or self.ask("first piece: "), self.desk.vocabulary)
        second = patch_typed(self.ask("second piece: "), self.desk.vocabulary)
        patches = [first.model_dump(), second.model_dump()]
        self._wish(action="split", findings=[entry.finding], patches=patches)

    def _join(self, entry: Entry, rest: str) -> None:
        others = [one for one in self.desk.sheet().standing.walk.findings if one.id != entry.finding]
        others.sort(key=lambda one: one.zone != entry.zone)
        for number, one in enumerate(others[:20], 1):
            self._say(f"{number:>4}  {STATE_WORDS[one.state]}: {one.part} {one.condition} ({one.zone})")
        typed = rest or self.ask("join with number: ")
        if not typed.isdecimal() or not 1 <= int(typed) <= len(others[:20]):
            raise ReviewError("that is none of the numbers")
        self._wish(action="merge", findings=[entry.finding, others[int(typed) - 1].id])

    def _photograph(self, entry: Entry, rest: str) -> None:
        from saycheck.review.photographs import attaching, keep

        path = Path(rest or self.ask("file: ")).expanduser()
        try:
            content = path.read_bytes()
        except OSError as error:
            raise ReviewError(f"'{path}' cannot be read ({error.strerror})") from error
        photograph = keep(self.desk.folder, content, entry.finding, path.name)
        self.desk.add(lambda standing: [attaching(standing, [photograph], self.who, "terminal")])
        self._say("attached.")

    def _words(self, entry: Entry) -> None:
        text = self.desk.heard.transcript.text
        start = entry.quotes[0].char_start if entry.quotes else 0
        end = entry.quotes[-1].char_end if entry.quotes else 200
        self._say(plain(text[max(start - 300, 0) : end + 300]))

    def _find(self, entry: Entry, rest: str) -> None:
        """Make a finding of words that are typed as they stand in the transcript, or of the entry's own."""
        text = self.desk.heard.transcript.text
        words = rest or self.ask("which words (Return: those above): ").strip()
        if words:
            at = text.lower().find(words.lower())
            if at < 0:
                raise ReviewError("those words are not in the transcript; w shows it")
            place = (at, at + len(words))
        elif entry.quotes:
            place = (entry.quotes[0].char_start, entry.quotes[0].char_end)
        else:
            raise ReviewError("there are no words here; type some")
        self._add(self.ask("as a finding: "), place)

    def _add(self, typed: str, place: tuple[int, int] | None) -> None:
        patch = patch_typed(typed, self.desk.vocabulary)
        where = {"start": place[0], "end": place[1]} if place else {"reason": "the reviewer says so"}
        self._wish(action="add", patches=[patch.model_dump()], **where)

    def _wish(self, **asked: Any) -> None:
        from pydantic import ValidationError

        try:
            wish = Wish.model_validate({"who": self.who, "way": "terminal"} | asked)
        except ValidationError as error:
            raise ReviewError(f"that cannot be taken: {error.errors()[0]['msg'].lower()}") from error
        made = self.desk.do(wish)
        self._say(f"{sentence(made, self.desk.sheet().standing.edits)}.")


_FOR_FINDINGS: dict[str, Callable[[Terminal, Entry, str], None]] = {
    "c": Terminal._change,
    "d": Terminal._drop,
    "s": Terminal._split,
    "m": Terminal._join,
    "p": Terminal._photograph,
}


def review_here(folder: Path, who: str) -> None:
    """Review a walk by questions and answers in this terminal."""
    Terminal(folder, who, Console(), input).run()
