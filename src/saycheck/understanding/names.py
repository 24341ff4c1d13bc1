"""Which words name a part here: trained parts that know a name by what stands around it.

The vocabulary finds the words it has, also where they mean something else ("starting to hook", "a gauge on
it"), and it knows nothing of a part that stands on no list ("the rain flap's gone"). The encoder says how
likely each word names a part that is spoken of, in few words a linear model (``bench/train_names.py``). A part
the vocabulary found and they doubt is left out; words that they are sure of and no table has become a part under
the name they were said by.
"""

from collections.abc import Collection, Sequence
from dataclasses import replace

import numpy as np

from saycheck.understanding import encoder
from saycheck.understanding.linear import trained
from saycheck.understanding.parts import BARE_WORDS, ENDS, LEFT, POSITIONS, RIGHT, PartFinder
from saycheck.understanding.phrases import singular
from saycheck.understanding.tags import tags
from saycheck.understanding.text import Mention, Reading, plain_words, runs

# Words of these kinds of mention never become a part of their own.
SPOKEN_FOR = ("part", "quantity", "hidden", "later", "deny", "same", "except", "correct", "take-back")
# Below DOUBTED a part of the vocabulary is left out where its sentence names another, below DENIED anywhere;
# from SURE on other words name a part. Best F1 on the tuning narrations, writers left out.
DOUBTED = 0.3
DENIED = 0.03
SURE = 0.5
OWNING = frozenset(["on", "at", "of", "in", "along"])
# "Left front", "the rear one" point at a part that was named before.
PLACES = LEFT | RIGHT | POSITIONS | frozenset(ENDS) | {"one", "ones"}
LONGEST = 3
"""Lengths of part mentions and places in the clause are told apart up to this."""


def clause_places(reading: Reading) -> list[int]:
    """For each token how many tokens of its clause stand before it."""
    out, start = [], 0
    for i, token in enumerate(reading.tokens):
        out.append(i - start)
        if token.is_mark:
            start = i + 1
    return out


class NameFinder:
    """Says how likely each word names a part, and mends the part mentions of a reading by it.

    ``nouns`` are words, in the singular, that name something on any machine.
    """

    def __init__(self, finder: PartFinder, nouns: Collection[str]) -> None:
        self.finder = finder
        self.nouns = frozenset(singular(noun.lower()) for noun in nouns)

    def rows(self, reading: Reading) -> list[list[str]]:
        """The features of every word."""
        words = plain_words(reading)
        lengths = [0] * len(words)
        for mention in reading.of("part"):
            lengths[mention.start : mention.end] = [min(len(mention), LONGEST)] * len(mention)
        places = [min(p, LONGEST) for p in clause_places(reading)]
        known = [self._known(word, length) for word, length in zip(words, lengths, strict=True)]
        nouns = ["n" if singular(word) in self.nouns else "-" for word in words]
        around = _Padded(words, "."), _Padded(tags(reading)), _Padded(nouns)
        return [features(*around, known[i], places[i], i) for i in range(len(words))]

    def seen(self, reading: Reading) -> encoder.Words:
        """The words of a reading as the encoder sees them, with the part mentions that the vocabulary found."""
        words = map(singular, plain_words(reading))
        return encoder.seen(reading, [(word in self.finder.kinds, word in self.nouns) for word in words])

    def likely(self, reading: Reading) -> list[float] | None:
        """How likely each word names a part: by the encoder, in few words by the linear model."""
        made = encoder.read(reading)
        if made is not None:
            return [float(share) for share in shares(made)]
        model = trained("names")
        return None if model is None else [model.shares(row)["name"] for row in self.rows(reading)]

    def _known(self, word: str, length: int) -> str:
        """Whether the word may stand in a part's name, and how long the part found there is."""
        return ("k" if singular(word) in self.finder.kinds else "-") + str(length)

    def __call__(self, reading: Reading) -> None:
        """Leave out part mentions that are doubted, add those that are sure; without weights do nothing.

        Leaves on ``reading.data["names"]`` the likelihood of every word, and on ``["seen"]`` how the encoder sees it.
        """
        reading.data["seen"] = self.seen(reading)
        sure = self.likely(reading)
        if sure is None:
            return
        reading.data["names"] = sure
        reading.mentions["part"] = self.joined(
            reading, self.undoubted(reading, sure), self.unlisted(reading, sure)
        )

    def joined(self, reading: Reading, listed: list[Mention], unlisted: list[Mention]) -> list[Mention]:
        """All in order; an unlisted name that touches a part is one with it: "air filter flag"."""
        words, out = reading.all_words, list[Mention]()
        for mention in sorted(listed + unlisted, key=lambda m: m.start):
            before = out[-1] if out else None
            if before is None or before.end != mention.start or (before in listed and mention in listed):
                out.append(mention)
                continue
            owner_end = before.end if before in listed else None
            name = replace(self.finder.name(words, before.start, mention.end, owner_end), listed=False)
            out[-1] = Mention("part", before.start, mention.end, name)
        return out

    def undoubted(self, reading: Reading, sure: Sequence[float]) -> list[Mention]:
        """The part mentions of the vocabulary that the model does not doubt."""

        def likely(mention: Mention) -> float:
            return max(sure[mention.start : mention.end])

        kept = []
        for start, end in reading.sentences:
            parts = reading.inside("part", start, end)
            least = DOUBTED if any(likely(m) >= DOUBTED for m in parts) else DENIED
            kept += [m for m in parts if likely(m) >= (DENIED if owns(reading.all_words, m) else least)]
        return kept

    def unlisted(self, reading: Reading, sure: Sequence[float]) -> list[Mention]:
        """Part mentions for runs of words that surely name a part and that no table has."""
        taken = {i for kind in SPOKEN_FOR for m in reading.of(kind) for i in range(m.start, m.end)}
        words, found = reading.all_words, []
        named = [sure[i] >= SURE and i not in taken and not t.is_mark for i, t in enumerate(reading.tokens)]
        for start, end in runs(named):
            if words[end - 1] not in BARE_WORDS and not PLACES.issuperset(words[start:end]):
                name = replace(self.finder.name(words, start, end, None), listed=False)
                if name.words:
                    found.append(Mention("part", start, end, name))
        return found


