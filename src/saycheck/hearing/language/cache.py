"""What took seconds to make is kept in the user's cache folder, one folder a thing, whole or not at all."""

import shutil
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from saycheck.errors import EarError

KEPT = 12
"""So many folders of one kind stay; the ones not used for longest go."""


def kept(kind: str, name: str, make: Callable[[Path], None], home: Path | None = None) -> Path:
    """The folder ``name`` among those of ``kind``, made by ``make(folder)`` where there is none yet.

    ``home`` is the cache folder, else the user's. It is made beside its place and moved there in one
    step, so that two programs at once, or one that is broken off, never leave half a folder.
    Raises EarError where nothing can be written.
    """
    if home is None:
        from platformdirs import user_cache_path

        home = user_cache_path("saycheck")
    shelf = home / kind
    place = shelf / name
    if place.is_dir():
        with suppress(OSError):
            place.touch()
        return place
    try:
        shelf.mkdir(parents=True, exist_ok=True)
        making = Path(tempfile.mkdtemp(prefix=".making-", dir=shelf))
    except OSError as error:
        raise EarError(
            f"the cache folder '{shelf}' cannot be written ({error.strerror}); free some space there or set"
            " XDG_CACHE_HOME to a folder that can be written"
        ) from error
    try:
        make(making)
        with suppress(OSError):  # another program was quicker; its folder is as good
            making.rename(place)
        if not place.is_dir():
            raise EarError(f"the cache folder '{place}' could not be put in place; look at its permissions")
    except OSError as error:
        raise EarError(
            f"the cache folder '{shelf}' cannot be written ({error.strerror}); free some space"
        ) from error
    finally:
        shutil.rmtree(making, ignore_errors=True)
    _tidy(shelf, place)
    return place


def _tidy(shelf: Path, place: Path) -> None:
    with suppress(OSError):
        folders = [f for f in shelf.iterdir() if f.is_dir() and f != place and not f.name.startswith(".")]
        for old in sorted(folders, key=lambda f: f.stat().st_mtime, reverse=True)[KEPT - 1 :]:
            shutil.rmtree(old, ignore_errors=True)
