"""Words of two ears beside each other."""

import pytest

from saycheck.hearing.lattice import Slot, same, side_by_side
from saycheck.models.hearing import HeardWord


def words(text: str, start_s: float = 0.0) -> list[HeardWord]:
    """Words of four tenths of a second each."""
    return [
        HeardWord(text=word, start_s=start_s + n * 0.4, end_s=start_s + n * 0.4 + 0.4, confidence=0.5)
        for n, word in enumerate(text.split())
    ]


def shown(slots: list[Slot]) -> str:
    """Agreement as it stands, disagreement as [general|trade]."""
    parts = []
    for slot in slots:
        first, second = (" ".join(w.text for w in side) for side in (slot.first, slot.second))
        parts.append(first if slot.agree else f"[{first}|{second}]")
    return " ".join(parts)


@pytest.mark.parametrize(
    ("general", "trade", "expected"),
    [
        ("left pin dry", "left pin dry", "left pin dry"),
        ("Left pin, dry.", "left pin dry", "Left pin, dry."),
        ("left bin dry", "left pin dry", "left [bin|pin] dry"),
        ("the fondled pin", "the front left pin", "the [fondled|front left] pin"),
        ("left pin", "left pin dry", "left pin [|dry]"),
        ("so left pin", "left pin", "[so|] left pin"),
        ("", "left pin", "[|left pin]"),
        ("the break holds", "the brake holds", "the break holds"),  # sound alike
        ("hand rail loose", "handrail loose", "hand rail loose"),
        ("80 PSI left", "eighty psi left", "80 PSI left"),
        ("14 mil left", "one four mil left", "14 mil left"),
        ("15 mil left", "one four mil left", "[15|one four] mil left"),
        ("24 volts", "twenty four volts", "24 volts"),
    ],
)
def test_side_by_side(general: str, trade: str, expected: str) -> None:
    """What sounds the same agrees, however it is written; the rest is kept together."""
    assert expected == shown(side_by_side(words(general), words(trade), list))


def test_words_far_apart_in_time_are_not_the_same() -> None:
    """A word said twice is paired with the one at its time."""
    slots = side_by_side(words("dry", 5.0), [*words("dry", 1.0), *words("dry", 5.0)], list)
    assert "[|dry] dry" == shown(slots)


@pytest.mark.parametrize(("general", "trade"), [("a b c d", "c d a b"), ("left left left", "left"), ("", "")])
def test_no_word_is_lost(general: str, trade: str) -> None:
    """Every word of both ears stands in exactly one slot, in order."""
    slots = side_by_side(words(general), words(trade), list)
    assert general.split() == [w.text for slot in slots for w in slot.first]
    assert trade.split() == [w.text for slot in slots for w in slot.second]


@pytest.mark.parametrize(
    ("one", "two", "expected"),
    [
        ("one four", "fourteen", True),
        ("two oh five", "two zero five", True),
        ("twenty one", "two one", True),
        ("four", "for", True),
        ("twenty", "two", False),
        ("left", "", False),
    ],
)
def test_same(one: str, two: str, expected: bool) -> None:
    """The same sounds or the same digits."""
    assert expected is same(one.split(), two.split())
