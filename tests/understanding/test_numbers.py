"""Numbers as people say and write them; the checks against the outside are in tests/outside."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.understanding.numbers import Number, number_word, ordinal, parse, read_number, written


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("zero", 0),
        ("twenty-five", 25),
        ("twenty five", 25),
        ("a hundred and two", 102),
        ("four hundred and twelve", 412),
        ("four hundred twelve", 412),
        ("eleven hundred", 1100),
        ("two thousand and six", 2006),
        ("nine thousand one hundred and forty six", 9146),
        ("twelve thousand four hundred and eighty", 12480),
        ("two hundred and fifty four thousand and one", 254001),
        ("a million", 1_000_000),
        ("hundred and twenty", 120),
        ("a couple of hundred", 200),
    ],
)
def test_whole_numbers(text: str, expected: float) -> None:
    """Cardinals with or without "and"."""
    assert expected == read_number(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("four eight", 48),
        ("one two six", 126),
        ("nine one four six", 9146),
        ("six oh", 60),
        ("four one five oh", 4150),
        ("double four", 44),
        ("one double oh", 100),
        ("triple two", 222),
    ],
)
def test_digits_one_by_one(text: str, expected: float) -> None:
    """Digits said singly make one number."""
    assert expected == read_number(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("sixty two oh four", 6204),
        ("eighty four twelve", 8412),
        ("nineteen eighty four", 1984),
        ("twelve sixty", 1260),
    ],
)
def test_pairs(text: str, expected: float) -> None:
    """Numbers said in pairs, as an hour meter is read."""
    assert expected == read_number(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("twelve point six", 12.6),
        ("point two five", 0.25),
        ("one two point six", 12.6),
        ("nought point five", 0.5),
        ("zero point oh four", 0.04),
        ("three point seventy five", 3.75),
        ("twelve point six oh", 12.6),
        ("12 point 6", 12.6),
        ("12.6", 12.6),
    ],
)
def test_decimals(text: str, expected: float) -> None:
    """What follows "point" is read digit by digit, or as a number below a hundred."""
    assert pytest.approx(expected) == read_number(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("three sixteenths", 3 / 16),
        ("four one thirty-seconds", 41 / 32),  # digits one by one
        ("an eighth", 1 / 8),
        ("five eighths", 5 / 8),
        ("a quarter", 1 / 4),
        ("three quarters", 3 / 4),
        ("half", 1 / 2),
        ("a half", 1 / 2),
        ("two thirds", 2 / 3),
        ("nine thirty seconds", 9 / 32),
        ("eleven sixty fourths", 11 / 64),
        ("two and a half", 2.5),
        ("two and three eighths", 2.375),
        ("one and a quarter", 1.25),
        ("ten and three quarters", 10.75),
        ("3/16", 3 / 16),
        ("1 1/2", 1.5),
        ("2½", 2.5),
        ("¾", 0.75),
        ("⅜", 0.375),
    ],
)
def test_fractions(text: str, expected: float) -> None:
    """Fractions, alone and behind a whole number, spoken and written."""
    assert pytest.approx(expected) == read_number(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("minus thirty-five", -35),
        ("minus four", -4),
        ("negative ten", -10),
        ("-12", -12),
        ("minus two and a half", -2.5),
        ("minus point five", -0.5),
    ],
)
def test_negative_numbers(text: str, expected: float) -> None:
    """A word or mark in front turns the number round."""
    assert expected == read_number(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12,480", 12480),
        ("1,234,567", 1234567),
        ("0", 0),
        ("007", 7),
        ("2 thousand", 2000),
        ("8100 and 90", 8190),  # as a recogniser writes "eight thousand one hundred and ninety"
        ("9,800 and 4", 9804),
    ],
)
def test_figures(text: str, expected: float) -> None:
    """Numbers in figures, thousands marked or not."""
    assert expected == read_number(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "good",
        "a",  # an article alone is no number
        "an",
        "point",
        "minus",
        "and",
        "hundred",  # a scale wants a number before it
        "1/0",
        "five good",  # not a number as a whole
        "to two",
        "won",  # never bent into a number
        "tenth",
    ],
)
def test_no_number(text: str) -> None:
    """No number is guessed where none was said."""
    assert read_number(text) is None


@pytest.mark.parametrize(
    ("text", "at", "expected"),
    [
        ("about twelve mil", 1, Number(12, 2, "words", 1.0)),
        ("four eight psi", 0, Number(48, 2, "digits", 1.0)),
        ("sixty two oh four hours", 0, Number(6204, 4, "pairs", 1.0)),
        ("12.6 volts", 0, Number(12.6, 1, "written", 0.1)),
        ("an inch", 0, Number(1, 1, "article", 1.0)),
        ("a couple of bolts", 0, Number(2, 3, "article", 1.0)),
        ("dozen bolts", 0, Number(12, 1, "words", 1.0)),
        ("three sixteenths left", 0, Number(3 / 16, 2, "fraction", 1 / 16)),
        ("twelve point six two volts", 0, Number(12.62, 4, "words", 0.01)),
        # "one" behind a whole number is a new number, not part of it
        ("twenty and one", 0, Number(20, 1, "words", 1.0)),
    ],
)
def test_number_in_a_row_of_words(text: str, at: int, expected: Number) -> None:
    """A number tells how it was said, where it ends and what its last place is worth."""
    number = parse(text.split(), at)
    assert number is not None
    assert (expected.end, expected.form) == (number.end, number.form)
    assert pytest.approx((expected.value, expected.step)) == (number.value, number.step)


@pytest.mark.parametrize(("text", "at"), [("bucket is good", 0), ("five", 1), ("", 0)])
def test_no_number_here(text: str, at: int) -> None:
    """Where no number begins there is none, also behind the last word."""
    assert parse(text.split(), at) is None


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("first", (1, 1)),
        ("second tooth", (2, 1)),
        ("twenty third", (23, 2)),
        ("fortieth", (40, 1)),
        ("hundredth", (100, 1)),
        ("two hundredth", (200, 2)),
        ("21st", (21, 1)),
        ("3 rd", (3, 2)),  # as the tokens come apart
        ("zeroth", (0, 1)),
    ],
)
def test_ordinals(text: str, expected: tuple[int, int]) -> None:
    """The value of an ordinal and where it ends."""
    assert expected == ordinal(text.split())


@pytest.mark.parametrize("text", ["", "tooth", "twenty", "and", "one"])
def test_no_ordinal(text: str) -> None:
    """A cardinal or any other word is no ordinal."""
    assert ordinal(text.split()) is None


@pytest.mark.parametrize(
    ("word", "expected"),
    [("12,480", (12480.0, 1.0)), ("3/16", (3 / 16, 1 / 16)), ("½", (0.5, 0.125)), ("0.25", (0.25, 0.01))],
)
def test_written(word: str, expected: tuple[float, float]) -> None:
    """A number in figures gives its value and what its last place is worth."""
    assert pytest.approx(expected) == written(word)


def test_written_over_nothing() -> None:
    """A fraction over nothing is no number."""
    assert written("3/0") is None


@pytest.mark.parametrize(("value", "expected"), [(7, "seven"), (13, "thirteen"), (40, "forty")])
def test_number_word(value: int, expected: str) -> None:
    """A small number has one word."""
    assert expected == number_word(value)


WORDS = st.sampled_from(
    "one two oh twelve thirty hundred thousand and a half quarter eighths point minus 7 3/8 ½ , to".split()
)


@given(st.lists(WORDS, max_size=12))
def test_parse_stays_inside(words: list[str]) -> None:
    """A number ends behind where it begins and inside the words, whatever they are."""
    for at in range(len(words)):
        number = parse(words, at)
        assert number is None or at < number.end <= len(words)


@given(st.integers(0, 99_999))
def test_figures_read_as_they_are(value: int) -> None:
    """Any whole number in figures is itself, with and without marks between thousands."""
    assert value == read_number(str(value)) == read_number(f"{value:,}")
