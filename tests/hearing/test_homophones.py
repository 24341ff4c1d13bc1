"""Words that sound like a number, by what stands around them."""

import pytest

from saycheck.hearing.homophones import with_numbers
from saycheck.hearing.joining import Other
from saycheck.models.hearing import HeardWord


def heard(text: str) -> list[HeardWord]:
    """Words heard surely, a second each."""
    return [
        HeardWord(text=word, start_s=place, end_s=place + 1, confidence=0.98)
        for place, word in enumerate(text.split())
    ]


def fit(better: float) -> object:
    """A model by which numbers fit better by so many decades."""
    return lambda before, word, after: better if word in ("two", "four") else 0.0


@pytest.mark.parametrize(
    ("text", "better", "taken", "left"),
    [
        ("missing to lumps", 1.0, "missing two lumps", ["to"]),
        ("missing to lumps", 0.2, "missing to lumps", ["two"]),  # left open
        ("missing to lumps", -2.0, "missing to lumps", []),
        ("All for. Good", 1.0, "All four. Good", ["for"]),
        ("left seal dry", 9.0, "left seal dry", []),
    ],
)
def test_number_or_not(text: str, better: float, taken: str, left: list[str]) -> None:
    """The model decides where it is sure; where it is not, both readings are kept and the word is unsure."""
    words, others = with_numbers(heard(text), [], fit(better), "trade")  # type: ignore[arg-type]
    assert taken == " ".join(word.text for word in words)
    assert left == [other.text for other in others]
    assert ({0.98} | ({0.7} if left else set())) == {word.confidence for word in words}


def test_what_stands_around_is_asked() -> None:
    """Two said words before, one after; the ends of the phrase are told."""
    asked = []

    def record(before: tuple[str, ...], word: str, after: str) -> float:
        asked.append((before, word, after))
        return 0.0

    with_numbers(heard("gap 80 to"), [], record, "trade")
    assert [(("gap", "eighty"), "two", "</s>"), (("gap", "eighty"), "to", "</s>")] == asked


def test_other_readings_stay_in_order() -> None:
    """What was left before and after keeps its place."""
    others = [Other(0, 1, "pen", "trade", 0.4), Other(2, 3, "lamps", "trade", 0.4)]
    _, kept = with_numbers(heard("pin to lumps"), others, fit(0.0), "trade")  # type: ignore[arg-type]
    assert ["pen", "two", "lamps"] == [other.text for other in kept]
