"""From what the ears heard to a transcript with offsets, times and unclear passages."""

from collections.abc import Sequence

import numpy as np
import pytest

from saycheck.hearing.ear import Phrase
from saycheck.hearing.hear import hear
from saycheck.hearing.joining import Fuse, Other, only
from saycheck.hearing.side_by_side import EarProcess
from saycheck.models.hearing import HeardWord, Hearing, Passage
from saycheck.models.walk import Transcript


class Toy(EarProcess):
    """An ear that has heard already: one line of words a phrase, a second for each word."""

    def __init__(self, name: str, *lines: str) -> None:
        self.name = name
        self.lines = list(lines)
        self.starts: list[float] = []

    def __enter__(self) -> "Toy":
        return self

    def __exit__(self, *_: object) -> None:
        pass

    def give(self, phrase: Phrase) -> None:
        self.starts.append(phrase.start_s)

    def answer(self) -> Hearing:
        start = self.starts.pop(0)
        words = [
            HeardWord(text=word, start_s=start + place, end_s=start + place + 1, confidence=0.9)
            for place, word in enumerate(self.lines.pop(0).split())
        ]
        return Hearing(ear=self.name, words=words)


def heard(ears: Sequence[Toy], passages: Sequence[Passage] = (), fuse: Fuse = only) -> Transcript:
    """What is made of ten-second phrases that begin ten seconds apart."""
    count = len(ears[0].lines)
    phrases = [Phrase(np.zeros(16_000 * 10, np.float32), 10.0 * place) for place in range(count)]
    return hear(phrases, ears, fuse, lambda: passages, lambda _: None)


def test_one_ear_makes_one_text() -> None:
    """Words of all phrases stand in one text, each with its place there and in the sound."""
    transcript = heard([Toy("ear", "bucket is good", "", "seat works")])
    assert "bucket is good seat works" == transcript.text
    assert [("bucket", 0.0), ("is", 1.0), ("good", 2.0), ("seat", 20.0), ("works", 21.0)] == [
        (word.text, word.start_s) for word in transcript.words
    ]
    assert [word.text for word in transcript.words] == [
        transcript.text[word.char_start : word.char_end] for word in transcript.words
    ]
    assert [] == transcript.spans


def test_silence_makes_no_text() -> None:
    """Where no phrase was found there is an empty transcript."""
    assert Transcript(text="", words=[]) == heard([Toy("ear")])


@pytest.mark.parametrize(
    ("passages", "text", "unclear"),
    [
        ([Passage(start_s=0, end_s=20, kind="speech")], "one two three four", []),
        (
            [
                Passage(start_s=0, end_s=5, kind="speech", trouble="wind"),
                Passage(start_s=5, end_s=20, kind="speech"),
            ],
            "one two three four",
            [("one two", "wind")],
        ),
        (
            [
                Passage(start_s=0, end_s=1, kind="speech", trouble="wind"),
                Passage(start_s=1, end_s=20, kind="speech", trouble="clipped"),
            ],
            "one two three four",
            [("one", "wind"), ("two three four", "clipped")],
        ),
        (
            [Passage(start_s=0, end_s=10, kind="speech"), Passage(start_s=10, end_s=20, kind="silence")],
            "one two",
            [],
        ),
        (
            [Passage(start_s=0, end_s=1, kind="noise"), Passage(start_s=1, end_s=20, kind="speech")],
            "two three four",
            [],
        ),
    ],
    ids=["all clear", "wind at first", "two troubles", "words on silence", "words on noise"],
)
def test_what_was_measured_decides_what_is_trusted(
    passages: list[Passage], text: str, unclear: list[tuple[str, str]]
) -> None:
    """Words in a troubled passage are unclear and say why; words where nobody spoke are dropped."""
    transcript = heard([Toy("ear", "one two", "three four")], passages)
    assert text == transcript.text
    assert unclear == [(transcript.text[s.char_start : s.char_end], s.why) for s in transcript.spans]


