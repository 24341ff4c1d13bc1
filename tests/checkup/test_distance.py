"""How alike two rows of sounds are."""

import pytest
from rapidfuzz.distance import Levenshtein

from saycheck.checkup.distance import distance, least


@pytest.mark.parametrize(
    ("one", "other", "wanted"),
    [
        ("P IH N", "P IH N", 0.0),
        ("P IH N", "B IH N", 0.1),  # a voiced twin, of three sounds
        ("P IH N", "P AE N", 0.5 / 3),  # another vowel
        ("P IH N", "K IH N", 1 / 3),
        ("P IH N", "P IH N Z", 0.25),
        ("HH OW Z", "", 1.0),
        ("R AE M", "L AY N", (0.3 + 0.5 + 0.3) / 3),  # ram and line
    ],
)
def test_distance(one: str, other: str, wanted: float) -> None:
    """Near sounds cost less than far ones, and the order does not matter."""
    assert pytest.approx(wanted) == distance(one.split(), other.split())
    assert pytest.approx(wanted) == distance(other.split(), one.split())


@pytest.mark.parametrize("one", ["B AH K AH T", "T AY ER", "G L AE N D", "HH AY D R AO L IH K"])
@pytest.mark.parametrize("other", ["B OW L T", "T R AE K", "B R AE K AH T", "S T IY R IH NG"])
def test_never_above_plain_edits(one: str, other: str) -> None:
    """The distance never exceeds that of rapidfuzz, which counts every change as one; the bound holds."""
    plain = Levenshtein.normalized_distance(one.split(), other.split())

    assert 0.3 * plain <= distance(one.split(), other.split()) <= plain
    assert (least(one.split(), other.split(), 0.2) < 0.2) == (distance(one.split(), other.split()) < 0.2)
