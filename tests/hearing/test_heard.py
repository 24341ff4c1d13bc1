"""How the bench compares what was heard with what was said."""

import pytest

pytest.importorskip("jiwer", reason="jiwer is not installed")
pytest.importorskip("text_to_num", reason="text2num is not installed")

from heard import comparable, score


@pytest.mark.parametrize(
    ("said", "heard"),
    [
        ("eighty p s i", "80 PSI,"),
        ("Eighty P.S.I.", "eighty psi"),
        ("one four mil", "14 mill"),
        ("fourteen mil", "one four mil"),
        ("four thousand one hundred and twelve hours", "4,112 hours"),
        ("twelve point six volts", "12.6 volts."),
        ("point two five", "0.25"),
        ("three two zero", "320"),
        ("thirty-five percent", "35%"),
        ("the second one", "The 2nd one"),
        ("tyre, centre, okay", "Tire center OK"),
        ("Bucket's down", "buckets down"),
        ("ten past two", "10 past 2"),
        ("right-hand", "right hand"),
    ],
)
def test_said_alike_is_alike(said: str, heard: str) -> None:
    """Spelling, figures and marks make no difference."""
    assert comparable(said) == comparable(heard)


@pytest.mark.parametrize(
    ("said", "heard"),
    [
        ("fifteen", "fifty"),
        ("eighty psi", "eight psi"),
        ("left tyre", "lift tyre"),
        ("no cracks", "cracks"),
        ("one point four", "fourteen"),
    ],
)
def test_said_differently_is_different(said: str, heard: str) -> None:
    """What matters is never folded away."""
    assert comparable(said) != comparable(heard)


SAID = "Left tyre, four eight p s i, good. Handrail solid. No cracks in the rim."
QUOTES = ["Left tyre, four eight p s i", "Handrail solid", "No cracks in the rim"]


@pytest.mark.parametrize(
    ("heard", "errors", "perfect"),
    [
        (SAID, 0, (True, True, True)),
        ("left tire 48 PSI good handrail solid no cracks in the rim", 0, (True, True, True)),
        ("left tire 48 PSI good hand rail solid no cracks in the rim", 2, (True, True, True)),
        ("lift tire 48 PSI good handrail solid no cracks in the rim", 1, (False, True, True)),
        ("left tire 48 PSI good handrail solid cracks in the rim", 1, (True, True, False)),
        ("left tire 48 PSI good handrail is solid no cracks in the rim", 1, (True, False, True)),
        ("left tire 48 PSI uh good handrail solid uh no cracks in the rim", 2, (True, True, True)),
        ("", 12, (False, False, False)),
    ],
)
def test_score(heard: str, errors: int, perfect: tuple[bool, ...]) -> None:
    """Every word of a statement must be there, in a row; words added between statements do not count."""
    scored = score(SAID, heard, QUOTES)

    assert (12, errors, perfect) == (scored.words, scored.errors, scored.perfect)
