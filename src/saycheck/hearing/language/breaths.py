"""A narration as it was written down, put into breaths of words as they are said.

An ear hears what stands between two pauses. Where marks part a text, a pause is likely; a stretch without any
is parted by length.
"""

import re
import unicodedata
from collections.abc import Iterator

from saycheck.hearing.spoken import spoken

LONGEST = 16
"""Words after which one draws breath at the latest."""
_SHORT = 5
"""So many words may stand before a comma that is no pause."""

_PAUSE = re.compile(r"""(?<=[.!?;:])["'”’)\]]*\s+|\s+[-–—]+\s+|\n+""")
_BETWEEN = re.compile(r"(?<=\d)\s*[-–—]\s*(?=\d)")
_JOINED = re.compile(r"[-–—/_]+")


def breaths(text: str) -> Iterator[list[str]]:
    """Yield the breaths of a text, each of at least one word in lower case; "17 mm" is "seventeen mm"."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    plain = _JOINED.sub(lambda mark: " " if mark[0] in "-/_" else " - ", _BETWEEN.sub(" to ", plain))
    for sentence in _PAUSE.split(plain):
        held: list[str] = []
        for written in sentence.split():
            held += spoken(written)
            if (written.endswith(",") and len(held) >= _SHORT) or len(held) >= LONGEST:
                yield held
                held = []
        if held:
            yield held
