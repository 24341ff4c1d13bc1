"""Numbers, sides and denials that were not heard surely."""

import pytest

from saycheck.hearing.doubt import doubts, weighty, with_doubts
from saycheck.models.hearing import OtherReading
from saycheck.models.walk import Evidence, Finding, Transcript, Word


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("forty eight psi", ("forty", "eight")),
        ("48 PSI,", ("48",)),
        ("the left-hand one", ("left-hand",)),
        ("that one", ()),  # a lone one is no number
        ("one four", ("one", "four")),
        ("no cracks", ("no",)),
        ("isn't loose", ("isn't",)),
        ("bucket seal", ()),
        ("", ()),
    ],
)
def test_weighty(text: str, expected: tuple[str, ...]) -> None:
    """Numbers, sides and denials weigh."""
    assert expected == weighty(text)


def transcript(text: str, sure: dict[str, float], *readings: tuple[str, str, float]) -> Transcript:
    """``sure`` gives the confidence of words (others 0.97); readings are (words taken, other words, sure)."""
    words, at = [], 0
    for word in text.split():
        start = text.index(word, at)
        at = start + len(word)
        words.append(Word(text=word, char_start=start, char_end=at, confidence=sure.get(word, 0.97)))
    others = [
        OtherReading(
            char_start=text.index(taken), char_end=text.index(taken) + len(taken), text=other, ear="trade",
            confidence=confidence,
        )
        for taken, other, confidence in readings
    ]  # fmt: skip
    return Transcript(text=text, words=words, readings=others)


@pytest.mark.parametrize(
    ("heard", "why"),
    [
        (transcript("Gap is forty mil.", {}), []),
        (transcript("Gap is forty mil.", {"forty": 0.6}), ["'forty' was not heard surely"]),
        (transcript("Gap is forty mil.", {"Gap": 0.2}), []),  # no weighty word
        (
            transcript("Gap is forty mil.", {"forty": 0.6}, ("forty", "fourteen", 0.8)),
            ["heard two ways: 'forty' or 'fourteen'"],
        ),
        (
            transcript("Gap is forty mil.", {}, ("forty", "fourteen", 0.8)),
            [],
        ),  # both ears weighed: sure enough
        (
            transcript("Gap is for a mil.", {"for": 0.6}, ("for a", "four", 0.8)),
            ["heard two ways: 'for a' or 'four'"],
        ),
        (
            transcript("Gap is for a mil.", {"for": 0.6}, ("for a", "four", 0.1)),
            [],
        ),  # the other ear hardly meant it
        (transcript("Pin is loose.", {"loose.": 0.5}, ("loose", "lose", 0.9)), []),  # not for us to say
    ],
)
def test_doubts(heard: Transcript, why: list[str]) -> None:
    """Weighty words are doubtful where unsure, or where the ears differ on them and neither is sure."""
    assert why == [one.why for one in doubts(heard)]


def finding(start: int, end: int) -> Finding:
    """A finding from the words of a place."""
    return Finding(
        id="f1", zone="bucket", part="cutting edge", side="none", check="worn", state="watch", condition="worn",
        heard_as="worn", confidence=0.9, evidence=[Evidence(char_start=start, char_end=end)],
    )  # fmt: skip


def test_only_the_finding_that_rests_on_it() -> None:
    """The finding is sent to a person with the reason; another one is left alone."""
    heard = transcript("Edge worn, forty mil. Seat is fine.", {"forty": 0.6})
    first, second = with_doubts([finding(0, 20), finding(22, 34)], heard)
    assert (True, ["'forty' was not heard surely"]) == (first.needs_review, first.review_reasons)
    assert (False, []) == (second.needs_review, second.review_reasons)


def test_a_text_has_no_doubts() -> None:
    """Typed words have no confidence and no other readings."""
    heard = Transcript(text="forty", words=[Word(text="forty", char_start=0, char_end=5)])
    assert [] == doubts(heard)
