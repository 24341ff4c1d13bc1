"""Which words are a command, and which are not."""

import pytest

from saycheck.errors import VocabularyError
from saycheck.live.commands import command_of, lead_words, rows, sayings
from saycheck.vocabulary.compiled import Vocabulary

LEAD = ("recorder",)


@pytest.mark.parametrize(
    ("words", "name", "zone"),
    [
        ("recorder take that back", "take back", None),
        ("recorder change zone left side", "zone", "left side"),
        ("recorder now the cab", "zone", "cab"),
        ("recorder next zone", "next zone", None),
        ("recorder same again on this side", "same again", None),
        ("recorder note", "note", None),
        ("recorder note the gate sticks", "note", None),
        ("recorder photo here", "photo", None),
        ("recorder pause", "pause", None),
        ("recorder go on", "go on", None),
        ("recorder what have i missed", "missed", None),
        ("recorder more", "more", None),
        ("recorder read that back", "read back", None),
        ("recorder done", "done", None),
        ("recorder done with the bucket", None, None),  # more than the command
        ("recorder", None, None),
        ("recorder the bucket is cracked", None, None),
    ],
)
def test_whole_sayings_only(loader: Vocabulary, words: str, name: str | None, zone: str | None) -> None:
    """A command is the whole utterance; only a note goes on."""
    found = command_of(words.split(), LEAD, sayings(loader), 1.0, 2.0)
    assert (name, zone) == ((found.name, found.zone) if found else (None, None))


def test_no_saying_has_two_meanings(loader: Vocabulary) -> None:
    """Each way to say something is that of one command (and of one zone)."""
    meanings: dict[tuple[str, ...], set[tuple[str, str | None]]] = {}
    for one in sayings(loader):
        meanings.setdefault(one.words, set()).add((one.command, one.zone))
    assert {} == {words: both for words, both in meanings.items() if len(both) > 1}


def test_every_command_of_the_file_is_obeyed() -> None:
    """A name that the listener does not know would be heard and do nothing."""
    import inspect

    from saycheck.live import obey

    code = inspect.getsource(obey)
    assert [] == [row.name for row in rows() if f'"{row.name}"' not in code]


@pytest.mark.parametrize(
    ("lead", "words"),
    [("Recorder", ("recorder",)), ("hey notebook", ("hey", "notebook")), ("Unit 7", ("unit", "seven"))],
)
def test_the_lead_word_as_it_is_said(lead: str, words: tuple[str, ...]) -> None:
    """Capitals do not matter, figures are words."""
    assert words == lead_words(lead)


@pytest.mark.parametrize("lead", ["", "  ", "7", "?!"])
def test_no_lead_word(lead: str) -> None:
    """What is no word is refused in one sentence."""
    with pytest.raises(VocabularyError) as raised:
        lead_words(lead)
    assert f"'{lead}' cannot be a lead word; choose one or two words with three syllables" == str(
        raised.value
    )
