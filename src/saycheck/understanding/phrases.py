"""Finding many phrases in a row of tokens at once: a trie over words, longest match first.

Words are compared in a form without plural where the table asks for it, so that "hoses" finds "hose"
and "batteries" finds "battery".
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Generic, TypeVar

from saycheck.understanding.text import DIALECT, words_of

V = TypeVar("V")
GAP = "*"
GAP_MOST = 3
# A shorter word in "-ing" is hardly said without its g: "thin" is no "thing".
SHORTEST_WHOLE = 6
END = object()
# How many words are kept with their singular: more than any trade has.
WORDS_KEPT = 20_000

IRREGULAR = {
    "teeth": "tooth", "feet": "foot", "leaves": "leaf", "knives": "knife", "shelves": "shelf", "men": "man",
    "gas": "gas", "lens": "lens", "chassis": "chassis", "bus": "bus", "brakes": "brake", "glasses": "glass",
    "axles": "axle", "cables": "cable", "handles": "handle", "gauges": "gauge", "nozzles": "nozzle",
    "tyres": "tyre", "tires": "tire", "hoses": "hose", "edges": "edge", "axes": "axis", "dies": "die",
    "its": "its", "this": "this", "is": "is", "was": "was", "has": "has", "hydraulics": "hydraulic",
    "does": "does", "us": "us", "yes": "yes", "as": "as", "electrics": "electric",
}  # fmt: skip


NOT = {word: usual for word, usual in DIALECT.items() if usual.endswith("n't")} | {
    "cannot": "can't", "couldna": "couldn't", "wasna": "wasn't", "doesna": "doesn't", "disnae": "doesn't",
    "didna": "didn't", "hasna": "hasn't", "winna": "won't", "wouldna": "wouldn't", "cant": "can't",
    "couldnt": "couldn't", "isnt": "isn't", "arent": "aren't", "wasnt": "wasn't", "doesnt": "doesn't",
    "dont": "don't", "didnt": "didn't", "hasnt": "hasn't", "havent": "haven't", "wont": "won't",
    "wouldnt": "wouldn't",
}  # fmt: skip
"""The words that say "not" at their end, by how else they are said or written: those of the dialect among them."""


def as_usual(phrases: Iterable[str]) -> Callable[[str], str]:
    """What gives words the form in which these phrases have them: "cannae" is "can't", "leakin" is "leaking"."""
    words = {word for phrase in phrases for word in words_of(phrase)}
    whole = {word[:-1]: word for word in words if word.endswith("ing") and len(word) >= SHORTEST_WHOLE}
    forms = {**NOT, **{short: word for short, word in whole.items() if short not in words}}
    return lambda word: forms.get(word, word)


@lru_cache(WORDS_KEPT)
def singular(word: str) -> str:
    """The singular of an English noun, by rule ("bushes" → "bush", "assemblies" → "assembly")."""
    if word in IRREGULAR:
        return IRREGULAR[word]
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "'s")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "xes", "sses", "zes")):
        return word[:-2]
    return word[:-1]


def plural(word: str) -> str:
    """The plural of an English noun, by rule."""
    for many, one in IRREGULAR.items():
        if one == word and many not in ("its", "this"):
            return many
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return word[:-1] + "ies"
    return word + ("es" if word.endswith(("s", "x", "z", "ch", "sh")) else "s")


def same(word: str) -> str:
    """The word as it is."""
    return word


class Row:
    """Words in the form in which tables compare them, with the places of each: tables of one form can share it."""

    def __init__(self, words: Sequence[str], fold: Callable[[str], str]) -> None:
        self.words = list(map(fold, words))
        self.places: dict[object, list[int]] = {}
        for at, word in enumerate(self.words):
            self.places.setdefault(word, []).append(at)

    def places_of(self, words: Mapping[object, object]) -> Iterable[int]:
        """Where one of these words stands, from left to right; everywhere if ``GAP`` is one of them."""
        if GAP in words:
            return range(len(self.words))
        return sorted(at for word in words.keys() & self.places.keys() for at in self.places[word])


class PhraseTable(Generic[V]):
    """Phrases and what each stands for.

    Args:
        fold: the form in which words are compared (``singular`` for part names).
    """

    def __init__(self, fold: Callable[[str], str] = same) -> None:
        self.fold = fold
        self.root: dict[object, dict] = {}  # type: ignore[type-arg]
        self.most = 0

    def add(self, phrase: str, value: V) -> None:
        """Add a phrase; ``*`` in it stands for one to three words. A second value is kept as well."""
        node = self.root
        words = phrase.split() if GAP in phrase else words_of(phrase)
        self.most = max(self.most, sum(GAP_MOST if word == GAP else 1 for word in words))
        for word in words:
            key = word if word == GAP else self.fold(word)
            node = node.setdefault(key, {})
        values = node.setdefault(END, [])  # type: ignore[arg-type]
        if value not in values:
            values.append(value)  # type: ignore[attr-defined]

    def add_all(self, phrases: Iterable[str], value: V) -> None:
        """Add phrases that stand for the same."""
        for phrase in phrases:
            self.add(phrase, value)

    def longest(self, words: Sequence[str], start: int) -> tuple[int, list[V]] | None:
        """The longest phrase beginning at ``start``: its end (half-open) and values, or None."""
        # Most words begin no phrase, and there are many tables.
        if GAP not in self.root and not any(
            self.fold(word) in self.root for word in words[start : start + 1]
        ):
            return None
        hit = self._longest([self.fold(word) for word in words[start : start + self.most]], 0)
        return (start + hit[0], hit[1]) if hit else None

    def find(self, words: Sequence[str]) -> Iterator[tuple[int, int, list[V]]]:
        """Yield (start, end, values) of every longest match, without overlaps, from left to right."""
        return self.find_in(Row(words, self.fold))

    def find_in(self, row: Row) -> Iterator[tuple[int, int, list[V]]]:
        """The same in a row that is in this table's form already."""
        behind = 0
        for at in row.places_of(self.root):
            hit = self._longest(row.words, at) if at >= behind else None
            if hit:
                behind = hit[0]
                yield at, behind, hit[1]

    def _longest(self, folded: Sequence[str], start: int) -> tuple[int, list[V]] | None:
        best: tuple[int, list[V]] | None = None
        stack = [(self.root, start)]
        while stack:
            node, at = stack.pop()
            if END in node and (best is None or at > best[0]):
                best = at, node[END]  # type: ignore[assignment]
            if at >= len(folded):
                continue
            following = node.get(folded[at])
            if following is not None:
                stack.append((following, at + 1))
            if GAP in node:
                stack += [(node[GAP], at + n) for n in range(1, GAP_MOST + 1) if at + n <= len(folded)]
        return best
