"""Where a walk lies while it is listened to: beside the walk folder to come, whole at every moment.

    loader-seven.listening/
        recording.wav     the sound, on the disk within half a second of being spoken
        session.json      which machine, which unit, where the walk is to go
        events.jsonl      what cannot be told from the sound again: gaps, and what saycheck itself said

When the walk has been written the folder is taken away. A folder that is still there belongs to a walk that
was not finished; ``saycheck listen --resume`` writes it up.
"""

import json
import os
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from pydantic import ValidationError

from saycheck.capture.recording import length_s
from saycheck.errors import WalkError
from saycheck.models.base import Model
from saycheck.models.walk import Event

ENDING = ".listening"
RECORDING = "recording.wav"
SESSION = "session.json"
EVENTS = "events.jsonl"


class Session(Model):
    """What must be known to write a walk up from its sound alone."""

    machine: str
    unit: str | None = None
    hours: float | None = None
    lead: str
    ears: str
    model: str | None = None
    out: str
    started: str
    process: int


class ListeningFolder:
    """One such folder."""

    def __init__(self, path: Path) -> None:
        self.path = path

    @classmethod
    def for_walk(cls, out: Path) -> "ListeningFolder":
        """The folder that goes with the walk folder ``out``, with a number where there is one already."""
        path, number = out.with_name(out.name + ENDING), 1
        while path.exists():
            number += 1
            path = out.with_name(f"{out.name}-{number}{ENDING}")
        return cls(path)

    @property
    def recording(self) -> Path:
        return self.path / RECORDING

    def begin(self, session: Session) -> None:
        """Make the folder.

        Raises:
            WalkError: it cannot be made.
        """
        try:
            self.path.mkdir(parents=True)
            with (self.path / SESSION).open("x", encoding="utf-8") as file:
                file.write(session.model_dump_json(indent=1) + "\n")
                file.flush()
                os.fsync(file.fileno())
        except OSError as error:
            raise WalkError(
                f"'{self.path}' cannot be made ({error.strerror}); name a folder you may write to with --out"
            ) from error

    def session(self) -> Session:
        """What was being listened to.

        Raises:
            WalkError: this is no such folder, or it is damaged.
        """
        try:
            return Session.model_validate_json((self.path / SESSION).read_text(encoding="utf-8"))
        except OSError as error:
            raise WalkError(
                f"there is no unfinished walk in '{self.path}'; name a folder that ends in {ENDING}"
            ) from error
        except ValidationError as error:
            raise WalkError(
                f"'{self.path / SESSION}' is damaged; run: saycheck hear '{self.recording}' --machine KIND"
            ) from error

    def note(self, event: Event) -> None:
        """Put an event on the disk; a full disk is told by the recorder already."""
        with suppress(OSError), (self.path / EVENTS).open("a", encoding="utf-8") as file:
            file.write(event.model_dump_json() + "\n")
            file.flush()
            os.fsync(file.fileno())

    def events(self) -> Iterator[Event]:
        """All events noted so far; a line torn by a power cut is left out."""
        with suppress(OSError):
            for line in (self.path / EVENTS).read_text(encoding="utf-8").splitlines():
                with suppress(ValidationError, json.JSONDecodeError):
                    yield Event.model_validate_json(line)

    @property
    def seconds(self) -> float:
        """How much sound it holds."""
        return length_s(self.recording)

    def remove(self) -> None:
        """Take away what is in the walk folder now; what is not ours stays, and the folder with it."""
        for name in (RECORDING, SESSION, EVENTS):
            with suppress(OSError):
                (self.path / name).unlink(missing_ok=True)
        with suppress(OSError):
            self.path.rmdir()


def unfinished(base: Path) -> list[ListeningFolder]:
    """Folders below ``base`` of walks that nobody listens to any more, the newest first."""
    found = []
    for path in base.glob(f"*{ENDING}") if base.is_dir() else []:
        folder = ListeningFolder(path)
        with suppress(WalkError):
            if not _alive(folder.session().process):
                found.append(folder)
    return sorted(found, key=lambda one: one.path.stat().st_mtime, reverse=True)


def _alive(process: int) -> bool:
    """Whether a process of this number runs (another program may have its number by now; then we wait)."""
    if os.name != "posix":
        return process == os.getpid()
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True