def shares(made: encoder.Read) -> encoder.Array:
    """How likely each word names a part, by what it means where it stands."""
    scores = (made.words @ made.heads["naming"] + made.heads["naming_bias"])[:, 0]
    return np.asarray(1 / (1 + np.exp(-scores)), np.float32)


def owns(words: Sequence[str], mention: Mention) -> bool:
    """Whether the part before may belong to this one: "a bolt on the handrail", "weeping at the gland"."""
    before = list(words[max(0, mention.start - 2) : mention.start])
    return len(before) == 2 and before[0] in OWNING and before[1] == "the"


class _Padded:
    """A row that says ``edge`` beyond its ends: a text begins and ends as a sentence does."""

    def __init__(self, row: Sequence[str], edge: str = "-") -> None:
        self.row = row
        self.edge = edge

    def __call__(self, i: int) -> str:
        return self.row[i] if 0 <= i < len(self.row) else self.edge


def features(w: _Padded, t: _Padded, n: _Padded, known: str, place: int, i: int) -> list[str]:
    """Names of the binary features of word ``i``: words ``w``, tags ``t`` and nouns ``n`` around it, what the
    vocabulary knows of it, its place in the clause.
    """
    said = w(i)
    word, ending = singular(said), said[-2:]
    a, b, c, d = w(i - 2), w(i - 1), w(i + 1), w(i + 2)
    nnn = n(i - 1) + n(i) + n(i + 1)
    tb, tc = t(i - 1), t(i + 1)
    return [
        f"w={word}", f"z={w(i - 3)}", f"a={a}", f"b={b}", f"c={c}", f"d={d}", f"e={w(i + 3)}",
        f"ab={a} {b}", f"bw={b} {word}", f"wc={word} {c}", f"bc={b} {c}", f"cd={c} {d}",
        f"t={t(i)}", f"tb={tb}", f"tc={tc}", f"ttb={tb} {t(i)}", f"ttc={t(i)} {tc}", f"ttt={tb} {t(i)} {tc}",
        f"tcd={tc} {t(i + 2)}", f"tab={t(i - 2)} {tb}", f"wt={word} {t(i)}", f"b_t={b} {t(i)}", f"t_c={t(i)} {c}",
        f"wtc={word} {tc}", f"wtb={word} {tb}", f"k={known}", f"kf={known} {place}", f"kt={known} {tb} {tc}",
        f"kbc={known} {b} {c}", f"f={place}", f"fb={place} {b}", f"fc={place} {c}",
        f"n={n(i)}", f"nn={nnn}", f"nf={nnn} {place}", f"nt={n(i)} {t(i)} {tc}", f"nb={nnn} {b}", f"nc={nnn} {c}",
        f"nk={nnn} {known}", f"nftt={nnn} {place} {tb} {tc}", f"nbc={n(i)} {b} {c}", f"ntcd={nnn} {tc} {t(i + 2)}",
        f"suf={said[-3:]}", f"suf2={ending}", f"bsuf={b} {ending}", f"pl={word != said}",
    ]  # fmt: skip
