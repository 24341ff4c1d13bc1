"""Commands, notes and pauses in a transcript."""

from collections.abc import Callable

import pytest

from saycheck.live.commands import Command
from saycheck.live.marked import Stretch, marked
from saycheck.models.hearing import OtherReading
from saycheck.models.walk import Span, Transcript
from saycheck.unclear import held_back

Make = Callable[[str], Transcript]

LEAD = ("recorder",)


def command(name: str, words: str, start_s: float, end_s: float) -> Command:
    """A command with its lead word."""
    return Command(name, ("recorder", *words.split()), start_s, end_s)


def shown(text: str, spans: list[Span]) -> list[tuple[str, str]]:
    """The words and disposition of each span."""
    return [(text[span.char_start : span.char_end], span.disposition) for span in spans]


def test_the_words_of_a_command_stand_for_what_the_ears_made_of_it(transcript: Make) -> None:
    """Whatever was heard in its seconds gives way; times are those of the command."""
    made = marked(
        transcript("bucket is cracked reporter day clock bag seat belt works"),
        [command("take back", "take that back", 1.5, 3.5)], LEAD,
    )  # fmt: skip
    assert "bucket is cracked Recorder take that back. seat belt works" == made.transcript.text
    assert [("Recorder", "command")] == shown(made.transcript.text, made.transcript.spans)
    assert [("Recorder take that back.", "command")] == shown(made.transcript.text, made.after)
    assert all(
        word.text == made.transcript.text[word.char_start : word.char_end] for word in made.transcript.words
    )
    assert 1.5 == made.transcript.words[3].start_s


@pytest.mark.parametrize(
    ("words", "place"),
    [
        ("bucket is cracked", 1.5),  # at the end
        ("bucket is cracked", 9.0),  # after a pause in which nothing was heard
    ],
)
def test_a_command_that_no_ear_heard_is_there_all_the_same(
    transcript: Make, words: str, place: float
) -> None:
    """It comes after all words before it."""
    made = marked(transcript(words), [command("photo", "photo here", place, place + 1)], LEAD)
    assert "bucket is cracked Recorder photo here." == made.transcript.text


def test_what_understanding_must_not_read_is_held_back(transcript: Make) -> None:
    """Other commands are held back whole, and so are notes, pauses and our own voice."""
    made = marked(
        transcript("bucket is fine record a photo here note the gate sticks hello there all good"),
        [command("photo", "photo here", 1.5, 3.5), Command("note", ("recorder", "note"), 3.5, 5.5)], LEAD,
        [Stretch(5.5, 6.5, "talk", "said while paused")],
    )  # fmt: skip
    text, words = held_back(made.transcript)
    assert ["bucket", "is", "fine", ".", ".", ".", "all", "good"] == text.split()
    assert len(made.transcript.text) == len(text)
    assert ["bucket", "is", "fine", "all", "good"] == [word.text for word in words]
    assert [
        ("Recorder photo here.", "command"), ("note the gate sticks", "command"), ("hello there", "talk"),
    ] == shown(made.transcript.text, made.transcript.spans)  # fmt: skip


def test_unclear_passages_stay_unclear_round_a_command(transcript: Make) -> None:
    """A command in the middle of a noisy passage leaves both ends of it unclear."""
    given = transcript("good one two x y three four good")
    noisy = Span(char_start=5, char_end=25, disposition="unclear", why="noise")
    assert "one two x y three fo" == given.text[5:25]
    made = marked(given.model_copy(update={"spans": [noisy]}), [command("pause", "pause", 1.5, 2.5)], LEAD)
    assert [("one two", "unclear"), ("Recorder pause.", "command"), ("three four", "unclear")] == shown(
        made.transcript.text, made.transcript.spans
    )


def test_other_readings_move_with_their_words(transcript: Make) -> None:
    """A reading outside the command still points at its words; one across it is gone."""
    given = transcript("x y bucket is cracked")
    readings = [
        OtherReading(char_start=4, char_end=10, text="packet", ear="trade", confidence=0.5),
        OtherReading(char_start=2, char_end=10, text="why packet", ear="trade", confidence=0.5),
    ]
    made = marked(
        given.model_copy(update={"readings": readings}), [command("pause", "pause", 0.0, 1.0)], LEAD
    )
    assert "Recorder pause. bucket is cracked" == made.transcript.text
    assert [("bucket", "packet")] == [
        (made.transcript.text[one.char_start : one.char_end], one.text) for one in made.transcript.readings
    ]


def test_without_commands_nothing_changes(transcript: Make) -> None:
    """The transcript of an ordinary walk is the same, character for character."""
    given = transcript("Bucket is cracked at the corner, write that up.")
    assert given == marked(given, [], LEAD).transcript


def test_a_pause_counts_from_its_start_to_its_end(transcript: Make) -> None:
    """Our own "paused" in the middle of it changes nothing: what else was said meanwhile stays held back."""
    made = marked(
        transcript("bucket is fine paused boom is bent seat belt works"), [], LEAD,
        [
            Stretch(1.5, 2.0, "talk", "said by saycheck itself", "paused"),
            Stretch(1.5, 3.5, "talk", "said while paused"),
        ],
    )  # fmt: skip
    words = held_back(made.transcript)[1]
    assert ["bucket", "is", "fine", "seat", "belt", "works"] == [word.text for word in words]


def test_only_our_own_words_are_ours(transcript: Make) -> None:
    """What the walker said in the same seconds is understood."""
    made = marked(
        transcript("taken back bucket seat belt works"), [], LEAD,
        [Stretch(0.0, 9.0, "talk", "said by saycheck itself", "taken back: bucket")],
    )  # fmt: skip
    assert ["seat", "belt", "works"] == [word.text for word in held_back(made.transcript)[1]]
