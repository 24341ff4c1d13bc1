"""The walk on the reviewer's desk: as it stands now, what is on the page, and what has changed since when.

Other programs may edit the same walk; the desk looks whether they did whenever it is asked.
"""

import secrets
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path
from threading import RLock

from saycheck import walkfolder
from saycheck.models.review import Edit, Standing
from saycheck.models.walk import Walk
from saycheck.models.wishes import Wish
from saycheck.page.entries import Section, sections
from saycheck.page.entry import Entry, Maker
from saycheck.page.strip import Strip, strip
from saycheck.page.words import Paragraph, paragraphs
from saycheck.review.changes import edit_for
from saycheck.review.edits import EDITS, append
from saycheck.review.log import Log
from saycheck.standing import after
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load


@dataclass
class Sheet:
    """What is on the page at one moment; ``number`` grows with each change that the desk notices.

    ``pieces`` is all that stands there, by key: entries, paragraphs, marks on the strip, its ``zones`` and its
    ``sound``, and ``s-`` with a section's key: in which order entries stand there. ``since`` tells for each the
    number of the sheet in which it last changed.
    """

    number: int
    standing: Standing
    sections: list[Section]
    words: list[Paragraph]
    strip: Strip
    pieces: dict[str, object] = field(default_factory=dict)
    since: dict[str, int] = field(default_factory=dict)


class Desk:
    """One walk folder being reviewed; safe to use from several threads.

    ``run`` names this desk among others of the same walk; ``hearings`` counts how often the walk was read.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.run = secrets.token_hex(4)
        self.hearings = 0
        self._lock = RLock()
        self._stamp: object = None
        self._heard_stamp: object = None
        self._heard: Walk | None = None
        self._vocabulary: Vocabulary | None = None
        self._earlier: list[Walk] = []
        self._sheet: Sheet | None = None
        self._maker: Maker | None = None
        self._log = Log()

    @property
    def heard(self) -> Walk:
        """The walk as heard, read anew when it was heard again."""
        stamp = _stamp(self.folder / walkfolder.WALK)
        if self._heard is None or stamp != self._heard_stamp:
            self._heard = walkfolder.read(self.folder)
            self._vocabulary = load(self._heard.machine.kind, unit=self._heard.machine.unit)
            self._earlier = walkfolder.earlier(self.folder)
            self._maker = Maker(self._heard)
            self._heard_stamp = stamp
            self.hearings += 1
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
                self._renew(heard, self._log(self.folder))
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

            return append(self.folder, made, self._log)

    def _renew(self, heard: Walk, edits: list[Edit]) -> None:
        standing = after(heard, edits, self.vocabulary, self._earlier)
        was = self._sheet
        number = was.number + 1 if was else 1
        on_page = sections(standing, self.vocabulary, self._maker)
        words = paragraphs(standing.walk, (was.standing.walk, was.words) if was else None)
        sheet = Sheet(number, standing, on_page, words, strip(standing))
        sheet.pieces = dict(_pieces(sheet))
        for key, piece in sheet.pieces.items():
            old = was.pieces.get(key) if was else None
            sheet.since[key] = was.since[key] if was and (piece is old or piece == old) else number
        self._sheet = sheet


def _pieces(sheet: Sheet) -> Iterable[tuple[str, object]]:
    for section in sheet.sections:
        yield f"s-{section.key}", (section.title, [one.key for one in section.entries])
        yield from ((one.key, one) for one in section.entries)
    yield from ((one.key, one) for one in sheet.words)
    yield from ((one.key, one) for one in sheet.strip.marks)
    yield "zones", (sheet.strip.zones, sheet.strip.told)
    yield "sound", sheet.strip.sound


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
