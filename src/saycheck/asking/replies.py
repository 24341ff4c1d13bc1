"""Short answers that mean the same to every question: yes, no, skip, later ... (``vocab/shared/replies.toml``)."""

import re
from functools import cache

from saycheck.understanding.text import FILLERS, plain
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Replies

POLITE = frozenset("well so please mate then just".split())
"""Words at the ends of a short answer that change nothing."""

WORD = re.compile(r"[\w']+|\?")


def words_of(text: str) -> list[str]:
    """The words of an answer, lower case, without marks and hesitations."""
    return [word for word in WORD.findall(plain(text)) if word not in FILLERS]


@cache
def _known() -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for table in shared_tables("replies.toml", Replies):
        for row in table.reply:
            for phrase in row.phrases:
                found.setdefault(phrase, set()).add(row.name)
    return found


def replies(text: str) -> frozenset[str]:
    """Which short answers this is, as a whole; "right" is a yes and a side, so there may be two."""
    words = words_of(text)
    while words and words[0] in POLITE and len(words) > 1:
        words = words[1:]
    while words and words[-1] in POLITE and len(words) > 1:
        words = words[:-1]
    return frozenset(_known().get(" ".join(words), ()))


def is_reply(text: str, *names: str) -> bool:
    """Whether this is, as a whole, one of these short answers."""
    return bool(replies(text) & set(names))


def begins(text: str) -> tuple[str, str]:
    """A yes or no at the beginning, and the words behind it: ("yes", "fine"); empty where there is none."""
    words = words_of(text)
    for length in range(min(5, len(words)), 0, -1):
        found = _known().get(" ".join(words[:length]), set()) & {"yes", "no"}
        if found and words[:length] != ["right"]:
            return found.pop(), " ".join(words[length:])
    return "", " ".join(words)


def behind_yes(text: str) -> str:
    """The words without a yes in front. A no stays: "no cracks" denies cracks."""
    said, rest = begins(text)
    return rest if said == "yes" and rest else text
