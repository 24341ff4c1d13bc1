"""Where a sentence ends in a transcript without marks: a small trained part over words and pauses.

Recognisers and dictation give words without stops and commas. For every gap between two words the model
says none, comma or stop, from the words around it and from what they name (part, condition, number,
cue). A pause heard in the sound counts beside it. The marks are set as empty tokens, so that all rules
that know stops and commas work alike; the text stays as it is.
"""

from collections.abc import Sequence
from dataclasses import replace

from saycheck.understanding.linear import Linear, trained
from saycheck.understanding.text import SENTENCE_ENDS, Reading, Token

TAGS = (
    "part", "condition", "quantity", "deny", "hidden", "later", "keep-an-eye", "needs-work", "teach", "story",
    "hypothesis", "same", "correct", "take-back", "except", "here", "chat",
)  # fmt: skip
MARKS_EXPECTED = 40
PAUSE_SURE_S = 0.55
PAUSE_HALF_S = 0.22
# How much a pause adds to the score of a mark; by hand, on synthetic voices.
PAUSE_WEIGHT = 3.0
# Words that count the things named right behind them.
COUNTING = frozenset("two three five six seven eight nine ten".split())
# Before "one" these, or what they stand before, point: "that one seat belt works", "the left one seat belt works".
POINTING = frozenset("the this that other last next each every no which number".split())
ARTICLES = frozenset(["the", "this", "that"])


def lacks_marks(reading: Reading) -> bool:
    """Whether a transcript has fewer stops than any punctuated speech has."""
    stops = sum(t.text in SENTENCE_ENDS for t in reading.tokens)
    return stops * MARKS_EXPECTED < len(reading.tokens)


def tags(reading: Reading, size: int) -> list[str]:
    """For each token what it begins (B), is inside (I) or nothing, for the strongest kind of mention."""
    out = ["-"] * size
    for kind in reversed(TAGS):
        for mention in reading.of(kind):
            for i in range(mention.start, mention.end):
                out[i] = ("B-" if i == mention.start else "I-") + kind
    return out


def features(words: Sequence[str], tag: Sequence[str], i: int) -> list[str]:
    """Features of the gap before word ``i``."""

    def w(k: int) -> str:
        return words[k] if 0 <= k < len(words) else "#"

    def t(k: int) -> str:
        return tag[k] if 0 <= k < len(tag) else "#"

    a, b, c, d = w(i - 2), w(i - 1), w(i), w(i + 1)
    return [
        f"b={b}", f"c={c}", f"bc={b} {c}", f"ab={a} {b}", f"cd={c} {d}", f"a={a}", f"d={d}", f"e={w(i + 2)}",
        f"tb={t(i - 1)}", f"tc={t(i)}", f"tbc={t(i - 1)} {t(i)}", f"tabc={t(i - 2)} {t(i - 1)} {t(i)}",
        f"tbcd={t(i - 1)} {t(i)} {t(i + 1)}", f"tbc_c={t(i - 1)} {c}", f"b_tc={b} {t(i)}",
        f"tcde={t(i)} {t(i + 1)} {t(i + 2)}",
        f"tall={t(i - 3)} {t(i - 2)} {t(i - 1)} {t(i)} {t(i + 1)}", f"bcd={b} {c} {d}",
    ]  # fmt: skip


def marked(reading: Reading) -> list[Token]:
    """The tokens with stops and commas set between them where the model and the pauses say so.

    No mark parts a number from its digits, its unit or the things that it counts; one that would part "one" from
    the one thing goes before it.
    """
    model: Linear | None = trained("boundaries")
    words = reading.all_words
    tag = tags(reading, len(words))
    out: list[Token] = []
    inside = {i for m in reading.of("quantity") for i in range(m.start + 1, m.end)}
    inside |= {i for i in range(1, len(words)) if words[i - 1] in COUNTING and tag[i] == "B-part"}
    for i, token in enumerate(reading.tokens):
        if i and i not in inside:
            mark = choose(model, words, tag, i, token.pause)
            if mark and not (token.is_mark or reading.tokens[i - 1].is_mark):
                at = i - 1 if counts_one(words, tag, i) else i
                if at < i and out[-2].is_mark:
                    out[-2] = replace(out[-2], text=mark)  # the stop, say, where a comma stood before "one"
                else:
                    end = reading.tokens[at - 1].end
                    out.insert(len(out) - (i - at), Token(mark, end, end))
        out.append(token)
    return out


def counts_one(words: Sequence[str], tag: Sequence[str], i: int) -> bool:
    """Whether the word before ``i`` is a "one" that counts what is named at ``i``: "pads are good one clamp gone"."""
    if i < 2 or words[i - 1] != "one" or tag[i] != "B-part" or not words[i - 2][0].isalnum():
        return False
    if words[i - 2] in POINTING or ARTICLES & set(words[max(0, i - 3) : i - 2]):
        return False
    last = i
    while last + 1 < len(tag) and tag[last + 1] == "I-part":
        last += 1
    return not words[last].endswith("s")


def choose(
    model: Linear | None, words: Sequence[str], tag: Sequence[str], i: int, pause: float
) -> str | None:
    """The mark before word ``i``: stop, comma or None."""
    if model is None:
        return "." if pause >= PAUSE_SURE_S else None
    scores = dict(zip(model.classes, model.scores(features(words, tag, i)), strict=True))
    if pause >= PAUSE_SURE_S:
        scores["stop"] += PAUSE_WEIGHT
        scores["comma"] += PAUSE_WEIGHT / 2
    elif pause >= PAUSE_HALF_S:
        scores["comma"] += PAUSE_WEIGHT / 2
        scores["stop"] += PAUSE_WEIGHT / 3
    best = max(scores, key=lambda k: scores[k])
    return {"none": None, "comma": ",", "stop": "."}[best]
