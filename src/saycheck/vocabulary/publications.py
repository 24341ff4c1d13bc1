"""The publications that checks and limits rest on (``shared/sources.toml``), by the words that name them."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from pathlib import Path

from saycheck.vocabulary.files import TextFile, parse, read_text
from saycheck.vocabulary.load import roots_of
from saycheck.vocabulary.schema import Source, Sources

COMMON_PRACTICE = "common practice, no source"


def publications(text: str | None, folders: Sequence[Path] = ()) -> Iterator[tuple[Source, TextFile, int]]:
    """Every publication that a source text names, with its file and its place in it."""
    if text is None or text == COMMON_PRACTICE:
        return
    for root in roots_of(folders):
        path = root / "shared" / "sources.toml"
        if path.is_file():
            file = read_text(path, root)
            for place, source in enumerate(_parsed(file).source):
                if source.cite in text:
                    yield source, file, place


def in_short(source: Source) -> str:
    """A publication with its date or edition, and whether it was read."""
    seen = "" if source.seen == "read" else "; from memory, look it up"
    return f"{source.cite}: {source.title} ({source.edition}{seen})"


@lru_cache(maxsize=8)
def _parsed(file: TextFile) -> Sources:
    return parse(file, Sources)
