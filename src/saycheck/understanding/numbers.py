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

from saycheck.understanding.cardinals import below_hundred, cardinal, digit_run, pairs
from saycheck.understanding.number_words import (
    BEGINS,
    GLYPHS,
    MINUS,
    MOST_DIGITS,
    ORDINALS,
    PARTS,
    POINTS,
    SCALES,
    SMALL,
    SPOKEN_BELOW,
)
from saycheck.understanding.text import words_of

LABELLED = frozenset(["axle", "number"])
"""Behind these a digit is a name."""


@dataclass(frozen=True)
class Number:
    """A number and how it was said.

    ``end`` is the index after its last word. ``form`` is ``words``, ``digits`` (one by one), ``pairs``
    ("sixty two oh four"), ``written``, ``fraction`` or ``article`` ("a", "an": only with a unit behind
    it). ``step`` is the value of its last place: half of it is how far the words leave the number open.
    """

    value: float
    end: int
    form: str
    step: float = 1.0


def is_written(word: str) -> bool:
    """Whether a token is a number in figures."""
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


def fraction(words: Sequence[str], at: int) -> Number | None:
    """Read "three sixteenths", "an eighth", "half", "a half", "three quarters"."""
    if at >= len(words):
        return None
    single = PARTS.get(words[at], 0)
    if single > 4 and words[at + 1 : at + 2] in (["inch"], ["of"], ["in"]):
        return Number(1 / single, at + 1, "fraction", 1 / single)
    if words[at] in ("half", "quarter"):
        below = PARTS[words[at]]
        return Number(1 / below, at + 1, "fraction", 1 / below / 2)
    above, end = 0, at
    if words[at] in ("a", "an"):
        above, end = 1, at + 1
    else:
        piece = below_hundred(words, at)
        if piece is None:
            return None
        above, end = piece
    run, behind = digit_run(words, at)
    if len(run) > 1 and tuple(words[behind : behind + 2]) in SPOKEN_BELOW:
        above, end = int(run), behind  # "four one thirty-seconds"
    if end < len(words):
        spoken = SPOKEN_BELOW.get(tuple(words[end : end + 2]))
        if spoken:
            return Number(above / spoken, end + 2, "fraction", 1 / spoken)
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
    if at < len(words) and (words[at] in GLYPHS or ("/" in words[at] and is_written(words[at]))):
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
    if at >= len(words) or not (words[at] in BEGINS or is_written(words[at])):
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
    if words[at] in POINTS and at + 1 < len(words):
        digits, end = decimals(words, at + 1)
        return Number(float("0." + digits), end, "words", 10.0 ** -len(digits)) if digits else None
    if words[at] == "dozen":
        return Number(12, at + 1, "words")
    if words[at : at + 2] == ["a", "couple"]:
        end = at + 2 + (words[at + 2 : at + 3] == ["of"])
        if end < len(words) and words[end] in ("hundred", "thousand"):
            return Number(2 * SCALES[words[end]], end + 1, "words", SCALES[words[end]] / 2)
        return Number(2, end, "article")
    if words[at] == "couple":
        return Number(2, at + 1 + (words[at + 1 : at + 2] == ["of"]), "article")
    found = best_of(words, at)
    if found is None:
        return Number(1, at + 1, "article") if words[at] in ("a", "an") else None
    if found.end < len(words) and words[found.end] in POINTS and found.form in ("words", "digits", "pairs"):
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
    """Read a number in figures with the words of scale, decimals and fractions behind it."""
    value = written(words[at])
    if value is None:
        return None
    joined = spaced(words, at)
    if joined:
        return Number(float(joined[0]), joined[1], "written", 1.0)
    end = at + 1
    rest = hundreds_and(words, at)
    if rest is not None:
        return Number(value[0] + rest, at + 3, "written", 1.0)
    while end < len(words) and words[end] in SCALES:
        value, end = (value[0] * SCALES[words[end]], value[1] * SCALES[words[end]]), end + 1
    form = "fraction" if "/" in words[at] or words[at] in GLYPHS else "written"
    number = Number(value[0], end, form, value[1])
    below = SPOKEN_BELOW.get(tuple(words[end : end + 2]))
    if below and form == "written" and 0 < number.value < below and number.value == int(number.value):
        return Number(number.value / below, end + 2, "fraction", 1 / below)
    if end < len(words) and words[end] in POINTS and number.value == int(number.value):
        digits, end = decimals(words, end + 1)
        if digits:
            return Number(float(f"{int(number.value)}.{digits}"), end, "written", 10.0 ** -len(digits))
    return with_fraction(words, number)


def hundreds_and(words: Sequence[str], at: int) -> int | None:
    """What a recogniser wrote behind the hundreds of one number ("8100 and 90"), or None."""
    whole, behind = words[at].replace(",", ""), list(words[at + 1 : at + 3])
    if not (whole.isdigit() and whole.endswith("00") and int(whole)) or len(behind) < 2 or behind[0] != "and":
        return None
    return int(behind[1]) if behind[1].isdigit() and 0 < int(behind[1]) < 100 else None


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
    if at and words[at - 1] in LABELLED and len(digits) > 1 and words[end : end + 1] and words[end] in POINTS:
        # "Axle one seven point two": the one is the axle's.
        return Number(SMALL[words[at]], at + 1, "words")
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
    """The word for a number from 0 to 20 or for whole tens."""
    return next(w for w, n in SMALL.items() if n == value)


def read_number(text: str) -> float | None:
    """The number that ``text`` says as a whole ("twelve point six" → 12.6), or None."""
    words = words_of(text.replace("-", " ")) if not text.startswith("-") else ("minus", *words_of(text[1:]))
    number = parse(list(words))
    if number is None or number.end != len(words) or number.form == "article":
        return None
    return number.value
