"""How well a text was heard: words made comparable, word error rate by jiwer, statements heard word-perfect.

``comparable`` is in the manner of Whisper's English normaliser (lower case, no punctuation, numbers as
figures, one spelling for British and American words), with one difference: figures said one by one and the
same number said as a whole come out alike ("one four", "fourteen", "14"), and so do "p s i" and "PSI",
since understanding reads them alike. Apostrophes go: "bucket's" and "buckets" sound the same.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

_ONE_SPELLING = {
    "tyre": "tire", "tyres": "tires", "colour": "color", "metre": "meter", "metres": "meters",
    "centre": "center", "grey": "gray", "millimetre": "millimeter", "millimetres": "millimeters",
    "litre": "liter", "litres": "liters", "stabiliser": "stabilizer", "stabilisers": "stabilizers",
    "mm": "millimeters", "okay": "ok", "alright": "all right", "mil": "mill", "mils": "mills",
    "aluminium": "aluminum", "gauge": "gage", "gauges": "gages", "em": "them", "til": "till",
    "fibre": "fiber", "plough": "plow", "kerb": "curb", "nought": "0", "oh": "0", "1st": "first",
    "2nd": "second", "3rd": "third",
}  # fmt: skip


def comparable(text: str) -> list[str]:
    """The words of ``text`` in the form in which they are compared."""
    from text_to_num import alpha2digit

    text = text.lower().replace("\u2019", "'").replace("%", " percent ").replace("\u00b0", " degrees ")
    text = re.sub(r"(?<=\d),(?=\d{3})", "", text)
    text = re.sub(r"(\d)\s*/\s*(\d)", r"\1 \2", text)
    text = re.sub(r"(\d)(mm|psi|cm|in|ft|am|pm|l)\b", r"\1 \2", text)
    text = re.sub(r"(?<=\w)\.(?=[a-z]\b)", "", text)  # "p.s.i."
    text = re.sub(r"[^a-z0-9.' ]+", " ", text)
    text = re.sub(r"\.(?!\d)|(?<!\d)\.(?=\D)", " ", text).replace("'", "")
    text = alpha2digit(" ".join(text.split()), "en", 0.0)
    # The general ear writes some numbers in two pieces, which understanding reads as one: "8100 and 90".
    text = re.sub(r"\b(\d+)00 and (\d\d?)\b", lambda m: f"{m[1]}{m[2].zfill(2)}", text)
    text = re.sub(r"(?<!\d)0?\.(\d)", r"point \1", text)
    words = [part for word in text.split() for part in _ONE_SPELLING.get(word, word).split()]
    return _letters_joined(_figures_joined(words))


def _figures_joined(words: Sequence[str]) -> list[str]:
    joined: list[str] = []
    for word in words:
        if joined and word.isdigit() and joined[-1].isdigit():
            joined[-1] += word
        else:
            joined.append(word)
    return joined


def _letters_joined(words: Sequence[str]) -> list[str]:
    """ "p s i" as one word; "a" and "i" by themselves stay words."""
    joined: list[str] = []
    run: list[str] = []
    for word in [*words, ""]:
        if len(word) == 1 and word.isalpha() and (run or word not in "ai"):
            run.append(word)
            continue
        if run:
            joined.append("".join(run))
            run = []
        if word:
            joined.append(word)
    return joined


@dataclass(frozen=True)
class Score:
    """One heard text: words said, word errors, and of each statement whether it was heard word-perfect."""

    words: int
    errors: int
    perfect: tuple[bool, ...]


def score(said: str, heard: str, quotes: Sequence[str]) -> Score:
    """Compare; a statement (exact quote of ``said``) is perfect where every word of it was heard.

    Words that only fell apart or together count as heard: "hand rail" for "handrail".
    """
    import jiwer

    words, other = comparable(said), comparable(heard)
    result = jiwer.process_words([" ".join(words)], [" ".join(other)])
    errors = result.substitutions + result.deletions + result.insertions
    mine = heard_for(words, other, result.alignments[0])
    return Score(len(words), errors, tuple(_perfect(said, quote, words, mine) for quote in quotes))


def heard_for(words: Sequence[str], other: Sequence[str], changes: Sequence[Any]) -> list[list[str]]:
    """What was heard in place of each word; words only added go to the word before.

    Changes that touch are taken together: "hand" added and "rail" for "handrail" is "hand rail" for it.
    """
    mine: list[list[str]] = [[] for _ in words]
    for equal, group in groupby(changes, key=lambda change: change.type == "equal"):
        run = list(group)
        a, b = run[0].ref_start_idx, run[-1].ref_end_idx
        c, d = run[0].hyp_start_idx, run[-1].hyp_end_idx
        if a == b and a > 0:
            mine[a - 1] += other[c:d]
        for n in range(b - a):
            first, after = (n, n + 1) if equal else (n * (d - c) // (b - a), (n + 1) * (d - c) // (b - a))
            mine[a + n] += other[c + first : c + after]
    return mine


def _perfect(said: str, quote: str, words: Sequence[str], mine: Sequence[Sequence[str]]) -> bool:
    wanted = comparable(quote)
    near = len(comparable(said[: said.index(quote)]))
    # A number that the quote's edge cuts in two shifts the count a little.
    starts = [near + shift for shift in (0, -1, 1, -2, 2) if _stands(wanted, words, near + shift)]
    if not starts:
        return False
    got = "".join(word for place in mine[starts[0] : starts[0] + len(wanted)] for word in place)
    last = mine[starts[0] + len(wanted) - 1]
    extra = "".join(last[1:]) if last[:1] == wanted[-1:] else ""  # added after the statement's last word
    return "".join(wanted) in (got, got.removesuffix(extra) if extra else got)


def _stands(wanted: Sequence[str], words: Sequence[str], at: int) -> bool:
    return at >= 0 and list(words[at : at + len(wanted)]) == list(wanted)
