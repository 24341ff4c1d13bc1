"""The edits of one walk as a program that stays open reads them: what was read before is not parsed again.

A long review has hundreds of edits; reading all of them for each new one would be most of the wait. Only whole
lines are kept, and only as long as the file still begins with the very bytes that they were read from.
"""

from pathlib import Path

from saycheck.models.review import Edit
from saycheck.review.edits import EDITS, lines_of, read_line


class Log:
    """Reads ``edits.jsonl`` as ``review.edits.read`` does; the same edit is the same object each time."""

    def __init__(self) -> None:
        self._bytes = b""
        self._edits: list[Edit] = []

    def __call__(self, folder: Path) -> list[Edit]:
        """The edits of a walk, oldest first.

        Raises:
            WalkError: as ``review.edits.read``.
        """
        path = folder / EDITS
        whole, _ = lines_of(path)
        content = b"".join(line + b"\n" for line in whole)
        if not content.startswith(self._bytes):
            self._bytes, self._edits = b"", []
        known = len(self._edits)
        new = [read_line(Edit, line, number, path) for number, line in enumerate(whole[known:], known + 1)]
        self._bytes, self._edits = content, [*self._edits, *new]
        return list(self._edits)
