"""Whole numbers in words: with scales ("two hundred and six"), digit by digit, and in pairs.

Each reader takes words and where to begin, and returns what it read and the index after its last word.
"""

from collections.abc import Sequence

from saycheck.understanding.number_words import MOST_DIGITS, ONES, SCALES, TEENS, TENS

BARE_SCALES = frozenset(["hundred", "thousand"])
# "Hundred and twenty" leaves out its "a"; "a few hundred" is no hundred.
SOME = frozenset("few several many couple of odd some half".split())


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
    """The index behind an "and" or a comma at ``at``."""
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
    elif at + 1 < len(words) and words[at] in BARE_SCALES and not (at and words[at - 1] in SOME):
        group, seen = 1, True
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
            value, stop = ONES[words[end + 1]], end + 2
            text += f"{value:02d}"
        else:
            piece = below_hundred(words, end)
            if piece is None or (piece[0] < 10 and text and not in_run(words, end)):
                break
            value, stop = piece
            text += str(value)
        end, groups = stop, groups + 1
    if len(text) > MOST_DIGITS or groups < 2 or not any(w in TEENS or w in TENS for w in words[at:end]):
        return None
    if end < len(words) and words[end] in SCALES:
        return None
    return int(text), end


def in_run(words: Sequence[str], at: int) -> bool:
    """Whether a single digit stands beside another one ("eleven four eight two")."""
    before = at > 0 and words[at - 1] in ONES
    return before or (at + 1 < len(words) and words[at + 1] in ONES)