def test_progress_is_told_phrase_by_phrase() -> None:
    """Whoever waits hears up to which second the recording is done."""
    told: list[float] = []
    phrases = [Phrase(np.zeros(16_000, np.float32), start) for start in (0.0, 4.0)]
    hear(phrases, [Toy("ear", "one", "two")], only, list, told.append)
    assert [1.0, 5.0] == told


def test_what_was_not_taken_stays_beside_the_text() -> None:
    """Another ear's words stand at the characters of the words that were taken, in whatever phrase."""

    def fuse(hearings: Sequence[Hearing]) -> tuple[list[HeardWord], list[Other]]:
        words = hearings[0].words
        theirs = " ".join(word.text for word in hearings[1].words)
        return words, [Other(0, len(words), theirs, hearings[1].ear, 0.5)]

    transcript = heard(
        [Toy("one", "a bucket", "", "is good"), Toy("other", "the bucket", "um", "was")], (), fuse
    )
    assert "a bucket is good" == transcript.text
    assert [("a bucket", "the bucket"), ("", "um"), ("is good", "was")] == [
        (transcript.text[one.char_start : one.char_end], one.text) for one in transcript.readings
    ]


def test_dropped_words_take_their_other_readings_with_them() -> None:
    """Where the words of a phrase are dropped as noise, no other reading of them is left over."""

    def fuse(hearings: Sequence[Hearing]) -> tuple[list[HeardWord], list[Other]]:
        return hearings[0].words, [Other(0, 1, "you", "other", 0.5)]

    noise = [Passage(start_s=0, end_s=10, kind="noise"), Passage(start_s=10, end_s=20, kind="speech")]
    transcript = heard([Toy("one", "yes", "seat")], noise, fuse)
    assert "seat" == transcript.text
    assert [("seat", "you")] == [
        (transcript.text[one.char_start : one.char_end], one.text) for one in transcript.readings
    ]


@pytest.mark.parametrize(
    ("sure", "ears", "unclear"),
    [
        (0.4, 2, ["the and put by"]),
        (0.6, 2, []),
        (0.4, 1, []),  # one ear alone: its confidence is another thing
    ],
)
def test_fluent_nonsense_is_unclear(sure: float, ears: int, unclear: list[str]) -> None:
    """A phrase of which two ears made nothing alike is unclear as a whole; the next phrase is not."""

    def fuse(hearings: Sequence[Hearing]) -> tuple[list[HeardWord], list[Other]]:
        words = hearings[0].words
        lost = words[0].text == "the"
        return [word.model_copy(update={"confidence": sure if lost else 0.9}) for word in words], []

    toys = [Toy(str(nth), "the and put by", "seat works") for nth in range(ears)]
    transcript = heard(toys, fuse=fuse)
    assert unclear == [transcript.text[span.char_start : span.char_end] for span in transcript.spans]
    assert {"the two ears could not make out the same words"} >= {span.why for span in transcript.spans}


PLENTY = [f"word{nth}" for nth in range(20)]


@pytest.mark.parametrize(
    ("alike", "count", "clear"),
    [
        (20, 20, True),
        (4, 20, True),  # much noise: the trade ear hears little, but some of the same
        (2, 20, False),
        (0, 20, False),
        (0, 6, True),  # of a few words the ears may hear none alike
    ],
)
def test_voices_all_at_once_are_unclear(alike: int, count: int, clear: bool) -> None:
    """Where many words are heard with confidence and hardly any by both ears, nothing was made out."""
    said = PLENTY[:count]
    other = said[:alike] + ["other"] * (count - alike)
    transcript = heard([Toy("one", " ".join(said)), Toy("two", " ".join(other))])
    assert ([] if clear else [transcript.text]) == [
        transcript.text[span.char_start : span.char_end] for span in transcript.spans
    ]
