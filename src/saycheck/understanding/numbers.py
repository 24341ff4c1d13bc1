"""Numbers as people say and write them: cardinals, digits one by one, decimals, fractions, ordinals.

    "four hundred and twelve" 412        "four eight" 48            "one two point six" 12.6
    "eleven hundred" 1100                "sixty two oh four" 6204   "point two five" 0.25
    "two and a half" 2.5                 "three sixteenths" 0.1875  "3/16" 0.1875
    "minus thirty-five" -35              "12,480" 12480             "a hundred and two" 102

Forms follow ordinary English number grammar (as in any grammar of English; checked in the tests against
num2words and text2num). No number is guessed: words that are no number are left alone.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from saycheck.understanding.text import words_of

ONES = {w: n for n, w in enumerate("zero one two three four five six seven eight nine".split())}
ONES |= {"oh": 0, "o": 0, "nought": 0, "naught": 0, "nil": 0}
TEENS = {
    w: n + 10
    for n, w in enumerate(
        "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split()
    )
}
TENS = {w: 10 * n for n, w in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split(), 2)}
TENS["fourty"] = 40
SCALES = {"hundred": 10**2, "thousand": 10**3, "lakh": 10**5, "million": 10**6, "crore": 10**7}
SCALES |= {
    w: 10 ** (3 * n)
    for n, w in enumerate("billion trillion quadrillion quintillion sextillion septillion".split(), 3)
}
ORDINALS = {
    w: n
    for n, w in enumerate(
        "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth"
        " fifteenth sixteenth seventeenth eighteenth nineteenth".split(),
        1,
    )
}
ORDINALS |= {w[:-1] + "ieth": n for w, n in TENS.items() if w != "fourty"}
ORDINALS |= {"hundredth": 100, "thousandth": 1000, "millionth": 10**6, "billionth": 10**9}
PARTS = {
    "half": 2,
    "halves": 2,
    "third": 3,
    "thirds": 3,
    "quarter": 4,
    "quarters": 4,
    "fifth": 5,
    "fifths": 5,
}
PARTS |= {"sixth": 6, "sixths": 6, "eighth": 8, "eighths": 8, "tenth": 10, "tenths": 10, "sixteenth": 16}
PARTS |= {"sixteenths": 16, "twelfth": 12, "twelfths": 12, "hundredth": 100, "hundredths": 100}
PARTS |= {"thousandth": 1000, "thousandths": 1000, "sixtyfourths": 64}
GLYPHS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875}
MINUS = frozenset(["minus", "negative", "-"])
SMALL = ONES | TEENS | TENS
# Longer runs of digits are no number anyone says of a machine.
MOST_DIGITS = 15


@dataclass(frozen=True)
class Number:
    """A number and how it was said.

    ``end`` is the index after its last word. ``form`` is ``words``, ``digits`` (one by one),
    ``pairs`` ("sixty two oh four"), ``written``, ``fraction`` or ``article`` ("a", "an": only with a unit behind it). ``step`` is the
    value of its last place: half of it is how far the words leave the number open.
    """

    value: float
    end: int
    form: str
    step: float = 1.0


def is_written(word: str) -> bool:
    return (word[:1].isascii() and word[:1].isdigit()) or word in GLYPHS


def written(word: str) -> tuple[float, float] | None:
    """Value and step of a number in figures ("12,480", "3/16", "½"), or None."""
    if word in GLYPHS:
        return GLYPHS[word], 0.125
    if len(word) > MOST_DIGITS:
        return None
    if "/" in word:
        above, below = word.split("/")
        return (int(above) / int(below), 1 / int(below)) if int(below) else None
    bare = word.replace(",", "")
    places = len(bare.partition(".")[2])
    return float(bare), 10.0**-places


def below_hundred(words: Sequence[str], at: int) -> tuple[int, int] | None:
    """Read 0 to 99 said as one number; returns (value, end)."""
    if at >= len(words):
        return None
    word = words[at]
    if word in TENS:
        unit = words[at + 1] if at + 1 < len(words) else ""
        if ONES.get(unit, 0) and unit not in ("o",):
            return TENS[word] + ONES[unit], at + 2
        return TENS[word], at + 1
    if word in TEENS:
        return TEENS[word], at + 1
    if word in ONES:
        return ONES[word], at + 1
    return None


def skip_and(words: Sequence[str], at: int) -> int:
    return at + 1 if at < len(words) and words[at] in ("and", ",") else at


def cardinal(words: Sequence[str], at: int) -> tuple[int, int] | None:
    """Read a cardinal with scales ("two hundred and fifty four thousand and one"); (value, end)."""
    total, group, end, seen = 0, 0, at, False
    last_scale = 10**30
    if (
        at < len(words)
        and words[at] in ("a", "an", "one")
        and at + 1 < len(words)
        and words[at + 1] in SCALES
    ):
        group, end, seen = 1, at + 1, True
    while end < len(words):
        word = words[end]
        if word in SCALES and seen:
            scale = SCALES[word]
            if scale == 100:
                group = (group or 1) * 100
            elif scale >= last_scale and total:
                break
            else:
                total, group, last_scale = total + (group or 1) * scale, 0, scale
            end += 1
            continue
        start = skip_and(words, end) if seen and group % 100 == 0 and (group or total) else end
        piece = below_hundred(words, start)
        if (
            piece is None
            or (seen and group % 100 != 0)
            or (seen and start == end and not group and not total)
        ):
            break
        if seen and words[start] in ("o", "oh", "zero", "nought"):
            break
        if start > end and words[end] == "," and not (piece[1] < len(words) and words[piece[1]] in SCALES):
            break
        group, end, seen = group + piece[0], piece[1], True
    return (total + group, end) if seen else None


def digit_run(words: Sequence[str], at: int) -> tuple[str, int]:
    """Digits said one by one ("four one five oh"): the digits as text, and the end."""
    digits, end = "", at
    while end < len(words):
        if words[end] in ("double", "triple") and end + 1 < len(words) and words[end + 1] in ONES:
            digits += str(ONES[words[end + 1]]) * (2 if words[end] == "double" else 3)
            end += 2
        elif words[end] in ONES:
            digits += str(ONES[words[end]])
            end += 1
        else:
            break
    return digits, end


def pairs(words: Sequence[str], at: int) -> tuple[int, int] | None:
    """Numbers said in pairs ("sixty two oh four", "eighty four twelve"): at least one pair with tens."""
    text, end, groups = "", at, 0
    while end < len(words):
        if words[end] in ("oh", "o", "zero") and end + 1 < len(words) and words[end + 1] in ONES and text:
            piece: tuple[int, int] | None = (ONES[words[end + 1]], end + 2)
            text += f"{ONES[words[end + 1]]:02d}"
        else:
            piece = below_hundred(words, end)
            if piece is None or (piece[0] < 10 and text and not in_run(words, end)):
                break
            text += str(piece[0])
        end, groups = piece[1], groups + 1
    if len(text) > MOST_DIGITS or groups < 2 or not any(w in TEENS or w in TENS for w in words[at:end]):
        return None
    if end < len(words) and words[end] in SCALES:
        return None
    return int(text), end


def in_run(words: Sequence[str], at: int) -> bool:
    """Whether a single digit stands beside another one ("eleven four eight two")."""
    before = at > 0 and words[at - 1] in ONES
    return before or (at + 1 < len(words) and words[at + 1] in ONES)


def fraction(words: Sequence[str], at: int) -> Number | None:
    """Read "three sixteenths", "an eighth", "half", "a half", "three quarters"."""
    if at >= len(words):
        return None
    single = PARTS.get(words[at], 0)
    if single > 4 and words[at + 1 : at + 2] in (["inch"], ["of"], ["in"]):
        return Number(1 / single, at + 1, "fraction", 1 / single)
    if words[at] in ("half", "quarter"):
        below = PARTS[words[at]]
        end = at + 1
        if words[end : end + 1] in (["a"], ["an"]):
            return Number(1 / below, end, "fraction", 1 / below / 2)
        return Number(1 / below, end, "fraction", 1 / below / 2)
    above, end = 0, at
    if words[at] in ("a", "an"):
        above, end = 1, at + 1
    else:
        piece = below_hundred(words, at)
        if piece is None:
            return None
        above, end = piece
    if end < len(words):
        if words[end] == "thirty" and words[end + 1 : end + 2] in (["seconds"], ["second"]):
            return Number(above / 32, end + 2, "fraction", 1 / 32)
        if words[end] == "sixty" and words[end + 1 : end + 2] in (["fourths"], ["fourth"]):
            return Number(above / 64, end + 2, "fraction", 1 / 64)
        below = PARTS.get(words[end], 0)
        if below and above and not (above > 1 and below != 4 and not words[end].endswith("s")):
            return Number(above / below, end + 1, "fraction", 1 / below)
    return None


def decimals(words: Sequence[str], at: int) -> tuple[str, int]:
    """What follows "point": digits one by one, or a number below a hundred ("point twenty five")."""
    digits, end = digit_run(words, at)
    if digits:
        return digits, end
    piece = below_hundred(words, at)
    if piece:
        return str(piece[0]), piece[1]
    if at < len(words) and words[at].isdigit():
        return words[at], at + 1
    return "", at


def with_fraction(words: Sequence[str], number: Number) -> Number:
    """Add "and a half", "and three eighths", "1/2" behind a whole number."""
    at = number.end
    if at < len(words) and words[at] == "and":
        more = fraction(words, at + 1)
        if more and more.value < 1:
            return Number(number.value + more.value, more.end, number.form, more.step)
    if at < len(words) and ("/" in words[at] and is_written(words[at]) or words[at] in GLYPHS):
        more_written = written(words[at])
        if more_written and more_written[0] < 1:
            return Number(number.value + more_written[0], at + 1, number.form, more_written[1])
    if number.form == "words" and number.value == int(number.value):
        more = fraction(words, at)
        if more and more.value < 1 and words[at] not in ("half", "quarter"):
            return Number(number.value + more.value, more.end, number.form, more.step)
    return number


def parse(words: Sequence[str], at: int = 0) -> Number | None:
    """Read the number that begins at word ``at``, the longest there is; None where there is none.

    Args:
        words: tokens in lower case, hyphens taken out.
    """
    if at >= len(words):
        return None
    if words[at : at + 3] == ["half", "a", "dozen"]:
        return Number(6, at + 3, "words")
    if words[at] in MINUS:
        if list(words[max(0, at - 2) : at]) == ["plus", "or"]:
            return None
        inner = parse(words, at + 1)
        if inner is None or inner.form == "article":
            return None
        return Number(-inner.value, inner.end, inner.form, inner.step)
    if is_written(words[at]):
        return parse_written(words, at)
    if words[at] == "point" and at + 1 < len(words):
        digits, end = decimals(words, at + 1)
        return Number(float("0." + digits), end, "words", 10.0 ** -len(digits)) if digits else None
    if words[at] == "dozen":
        return Number(12, at + 1, "words")
    if words[at : at + 2] == ["a", "couple"]:
        return Number(2, at + 2 + (words[at + 2 : at + 3] == ["of"]), "article")
    if words[at] == "couple":
        return Number(2, at + 1 + (words[at + 1 : at + 2] == ["of"]), "article")
    found = best_of(words, at)
    if found is None:
        return Number(1, at + 1, "article") if words[at] in ("a", "an") else None
    if found.end < len(words) and words[found.end] == "point" and found.form in ("words", "digits", "pairs"):
        digits, end = decimals(words, found.end + 1)
        if digits:
            return Number(float(f"{int(found.value)}.{digits}"), end, found.form, 10.0 ** -len(digits))
    return with_fraction(words, found)


def spaced(words: Sequence[str], at: int) -> tuple[str, int] | None:
    """Figures with a space between: thousands ("11 482") or digit by digit ("4 8")."""
    end = at
    while end < len(words) and len(words[end]) == 1 and words[end].isascii() and words[end].isdigit():
        end += 1
    if end - at >= 2:
        return "".join(words[at:end]), end
    behind = words[at + 1] if at + 1 < len(words) else ""
    thousands = len(behind) == 3 and behind.isascii() and behind.isdigit()
    if thousands and len(words[at]) <= 3 and words[at].isascii() and words[at].isdigit():
        return words[at] + behind, at + 2
    return None


def parse_written(words: Sequence[str], at: int) -> Number | None:
    value = written(words[at])
    if value is None:
        return None
    joined = spaced(words, at)
    if joined:
        return Number(float(joined[0]), joined[1], "written", 1.0)
    end = at + 1
    while end < len(words) and words[end] in SCALES:
        value, end = (value[0] * SCALES[words[end]], value[1] * SCALES[words[end]]), end + 1
    number = Number(value[0], end, "written", value[1])
    if end < len(words) and words[end] == "point" and number.value == int(number.value):
        digits, end = decimals(words, end + 1)
        if digits:
            return Number(float(f"{int(number.value)}.{digits}"), end, "written", 10.0 ** -len(digits))
    return with_fraction(words, number)


def best_of(words: Sequence[str], at: int) -> Number | None:
    """The longest of the ways in which the words at ``at`` can be a number."""
    candidates = []
    part = fraction(words, at)
    if part:
        candidates.append(part)
    whole = cardinal(words, at)
    if whole:
        value, end = whole
        candidates.append(Number(value, end, "words", 1.0))
    digits, end = digit_run(words, at)
    if 2 <= len(digits) <= MOST_DIGITS:
        candidates.append(Number(int(digits), end, "digits", 1.0))
    paired = pairs(words, at)
    if paired:
        candidates.append(Number(paired[0], paired[1], "pairs", 1.0))
    return max(candidates, key=lambda n: (n.end, n.form == "fraction"), default=None)


def ordinal(words: Sequence[str], at: int = 0) -> tuple[int, int] | None:
    """Read an ordinal ("second", "twenty-third", "21st"); returns (value, end)."""
    if at >= len(words):
        return None
    word = words[at]
    if word.isascii() and word[:1].isdigit() and word.rstrip("stndrh").isdigit() and not word.isdigit():
        return int(word.rstrip("stndrh")), at + 1
    if word.isdigit() and words[at + 1 : at + 2] and words[at + 1] in ("st", "nd", "rd", "th"):
        return int(word), at + 2
    end = at
    while end < len(words) and (
        words[end] in SMALL or words[end] in SCALES or words[end] in ("and", "a", "one", ",")
    ):
        end += 1
    if word == "zeroth":
        return 0, at + 1
    for stop in range(end, at - 1, -1):
        if stop >= len(words) or words[stop] not in ORDINALS:
            continue
        last = ORDINALS[words[stop]]
        if stop == at:
            return last, stop + 1
        if last >= 100:
            whole = cardinal([*words[at:stop], next(w for w, n in SCALES.items() if n == last)], 0)
            return (whole[0], stop + 1) if whole and whole[1] == stop - at + 1 else None
        value = cardinal([*words[at:stop], number_word(last)], 0)
        if value and value[1] == stop - at + 1:
            return value[0], stop + 1
    return None


def number_word(value: int) -> str:
    return next(w for w, n in SMALL.items() if n == value)


def read_number(text: str) -> float | None:
    """The number that ``text`` says as a whole ("twelve point six" → 12.6), or None."""
    words = words_of(text.replace("-", " ")) if not text.startswith("-") else ("minus", *words_of(text[1:]))
    number = parse(list(words))
    if number is None or number.end != len(words) or number.form == "article":
        return None
    return number.value
