"""Spoken numbers against num2words, text2num and the number lists of NeMo text processing."""

import random
from collections.abc import Callable, Iterable, Iterator

import pytest

from saycheck.understanding.numbers import ordinal, read_number
from saycheck.understanding.text import words_of

SMALL = range(10_001)


def large(count: int, most: int) -> list[int]:
    """Random whole numbers above ten thousand, the same at each run."""
    chance = random.Random(count)
    return [chance.randint(10_001, most) for _ in range(count)]


def num2words(number: float, to: str = "cardinal") -> str:
    """The number in words as num2words has them: "two thousand, three hundred and forty-five"."""
    package = pytest.importorskip("num2words", reason="num2words is not installed")
    words: str = package.num2words(number, to=to)
    return words


def american(words: str) -> str:
    """The same words without "and" and marks, as in America and from a recogniser."""
    return words.replace(" and ", " ").replace(",", "").replace("-", " ")


def read_ordinal(text: str) -> int | None:
    """The ordinal that a text says as a whole."""
    words = list(words_of(text.replace("-", " ")))
    found = ordinal(words)
    return found[0] if found and found[1] == len(words) else None


def misread(pairs: Iterable[tuple[str, float]], read: Callable[[str], float | None]) -> list[str]:
    """The first few texts that are not read as they should be, with what was read."""
    wrong = [f"{text} = {value}, read {read(text)}" for text, value in pairs if read(text) != value]
    return wrong[:5]


@pytest.mark.parametrize("style", [str, american])
@pytest.mark.parametrize(
    "numbers",
    [
        pytest.param(SMALL, id="all to ten thousand"),
        pytest.param(large(2000, 10**6), id="to a million"),
        pytest.param(large(500, 10**13), id="beyond a million"),
    ],
)
def test_cardinals(numbers: Iterable[int], style: Callable[[str], str]) -> None:
    """Source: num2words, English, read back; with and without "and" and marks."""
    assert [] == misread(((style(num2words(n)), n) for n in numbers), read_number)


def test_negatives() -> None:
    """Source: num2words; "minus" before the number."""
    assert [] == misread(((num2words(-n), -n) for n in large(300, 10**6)), read_number)


def test_decimals() -> None:
    """Source: num2words, digits after "point" one by one; one to four of them."""
    chance = random.Random(3)
    numbers = [
        round(chance.uniform(0, 10 ** chance.randint(0, 4)), chance.randint(1, 4)) for _ in range(2000)
    ]
    assert [] == misread(((num2words(n), n) for n in numbers), read_number)


def test_pairs_as_in_years() -> None:
    """Source: num2words, years: "nineteen eighty-four", "twenty-one oh-seven", as hours are said too."""
    assert [] == misread(((num2words(n, to="year"), n) for n in range(1100, 10_000)), read_number)


@pytest.mark.parametrize("style", [str, american])
@pytest.mark.parametrize(
    "numbers",
    [pytest.param(range(1, 1001), id="to a thousand"), pytest.param(large(500, 10**6), id="beyond")],
)
def test_ordinals(numbers: Iterable[int], style: Callable[[str], str]) -> None:
    """Source: num2words, ordinals in words."""
    assert [] == misread(((style(num2words(n, to="ordinal")), n) for n in numbers), read_ordinal)


def test_ordinals_in_figures() -> None:
    """Source: num2words, "1st", "22nd", "113th"."""
    assert [] == misread(((num2words(n, to="ordinal_num"), n) for n in range(1, 200)), read_ordinal)


def test_same_as_text2num() -> None:
    """Source: text2num; what it reads as a number we read as the same number."""
    package = pytest.importorskip("text_to_num", reason="text2num is not installed")
    texts = [num2words(n).replace(",", "") for n in [*SMALL, *large(1000, 10**9)]]
    texts += [american(text) for text in texts]
    assert [] == misread(((text, package.text2num(text, "en")) for text in texts), read_number)


def rows(text: str) -> Iterator[tuple[str, str]]:
    """Spoken and written form of each row of a NeMo list."""
    for line in text.splitlines():
        spoken, _, written = line.partition("~")
        if written:
            yield spoken, written


def test_nemo_cardinals(outside: Callable[[str], str]) -> None:
    """Source: NVIDIA NeMo-text-processing, inverse text normalisation, cardinals (nemo-itn-cardinal.txt)."""
    given = [
        (spoken, int(written.replace("zero", "0")))
        for spoken, written in rows(outside("nemo-itn-cardinal.txt"))
    ]
    assert given
    assert [] == misread(given, read_number)


def test_nemo_ordinals(outside: Callable[[str], str]) -> None:
    """Source: NVIDIA NeMo-text-processing, inverse text normalisation, ordinals (nemo-itn-ordinal.txt)."""
    given = [
        (spoken, int(written.rstrip("stndrh"))) for spoken, written in rows(outside("nemo-itn-ordinal.txt"))
    ]
    assert given
    assert [] == misread(given, read_ordinal)
