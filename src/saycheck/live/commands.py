"""Spoken commands: what they are called, how they are said, and what stands for them in the transcript.

A command is said after the lead word ("saycheck, what have I missed"), by itself between two pauses. In
ordinary talk the same words do nothing.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from saycheck.errors import VocabularyError
from saycheck.hearing.spoken import spoken
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Command as Row
from saycheck.vocabulary.schema import Commands

LEAD = "recorder"
"""The lead word where nobody chose another."""

LEFT_TO_UNDERSTANDING = frozenset(["take back", "zone", "same again"])
"""Commands that understanding obeys in their own words; only the lead word is held back from it."""


@dataclass(frozen=True)
class Command:
    """A command as it was said: its name, the zone where it names one, its words with the lead, its seconds."""

    name: str
    words: tuple[str, ...]
    start_s: float
    end_s: float
    zone: str | None = None


@dataclass(frozen=True)
class Saying:
    """One way to say a command, without the lead word; ``goes_on`` where anything may follow."""

    command: str
    words: tuple[str, ...]
    zone: str | None = None
    goes_on: bool = False


@cache
def rows() -> tuple[Row, ...]:
    """All commands of ``vocab/shared/commands.toml``."""
    return tuple(row for table in shared_tables("commands.toml", Commands) for row in table.command)


def sayings(vocabulary: Vocabulary) -> list[Saying]:
    """Every way to say every command round a machine of this kind."""
    return [saying for row in rows() for phrase in row.phrases for saying in _spelt(row, phrase, vocabulary)]


def _spelt(row: Row, phrase: str, vocabulary: Vocabulary) -> Iterator[Saying]:
    if "{zone}" not in phrase:
        yield Saying(row.name, tuple(phrase.split()), goes_on=row.goes_on)
        return
    for zone in vocabulary.zones:
        for name in zone.sayings:
            yield Saying(row.name, tuple(phrase.replace("{zone}", name).split()), zone=zone.name)


def lead_words(lead: str) -> tuple[str, ...]:
    """The lead word as it is said.

    Raises:
        VocabularyError: there is no word in it.
    """
    words = tuple(word for written in lead.split() for word in spoken(written))
    if not words or not any(letter.isalpha() for letter in lead):
        raise VocabularyError(f"'{lead}' cannot be a lead word; choose one or two words with three syllables")
    return words


def command_of(
    words: Sequence[str], lead: Sequence[str], known: Sequence[Saying], start_s: float, end_s: float
) -> Command | None:
    """The command whose words these are, the lead word in front, or None."""
    rest = tuple(words[len(lead) :])
    for saying in known:
        count = len(saying.words)
        if rest[:count] == saying.words and (saying.goes_on or len(rest) == count):
            return Command(saying.command, tuple(words), start_s, end_s, saying.zone)
    return None
