"""Files that a command writes for other programs: whole or not at all, and never over one that is there."""

import os
import sys
from collections.abc import Callable
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import IO

from saycheck.errors import HistoryError


def write_out(out: Path, replace: bool, write: Callable[[IO[bytes]], None]) -> None:
    """Write to a file, or to standard output where it is ``-``.

    The file appears under its name only when it is whole.

    Raises:
        HistoryError: there is such a file and ``replace`` is not asked for, or it cannot be written.
    """
    if str(out) == "-":
        write(sys.stdout.buffer)
        sys.stdout.buffer.flush()
        return
    if out.exists() and not replace:
        raise HistoryError(f"'{out}' is there already; name another file, or say --replace")
    try:
        with NamedTemporaryFile(dir=out.parent, prefix=f".{out.name}-", delete=False) as draft:
            whole = Path(draft.name)
            try:
                write(draft)
                draft.flush()
                os.fsync(draft.fileno())
            except BaseException:
                whole.unlink(missing_ok=True)
                raise
        _let_others_read(whole)
        whole.replace(out)
    except OSError as error:
        raise HistoryError(
            f"'{out}' cannot be written ({error.strerror}); choose a folder that you may write to"
        ) from error


def _let_others_read(path: Path) -> None:
    """Give a file the rights that any new file gets; temporary ones are private."""
    mask = os.umask(0)
    os.umask(mask)
    path.chmod(0o666 & ~mask)
