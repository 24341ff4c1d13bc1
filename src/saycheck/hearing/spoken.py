"""How a written word is said: "80" is eighty, "P.S.I." is p s i, "Bucket's," is bucket's.

The built-in ear writes as people write. The vocabulary's language model and the pronouncing dictionary
know words as they are said. ``plain`` is for comparing, ``spoken`` for looking up.
"""

import re
from functools import lru_cache

_ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen"
    " seventeen eighteen nineteen"
).split()
_TENS = "_ _ twenty thirty forty fifty sixty seventy eighty ninety".split()
_NTH = {
    "one": "first", "two": "second", "three": "third", "five": "fifth", "eight": "eighth", "nine": "ninth",
    "twelve": "twelfth",
}  # fmt: skip
_GREAT = ((10**9, "billion"), (10**6, "million"), (1000, "thousand"), (100, "hundred"))
_SIGNS = {
    "%": "percent",
    "°": "degrees",
    "&": "and",
    "+": "plus",
    "=": "equals",
    "$": "dollars",
    "£": "pounds",
}

_APOSTROPHES = str.maketrans({"\u2019": "'", "\u2018": "'", "`": "'"})
_NUMBER = re.compile(r"(\d[\d,]*)?(?:\.(\d+))?((?:st|nd|rd|th)s?)?([a-z]*)")
_PART = re.compile(r"[a-z0-9.,']+|[%°&+=$£]")
_POINTED = re.compile(r"\.\d")
_INITIALS = re.compile(r"(?:[a-z]\.)+[a-z]?\.?")
_LONGEST = 12
"""Digits beyond this many are said one by one, as a serial number is."""


def plain(word: str) -> str:
    """The word for comparing: lower case, no punctuation but apostrophes, hyphens and points inside it."""
    lowered = word.lower().translate(_APOSTROPHES)
    kept = re.sub(r"[^\w'.\-/%°]|_", "", lowered).strip("'-/").rstrip(".'-/")
    return kept if _POINTED.match(kept) else kept.lstrip(".'-/")


def cardinal(number: int) -> list[str]:
    """A whole number below 10^12 in words: 4112 is four thousand one hundred and twelve."""
    if number < 20:
        return [_ONES[number]]
    if number < 100:
        return [_TENS[number // 10], *([_ONES[number % 10]] if number % 10 else [])]
    size, name = next((size, name) for size, name in _GREAT if number >= size)
    count, rest = divmod(number, size)
    words = [*cardinal(count), name]
    if rest:
        words += ["and", *cardinal(rest)] if rest < 100 else cardinal(rest)
    return words


@lru_cache(maxsize=16_384)
def spoken(word: str) -> tuple[str, ...]:
    """The words that are said for one written word, lower case; empty where it stands for no sound.

    A number is said as a cardinal, its decimals digit by digit. How it was said in truth ("one four" for
    14) is lost in the writing.
    """
    words: list[str] = []
    for part in _PART.findall(word.lower().translate(_APOSTROPHES)):
        if part in _SIGNS:
            words.append(_SIGNS[part])
        elif _INITIALS.fullmatch(part) and len(part) > 2:
            words += [letter for letter in part if letter != "."]
        elif any(letter.isdigit() for letter in part):
            words += _number(part.rstrip(".,'").lstrip(",'"))
        else:
            words += [bare for piece in re.split(r"[.,]", part) if (bare := piece.strip("'"))]
    return tuple(words)


def _number(part: str) -> list[str]:
    match = _NUMBER.fullmatch(part)
    if not match or not (match[1] or match[2]):
        pieces = re.findall(r"\d+|[a-z']+", part)
        return [word for piece in pieces for word in (_number(piece) if piece.isdigit() else [piece])]
    figures = (match[1] or "").replace(",", "")
    if len(figures) > _LONGEST or (figures.startswith("0") and len(figures) > 1):
        words = [_ONES[int(figure)] for figure in figures]
    else:
        words = cardinal(int(figures)) if figures else []
    if match[2]:
        words += ["point", *(_ONES[int(figure)] for figure in match[2])]
    if match[3] and words:
        words[-1] = _ordinal(words[-1]) + ("s" if match[3].endswith("s") and len(match[3]) > 2 else "")
    if match[4] == "s":
        words[-1] = words[-1][:-1] + "ies" if words[-1].endswith("y") else words[-1] + "s"
    elif match[4]:
        words.append(match[4])
    return words


def _ordinal(word: str) -> str:
    if word in _NTH:
        return _NTH[word]
    return word[:-1] + "ieth" if word.endswith("y") else word + "th"
