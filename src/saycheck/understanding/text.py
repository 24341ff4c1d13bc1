"""The transcript as understanding sees it: tokens with their place, and what was found on them.

A ``Reading`` travels through the pipeline on the spaCy ``Doc`` (``doc._.reading``). Hesitations ("um")
and the hyphen inside a word are left out of ``tokens``, so that "twenty-five" and "twenty um five" read
alike; offsets always count characters of the unchanged text.
"""

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any, TypeVar

from saycheck.understanding.number_words import ONES, SCALES, TEENS, TENS

Item = TypeVar("Item")

NO_PAUSES: Mapping[int, float] = MappingProxyType({})

TOKEN = re.compile(
    r"\d+(?:,\d{3})+(?:\.\d+)?|\d+\.\d+|\d+/\d+|\d+|[½¼¾⅛⅜⅝⅞]|(?:(?<=\w)|(?<=\s)|^)['’]s\b"
    r"|[A-Za-z]+(?:['’](?!s\b)[A-Za-z]+)*|\S"
)
FILLERS = frozenset("um uh er erm ah eh hmm uhm".split())
PUNCTUATION = frozenset(".,;:!?-–—…()\"“”'’")
LEADS_TO_SIDE = frozenset("the and on my your her its now so to".split())
SENTENCE_ENDS = frozenset(".!?…")
DIALECT = {
    "nae": "no", "nee": "no", "nane": "none", "nowt": "nothing", "nothin": "nothing", "owt": "anything",
    "summat": "something",
    "isnae": "isn't", "isna": "isn't", "wasnae": "wasn't", "wisnae": "wasn't", "arenae": "aren't",
    "doesnae": "doesn't", "didnae": "didn't", "dinnae": "don't", "dinna": "don't", "hasnae": "hasn't",
    "havenae": "haven't", "cannae": "can't", "canna": "can't", "couldnae": "couldn't", "wouldnae": "wouldn't",
    "winnae": "won't", "willnae": "won't", "yin": "one", "yins": "ones", "twa": "two", "hauf": "half",
    "baith": "both", "mair": "more", "auld": "old", "oot": "out", "aff": "off", "doon": "down", "roon": "round",
    "nobbut": "only",
}  # fmt: skip
"""Words of the north of Britain and what they are called elsewhere: "nae cracks", "nowt wrong wi' it"."""


DIGITS = frozenset([*ONES, *TEENS, *TENS, *SCALES, "point"])
"""Behind one of these "o" is a nought where no more is said: "four one five o"."""
OF_WHAT = frozenset("a an the them that this these those it its my your our his her 'em".split())
"""Before one of these it is "of" all the same."""


@dataclass(frozen=True)
class Token:
    """One word, number or mark. ``text`` is lower case; ``pause`` is the silence before it in s."""

    text: str
    start: int
    end: int
    pause: float = 0.0

    @property
    def is_mark(self) -> bool:
        """Whether it is a mark of punctuation."""
        return self.text in PUNCTUATION


@dataclass(frozen=True)
class Mention:
    """A stretch of tokens (start, end half-open) that names something; ``value`` depends on ``kind``."""

    kind: str
    start: int
    end: int
    value: Any = None

    def __len__(self) -> int:
        return self.end - self.start

    def overlaps(self, other: "Mention") -> bool:
        """Whether the two share a token."""
        return self.start < other.end and other.start < self.end


