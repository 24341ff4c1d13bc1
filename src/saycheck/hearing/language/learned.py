"""What a shop has spoken itself, for the ears to learn from: one file of walks in the cache folder.

The file has the form of ``vocab/shared/talk/*.txt``, one breath a line, and is named by what is in it. Like the
folders of ``vocabulary.chosen`` it travels in the environment, so that every ear in every process learns the same.
"""

import os
from collections.abc import Mapping, Sequence
from hashlib import sha256
from pathlib import Path

from saycheck.errors import EarError
from saycheck.hearing.language.breaths import breaths
from saycheck.hearing.language.cache import kept

LEARNED = "SAYCHECK_LEARNED"
"""The environment variable that names the file; set by the program, not by people."""
_FILE = "walks.txt"


def keep(texts: Sequence[str], cache: Path | None = None) -> Path:
    """The file of the walks whose texts these are, written where it is not there yet.

    ``cache`` is the cache folder, else the user's. Raises EarError where it cannot be written.
    """
    lines = [[" ".join(breath) for breath in breaths(text)] for text in texts]
    whole = "\n\n".join("\n".join(walk) for walk in lines if walk) + "\n"

    def make(folder: Path) -> None:
        (folder / _FILE).write_text(whole, encoding="utf-8", newline="\n")

    return kept("learned", sha256(whole.encode()).hexdigest()[:16], make, cache) / _FILE


def digest(file: Path) -> str:
    """Twelve hex digits that tell one file of ``keep`` from all others."""
    return sha256(file.read_bytes()).hexdigest()[:12]


def choose(file: Path) -> None:
    """Let all ears of this run, and of all that it starts, learn from a file of ``keep``."""
    os.environ[LEARNED] = str(file)


def chosen(environment: Mapping[str, str] = os.environ) -> Path | None:
    """The file that was chosen, None where nothing is to be learned.

    Raises EarError where it is not there any more.
    """
    named = environment.get(LEARNED, "").strip()
    if not named:
        return None
    if not Path(named).is_file():
        raise EarError(
            f"what the ears were to learn is not in '{named}' any more; start again with --learn-from, "
            f"or without {LEARNED}"
        )
    return Path(named)
