"""The words that the trade uses for a defect: those of the conditions that answer a check."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from pathlib import Path

from saycheck.vocabulary.files import TextFile, parse, read_text
from saycheck.vocabulary.load import roots_of
from saycheck.vocabulary.schema import Check, Condition, Conditions

SHOWN = 8
"""So many words of a condition are shown; ``conditions.toml`` holds them all."""


def words_of(condition: Condition) -> list[str]:
    """All words for a condition, those that stand by themselves first."""
    return [*condition.adjectives, *condition.nouns, *condition.verbs, *condition.phrases]


def defects(check: Check, folders: Sequence[Path] = ()) -> Iterator[tuple[Condition, TextFile, int]]:
    """The faults that answer a check, each with its file and its place in it; several may share a name."""
    for file, table in _tables(tuple(roots_of(folders))):
        for place, condition in enumerate(table.condition):
            if condition.form == "fault" and condition.name in check.conditions:
                yield condition, file, place


def in_short(condition: Condition) -> str:
    """A fault with its state and the first of its words."""
    words = words_of(condition)
    more = ", ..." if len(words) > SHOWN else ""
    return f"{condition.name} ({condition.state}): {', '.join(words[:SHOWN])}{more}"


def _tables(roots: tuple[Path, ...]) -> list[tuple[TextFile, Conditions]]:
    paths = [(root, root / "shared" / "conditions.toml") for root in roots]
    files = [read_text(path, root) for root, path in paths if path.is_file()]
    return [(file, _parsed(file)) for file in files]


@lru_cache(maxsize=8)
def _parsed(file: TextFile) -> Conditions:
    return parse(file, Conditions)
