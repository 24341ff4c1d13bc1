"""Commands by voice: heard when said as a command, and never in talk. ``bench/commands.py`` does it at length."""

import pytest

from commands import TEMPTING, ear, heard, recognised, utterances
from saycheck.hearing.command_ear import CommandEar
from saycheck.hearing.ear import Phrase
from saycheck.live.commands import LEAD
from speak import speak, with_noise

pytestmark = pytest.mark.sound


@pytest.fixture(scope="module")
def listening() -> CommandEar:
    """The ear for commands with the usual lead word."""
    return ear(LEAD)


@pytest.mark.parametrize("voice", ["slt-hts", "rms", "espeak-gb"])
@pytest.mark.parametrize(
    "order", ["take that back", "change zone rear", "photo here", "what have I missed", "all done"]
)
def test_a_command_is_recognised(listening: CommandEar, voice: str, order: str) -> None:
    """Several synthetic voices, clean."""
    assert recognised(listening, LEAD, order, speak(f"{LEAD}, {order}.", voice))


def test_commands_are_recognised_beside_an_engine(listening: CommandEar) -> None:
    """Engine noise 10 dB below the speech: six of eight at least (0.90 of many in ``bench/commands.py``)."""
    right = [
        recognised(
            listening, LEAD, order, with_noise(speak(f"{LEAD}, {order}.", voice), 10.0, seed=len(order))
        )
        for voice in ("slt-hts", "rms")
        for order in ("take that back", "what have I missed", "note the gate sticks", "all done")
    ]
    assert sum(right) >= 6, right


def test_the_same_words_without_the_lead_are_talk(listening: CommandEar) -> None:
    """A command is a command only after the lead word."""
    sound = speak("Take that back. What have I missed? Photo here. Done. Change zone rear. Pause.", "slt-hts")
    assert [] == heard(listening, sound)


@pytest.mark.parametrize("voice", ["slt-hts", "rms"])
def test_talk_that_tempts_is_talk(listening: CommandEar, voice: str) -> None:
    """Sentences with the lead word and the words of commands in them start nothing."""
    assert [] == heard(listening, speak(TEMPTING.read_text(encoding="utf-8")[:700], voice))


def test_another_lead_word(listening: CommandEar) -> None:
    """Who chose another word is obeyed after that one and not after the usual one."""
    notebook = ear("notebook")
    assert recognised(notebook, "notebook", "photo here", speak("Notebook, photo here.", "slt-hts"))
    assert [] == heard(notebook, speak("Recorder, photo here.", "slt-hts"))


def test_a_pause_after_the_lead_word_does_no_harm(listening: CommandEar) -> None:
    """The lead by itself is nothing; the utterance that soon follows belongs to it, a late one does not."""
    spoken = (speak(text, "slt-hts") for text in ("Recorder.", "Take that back."))
    lead, order = (next(utterances(sound)).phrase.samples for sound in spoken)
    length = len(lead) / 16_000
    for gap_s, words in ((0.6, ["recorder", "take", "that", "back"]), (5.0, [])):
        assert [] == listening.hear(Phrase(lead, 0.0)).words
        found = listening.hear(Phrase(order, length + gap_s))
        assert words == [word.text for word in found.words]


@pytest.mark.parametrize(
    ("words", "seconds", "too_long"),
    [
        ("recorder pause", 2.2, False),  # the slowest of the bench's voices
        ("recorder pause", 3.5, False),  # with as long a pause after the lead as may be
        ("recorder pause", 7.6, True),  # a whole sentence, once taken for it
        ("recorder note", 9.0, False),  # anything may follow
    ],
)
def test_in_a_long_utterance_more_was_said(
    listening: CommandEar, words: str, seconds: float, too_long: bool
) -> None:
    """Two words do not take seven seconds."""
    assert too_long == listening._too_long(words.split(), seconds)
