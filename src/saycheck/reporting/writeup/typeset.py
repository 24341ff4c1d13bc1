"""Typst as the write-up uses it: files in memory in, a tagged PDF out, no fonts but those it brings along."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any


class RefusedError(Exception):
    """What typst will not set; ``str(error)`` is its own first line."""


def typeset(made_of: Mapping[str, bytes], made: datetime | None = None) -> bytes:
    """Set ``main.typ`` among the files; raises :class:`RefusedError`."""
    import typst

    compiled: Any = typst.compile  # its types leave out that it takes several files
    stamp = {"timestamp": made.replace(microsecond=0)} if made else {}
    try:
        return bytes(compiled(dict(made_of), pdf_standards="ua-1", ignore_system_fonts=True, **stamp))
    except typst.TypstError as error:
        raise RefusedError(str(error).splitlines()[0]) from error
