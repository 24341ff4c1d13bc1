"""Lines of talk with choices in them, and how one of the many things they stand for is said.

    the {part} is (fine|good)[ again]      a name in braces is filled in by whoever knows it,
                                           (a|b) is one of these, [a] is perhaps this

A line is parsed once and said many times.
"""

import random
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from saycheck.errors import VocabularyError

Slot = Callable[[random.Random], str]
"""Says what stands for a name: words parted by spaces."""

_TOKEN = re.compile(r"\{([^{}]+)\}|([()\[\]|])|([^\s{}()\[\]|]+)")


@dataclass(frozen=True)
class Choice:
    """One of several runs of words."""

    runs: tuple["Run", ...]


@dataclass(frozen=True)
class Named:
    """What stands for a name in braces."""

    name: str


Run = tuple[str | Choice | Named, ...]


def parsed(line: str) -> Run:
    """Parse one line; VocabularyError where a bracket has no partner."""
    tokens = [m.groups() for m in _TOKEN.finditer(line)]
    runs, rest = _runs(tokens, 0, "", line)
    if rest != len(tokens):
        raise VocabularyError(f"the line of talk '{line}' closes a bracket it never opened; take it out")
    return runs[0] if len(runs) == 1 else (Choice(tuple(runs)),)


def _runs(tokens: list[tuple[str, ...]], at: int, closing: str, line: str) -> tuple[list[Run], int]:
    runs: list[list[str | Choice | Named]] = [[]]
    while at < len(tokens):
        name, mark, word = tokens[at]
        at += 1
        if name:
            runs[-1].append(Named(name.strip()))
        elif word:
            runs[-1].append(word)
        elif mark == "|":
            runs.append([])
        elif mark in "([":
            inner, at = _runs(tokens, at, ")" if mark == "(" else "]", line)
            runs[-1].append(Choice((*inner, *([()] if mark == "[" else []))))
        elif mark == closing:
            return [tuple(run) for run in runs], at
        else:
            return [tuple(run) for run in runs], at - 1
    if closing:
        raise VocabularyError(f"the line of talk '{line}' opens a bracket it never closes; add '{closing}'")
    return [tuple(run) for run in runs], at


def names(run: Run) -> set[str]:
    """All names in braces of a line."""
    found: set[str] = set()
    for item in run:
        if isinstance(item, Named):
            found.add(item.name)
        elif isinstance(item, Choice):
            found |= {name for inner in item.runs for name in names(inner)}
    return found


def say(run: Run, slots: Mapping[str, Slot], rng: random.Random) -> list[str]:
    """One of the many ways to say a line, as words."""
    out: list[str] = []
    _say(run, slots, rng, out)
    return out


def _say(run: Run, slots: Mapping[str, Slot], rng: random.Random, out: list[str]) -> None:
    for item in run:
        if isinstance(item, str):
            if item.startswith("'") and out:
                _tie(item, out)
            else:
                out.append(item)
        elif isinstance(item, Named):
            out.extend(slots[item.name](rng).split())
        else:
            _say(item.runs[int(rng.random() * len(item.runs))], slots, rng, out)


def _tie(ending: str, out: list[str]) -> None:
    """Put a short form ("'s") on the word before; after an s the full word is said."""
    if out[-1].endswith(("s", "x", "ch", "sh")) and ending == "'s":
        out.append("is")
    else:
        out[-1] += ending
