"""How written words are said, and their plain form."""

import random

import pytest

from saycheck.hearing.spoken import cardinal, plain, spoken


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("gland", "gland"),
        ("Bucket's,", "bucket's"),
        ("can\u2019t", "can't"),
        ("right-hand", "right hand"),
        ("80", "eighty"),
        ("4,112", "four thousand one hundred and twelve"),
        ("12.6", "twelve point six"),
        (".25", "point two five"),
        ("0.25", "zero point two five"),
        ("007", "zero zero seven"),
        ("5%", "five percent"),
        ("50\u00b0", "fifty degrees"),
        ("20mm", "twenty mm"),
        ("2nd", "second"),
        ("12th", "twelfth"),
        ("45th", "forty fifth"),
        ("3/16ths", "three sixteenths"),
        ("20s", "twenties"),
        ("P.S.I.", "p s i"),
        ("PSI", "psi"),
        ("B2", "b two"),
        ("...", ""),
        ("\u2014", ""),
        ("", ""),
        ("\u4e2d\u6587", ""),  # no sounds known: no words
    ],
)
def test_spoken(written: str, said: str) -> None:
    """Figures, signs and initials become words; what stands for no sound goes."""
    assert tuple(said.split()) == spoken(written)


def test_cardinals_against_num2words() -> None:
    """Source: the package num2words, 2,000 numbers below 10^12 and all below 1,000."""
    num2words = pytest.importorskip("num2words", reason="num2words is not installed").num2words
    chance = random.Random(1)
    numbers = [*range(1000), *(chance.randrange(10 ** chance.randint(3, 12)) for _ in range(2000))]

    for number in numbers:
        words = num2words(number).replace(",", "").replace("-", " ").split()
        assert words == cardinal(number), number


def test_ordinals_against_num2words() -> None:
    """Source: the package num2words."""
    num2words = pytest.importorskip("num2words", reason="num2words is not installed").num2words

    for number in range(1, 100):
        words = num2words(number, to="ordinal").replace("-", " ").split()
        assert tuple(words) == spoken(f"{number}th"), number


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("Bucket's,", "bucket's"),
        ("\u2018em", "em"),
        ("GONE.", "gone"),
        ("12.6.", "12.6"),
        (".25", ".25"),
        ("4,112", "4112"),
        ("\u2014", ""),
        ("right-hand", "right-hand"),
    ],
)
def test_plain(written: str, expected: str) -> None:
    """The form for comparing has no capitals and no punctuation round it."""
    assert expected == plain(written)
