"""Typst as the write-up uses it: texts in memory in, a tagged PDF out, no fonts but those it brings along."""

from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any


class RefusedError(Exception):
    """What typst will not set; ``str(error)`` is its own first line."""


def typeset(
    texts: Mapping[str, bytes], made: datetime | None = None, pictures: Mapping[str, bytes] | None = None
) -> bytes:
    """Set ``main.typ`` among the texts and pictures, by file name; raises :class:`RefusedError`.

    Pictures lie in a folder of their own while it is set, and nothing outside that folder can be read.
    """
    import typst

    compiled: Any = typst.compile  # its types leave out that it takes several texts
    stamp = {"timestamp": made.astimezone().replace(microsecond=0)} if made else {}
    with TemporaryDirectory(prefix="saycheck-") as folder:
        for name, content in (pictures or {}).items():
            (Path(folder) / Path(name).name).write_bytes(content)
        try:
            return bytes(
                compiled(dict(texts), root=folder, pdf_standards="ua-1", ignore_system_fonts=True, **stamp)
            )
        except RuntimeError as error:  # TypstError is one
            raise RefusedError((str(error).splitlines() or ["it says no more"])[0]) from error
