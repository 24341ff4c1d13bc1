"""How words sound."""

import pytest

from saycheck.hearing.sounds import phones, phones_of, pronunciations


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("bucket", "B AH K AH T"),  # in the dictionary
        ("psi", "P IY EH S AY"),  # the dictionary has the Greek letter
        ("Tyre", "T AY ER"),
        ("bolt's", "B OW L T S"),
        ("blade's", "B L EY D Z"),
        ("hose's", "HH OW Z IH Z"),
        ("kinked", "K IH NG K T"),
        ("gapped", "G AE P T"),
        ("overfilled", "OW V ER F IH L D"),
        ("ungreased", "AH N G R IY S T"),
        ("mudguard", "M AH D G AA R D"),
        ("mccb", "EH M S IY S IY B IY"),  # no vowel: said letter by letter
        ("grousing", "G R AW S IH NG"),
        ("", ""),
        ("80", ""),
    ],
)
def test_phones(word: str, expected: str) -> None:
    """Known words are looked up, others taken apart."""
    assert expected.split() == phones(word)


def test_several_words() -> None:
    """Words on end are said on end; hyphens part them."""
    assert [*phones("rod"), *phones("end"), *phones("boot")] == phones_of("Rod-end boot")


def test_all_ways() -> None:
    """A word with two ways to say it has both."""
    assert {("L", "EH", "D"), ("L", "IY", "D")} == set(pronunciations("lead"))


def test_letter_rules_against_the_dictionary() -> None:
    """Rules alone get at least 78 % of the sounds of dictionary words right; source: CMU dictionary."""
    from rapidfuzz.distance import Levenshtein

    from saycheck.hearing.letters import spelled_out
    from saycheck.hearing.sounds import _dictionary

    words = [word for word in _dictionary() if word.isalpha() and 4 < len(word) < 12][::150]
    wrong = total = 0
    for word in words:
        said = spelled_out(word)
        wrong += min(Levenshtein.distance(said, way) for way in _dictionary()[word])
        total += len(_dictionary()[word][0])
    assert wrong / total < 0.22
