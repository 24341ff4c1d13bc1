"""The walk on the reviewer's desk: as it stands now, what is on the page, and what has changed since when.

Other programs may edit the same walk; the desk looks whether they did whenever it is asked.
"""

import secrets
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from operator import is_
from pathlib import Path
from threading import RLock

from saycheck import walkfolder
from saycheck.models.review import Edit, Standing
from saycheck.models.walk import Walk
from saycheck.models.wishes import Wish
from saycheck.page.entries import Entry, Section, sections
from saycheck.page.words import Paragraph, paragraphs
from saycheck.review.changes import edit_for
from saycheck.review.edits import EDITS, append, read
from saycheck.standing import after
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load


@dataclass
class Sheet:
    """What is on the page at one moment; ``number`` grows with each change that the desk notices."""

    number: int
    standing: Standing
    sections: list[Section]
    since: dict[str, int] = field(default_factory=dict)
    """By entry key the number of the sheet in which it last changed."""
    words: list[Paragraph] = field(default_factory=list)
    words_since: dict[str, int] = field(default_factory=dict)
    """The same for paragraphs of the transcript."""


class Desk:
    """One walk folder being reviewed; safe to use from several threads."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.run = secrets.token_hex(4)
        self._lock = RLock()
        self._stamp: object = None
        self._heard_stamp: object = None
        self._heard: Walk | None = None
        self._vocabulary: Vocabulary | None = None
        self._earlier: list[Walk] = []
        self._sheet: Sheet | None = None

    @property
    def heard(self) -> Walk:
        """The walk as heard, read anew when it was heard again."""
        stamp = _stamp(self.folder / walkfolder.WALK)
        if self._heard is None or stamp != self._heard_stamp:
            self._heard = walkfolder.read(self.folder)
            self._vocabulary = load(self._heard.machine.kind, unit=self._heard.machine.unit)
            self._earlier = walkfolder.earlier(self.folder)
            self._heard_stamp = stamp
        return self._heard

    @property
    def vocabulary(self) -> Vocabulary:
        """The vocabulary of its machine."""
        self.heard  # noqa: B018 -- loads both
        assert self._vocabulary is not None
        return self._vocabulary

    @property
    def sound(self) -> Path:
        """Where the sound is, if there is one."""
        return self.folder / walkfolder.SOUND

    def sheet(self) -> Sheet:
        """What is on the page now."""
        with self._lock:
            heard = self.heard
            stamp = (self._heard_stamp, _stamp(self.folder / EDITS))
            if self._sheet is None or stamp != self._stamp:
                self._renew(heard, read(self.folder))
                self._stamp = stamp
            assert self._sheet is not None
            return self._sheet

    def do(self, wish: Wish) -> Edit:
        """Do what a person asks for; the edit is on the disk when this returns."""
        return self.add(lambda standing: [edit_for(wish, standing, self.vocabulary)])[0]

    def add(self, make: Callable[[Standing], Iterable[Edit]]) -> list[Edit]:
        """Add edits made of the walk as it stands, while nobody else can add any."""
        with self._lock:
            heard = self.heard

            def made(edits: list[Edit]) -> list[Edit]:
                known = self._sheet
                if known is None or known.standing.heard is not heard or known.standing.edits != edits:
                    standing = after(heard, edits, self.vocabulary, self._earlier)
                else:
                    standing = known.standing
                return list(make(standing))

            return append(self.folder, made)

    def _renew(self, heard: Walk, edits: list[Edit]) -> None:
        standing = after(heard, edits, self.vocabulary, self._earlier)
        was = self._sheet
        number = was.number + 1 if was else 1
        new = sections(standing, self.vocabulary)
        old = {entry.key: entry for section in was.sections for entry in section.entries} if was else {}
        since = dict(was.since) if was else {}
        for entry in all_entries(new):
            if old.get(entry.key) != entry:
                since[entry.key] = number
        words = _words(standing, was)
        old_words = {one.key: one for one in was.words} if was else {}
        words_since = {
            one.key: was.words_since[one.key] if was and old_words.get(one.key) == one else number
            for one in words
        }
        self._sheet = Sheet(number, standing, new, since, words, words_since)


def _words(standing: Standing, was: Sheet | None) -> list[Paragraph]:
    """The paragraphs, those of before where nothing became of the words since."""
    if was:
        new, old = standing.walk.transcript.spans, was.standing.walk.transcript.spans
        if len(new) == len(old) and all(map(is_, new, old)):
            return was.words
    return paragraphs(standing.walk.transcript)


def all_entries(of: Iterable[Section]) -> Iterable[Entry]:
    """The entries of all sections."""
    return (entry for section in of for entry in section.entries)


def _stamp(path: Path) -> object:
    """What changes when a file does; None where there is none."""
    try:
        status = path.stat()
    except OSError:
        return None
    return status.st_ino, status.st_size, status.st_mtime_ns
