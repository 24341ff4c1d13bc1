"""What is needed again only at the end, put aside on the disk so that hours of it take no memory.

The file has no name (or one that the system forgets), so that nothing is left of it however the program ends.
"""

import tempfile
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import IO

_SIZE = 8


class Aside:
    """Rows of bytes in the order in which they were put; ``folder`` is on the disk that takes them.

    While the disk takes no more they wait in memory, and go to the disk when it does.
    """

    def __init__(self, folder: Path | None = None) -> None:
        self._folder = folder
        self._file: IO[bytes] | None = None
        self._end = 0
        self._waiting: list[bytes] = []

    def put(self, row: bytes) -> None:
        """Put a row aside; never fails."""
        self._waiting.append(row)
        with suppress(OSError):
            while self._waiting:
                self._write(self._waiting[0])
                del self._waiting[0]

    def rows(self) -> Iterator[bytes]:
        """All rows, from the first on.

        Raises:
            OSError: the disk does not give them back.
        """
        at = 0
        while self._file is not None and at < self._end:
            self._file.seek(at)
            size = int.from_bytes(self._file.read(_SIZE), "little")
            row = self._file.read(size)
            at += _SIZE + size
            yield row
        yield from list(self._waiting)

    def close(self) -> None:
        """Let go of the file and all that is in it."""
        if self._file is not None:
            self._file.close()
            self._file, self._end = None, 0
        self._waiting = []

    def _write(self, row: bytes) -> None:
        if self._file is None:
            self._file = tempfile.TemporaryFile(dir=self._folder, buffering=0)  # noqa: SIM115
        left = memoryview(len(row).to_bytes(_SIZE, "little") + row)
        self._file.seek(self._end)  # over what was written of a row by half
        while left:
            left = left[self._file.write(left) :]
        self._end += _SIZE + len(row)