@dataclass
class Reading:
    """Everything understood so far of one transcript."""

    text: str
    tokens: list[Token]
    mentions: dict[str, list[Mention]] = field(default_factory=dict)
    sentences: list[tuple[int, int]] = field(default_factory=list)
    data: dict[str, Any] = field(default_factory=dict)
    _words_of: list[Token] | None = field(default=None, init=False, repr=False, compare=False)
    _words: list[str] = field(default_factory=list, init=False, repr=False, compare=False)
    _by_sentence: dict[tuple[str, ...], tuple[list[list[Mention]], int]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )
    _starts_of: dict[str, tuple[list[Mention], list[int]]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    @property
    def all_words(self) -> list[str]:
        """The words of all tokens; made once, since a walk is asked for them thousands of times."""
        if self._words_of is not self.tokens:
            self._words_of, self._words = self.tokens, [t.text for t in self.tokens]
        return self._words

    def inside(self, kind: str, start: int, end: int) -> list[Mention]:
        """The mentions of a kind that lie wholly in tokens ``start`` to ``end`` (half-open)."""
        mentions = self.of(kind)
        if not mentions:
            return []
        starts = self._starts(kind, mentions)
        found = mentions[bisect_left(starts, start) : bisect_left(starts, end)]
        return [m for m in found if m.end <= end]

    def by_sentence(self, kinds: tuple[str, ...]) -> list[list[Mention]]:
        """The mentions of these kinds that begin in each sentence, in the order of the kinds; made once for them."""
        many = sum(len(self.of(kind)) for kind in kinds)
        rows, before = self._by_sentence.get(kinds, (None, 0))
        if rows is None or many != before:
            starts = [start for start, _ in self.sentences]
            rows = [[] for _ in starts]
            for mention in (m for kind in kinds for m in self.of(kind)):
                at = bisect_right(starts, mention.start) - 1
                if at >= 0:
                    rows[at].append(mention)
            self._by_sentence[kinds] = rows, many
        return rows

    def _starts(self, kind: str, mentions: list[Mention]) -> list[int]:
        """Where the mentions of a kind begin; made once for each list of them, as it is asked for very often."""
        of, starts = self._starts_of.get(kind, (None, list[int]()))
        if of is not mentions or len(starts) != len(mentions):
            starts = [m.start for m in mentions]
            self._starts_of[kind] = mentions, starts
        return starts

    def of(self, kind: str) -> list[Mention]:
        """The mentions of a kind, from left to right."""
        return self.mentions.get(kind, [])

    def words(self, start: int, end: int) -> list[str]:
        """The words of tokens ``start`` to ``end`` (half-open)."""
        return [t.text for t in self.tokens[start:end]]

    def span(self, start: int, end: int) -> tuple[int, int]:
        """Character offsets of tokens ``start`` to ``end`` (half-open)."""
        return self.tokens[start].start, self.tokens[end - 1].end

    def quote(self, start: int, end: int) -> str:
        """The text of tokens ``start`` to ``end`` (half-open) as it stands in the transcript."""
        a, b = self.span(start, end)
        return self.text[a:b]


def split(text: str) -> Iterator[tuple[str, int, int]]:
    """Yield every token of ``text`` as (text, start, end)."""
    for match in TOKEN.finditer(text):
        yield match.group(), match.start(), match.end()


def plain(word: str) -> str:
    """A token in the form used for matching: lower case, straight apostrophe, no dialect."""
    word = word.lower().replace("’", "'")
    return DIALECT.get(word, word)


def words_of(phrase: str) -> tuple[str, ...]:
    """A saying as a tuple of matching forms, cut as the transcript is cut."""
    return tuple(plain(w) for w, _, _ in split(phrase) if w not in "-–" and plain(w) not in FILLERS)


def tokens_of(
    text: str, pauses: Mapping[int, float] = NO_PAUSES, cut: Iterable[tuple[str, int, int]] = ()
) -> list[Token]:
    """The tokens that count, without hesitations and hyphens inside words.

    ``pauses`` are the silences in s, by the offset of the word behind each; ``cut`` is what ``split`` makes of the
    text, where that is known.
    """
    out: list[Token] = []
    hesitating = False
    for said, start, end in cut or split(text):
        word = plain(said)
        before, behind = text[start - 1 : start], text[end : end + 1]
        glued = word in "-–" and before.isalnum() and behind.isalnum() and not (before + behind).isdigit()
        if word in FILLERS:
            hesitating = True
            continue
        if glued:
            continue
        # "Forty, uh, eight": the commas round a hesitation are no commas.
        if hesitating and word == "," and out and out[-1].text == ",":
            out.pop()
            continue
        hesitating = False
        if is_kerb_side(out, word):
            first = out.pop()
            out.append(Token(f"{first.text}side", first.start, end, first.pause))
            continue
        out.append(Token(word, start, end, pauses.get(start, 0.0)))
    return [
        replace(said, text="of") if said.text == "o" and is_of(out, i) else said for i, said in enumerate(out)
    ]


def is_of(tokens: Sequence[Token], at: int) -> bool:
    """Whether a bare "o" is "of" and no nought: "a bit o rust", "one o them", "three quarters o an inch"."""
    counted = at > 0 and tokens[at - 1].text in DIGITS
    return not counted or (at + 1 < len(tokens) and tokens[at + 1].text in OF_WHAT)


def is_kerb_side(before: Sequence[Token], word: str) -> bool:
    """Whether the word ends "near side" or "off side" written apart: "the off side", "tyre, near side"."""
    if word != "side" or not before or before[-1].text not in ("near", "off"):
        return False
    opens = len(before) < 2 or before[-2].is_mark or before[-2].text in LEADS_TO_SIDE
    return before[-1].text == "near" or opens


def runs(flags: Sequence[bool]) -> list[tuple[int, int]]:
    """Where each run of true begins and ends (half-open)."""
    edges = [i for i in range(len(flags) + 1) if (i < len(flags) and flags[i]) != (i > 0 and flags[i - 1])]
    return list(zip(edges[::2], edges[1::2], strict=True))


def with_neighbours(items: Sequence[Item]) -> Iterable[tuple[Item | None, Item, Item | None]]:
    """Every item with the one before it and the one behind it, None at the ends."""
    return zip([None, *items], items, [*items[1:], None], strict=False)


def plain_word(word: str) -> str:
    """A word as the trained parts see it: all numbers in figures are alike."""
    return "0" if word[:1].isdigit() else word


def plain_words(reading: Reading) -> list[str]:
    """All words of a reading as the trained parts see them; made once a reading."""
    made: tuple[list[str], list[str]] | None = reading.data.get("plain")
    if made is None or made[0] is not reading.all_words:
        made = reading.all_words, [plain_word(w) for w in reading.all_words]
        reading.data["plain"] = made
    return made[1]
