"""The files ``vocab/shared/talk/*.toml``: what people say on a walk, with names in braces to fill in."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from pydantic import Field

from saycheck.hearing.language.phrasing import Run, parsed
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Table

MANNERS = ("terse", "sentences", "teaching", "chat", "corrections", "running")


class ListsFile(Table):
    """``talk/words.toml``: named lists, alternatives parted by a bar, and spellings made one."""

    lists: dict[str, str]
    spelling: dict[str, str] = Field(default={})


class MannerFile(Table):
    """One manner of talking: its name, its share of all talk, and its lines, one a row."""

    name: str
    share: float
    lines: str


@dataclass(frozen=True)
class Manner:
    """A manner of talking, its lines parsed."""

    name: str
    share: float
    lines: tuple[Run, ...]


@dataclass(frozen=True)
class Talk:
    """All that the talk files say. ``spelling`` maps a way to write something to the one that is used."""

    lists: dict[str, Run]
    manners: tuple[Manner, ...]
    spelling: dict[str, str]


def read_talk(folders: Sequence[Path] = ()) -> Talk:
    """Read the talk files; those of a shop's own folders add lines and lists to the shipped ones."""
    lists: dict[str, str] = {}
    spelling: dict[str, str] = {}
    for words in shared_tables("talk/words.toml", ListsFile, folders):
        lists |= words.lists
        spelling |= words.spelling
    manners = []
    for name in MANNERS:
        files = shared_tables(f"talk/{name}.toml", MannerFile, folders)
        lines = tuple(parsed(line) for file in files for line in file.lines.splitlines() if line.strip())
        if lines:
            manners.append(Manner(name, files[-1].share, lines))
    return Talk({name: parsed(text) for name, text in lists.items()}, tuple(manners), spelling)
