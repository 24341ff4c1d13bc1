"""Letters that no font of the write-up has, so that a page never fails for one of them.

Which letters the fonts have only typst knows; it is asked about those beyond everyday Latin, one refusal at
a time. What it refuses is shown as the sign for an unknown letter; the walk holds the words as they were.
"""

import json
import re

from saycheck.reporting.writeup.typeset import RefusedError, typeset

UNKNOWN = "\ufffd"

_EVERYDAY = re.compile(r"[ -~\u00a0-\u017f\u2010-\u2026\u2030\u2032\u2033\u2212\u00d7]+")
_REFUSED = re.compile(r'the text `"(.*?)"` could not be displayed', re.DOTALL)
_ESCAPED = re.compile(r"\\u\{([0-9a-f]+)\}")
_MOST = 60
"""How many strange letters are asked about; a text with more is in another script, and all are replaced."""

_PROBE = b"""#set document(title: "letters")
#set text(font: "Libertinus Serif", lang: "en")
#for letter in json("letters.json") [#letter #parbreak()]
"""


def strange(text: str) -> set[str]:
    """The letters of a text beyond everyday Latin."""
    return set(_EVERYDAY.sub("", text))


def unprintable(text: str) -> set[str]:
    """The letters of a text that no font has, as far as each can be told by itself; nearly always none."""
    left = sorted(strange(text))
    if len(left) > _MOST:
        return set(left)
    refused: set[str] = set()
    while left:
        try:
            typeset({"main.typ": _PROBE, "letters.json": json.dumps(left).encode()})
        except RefusedError as error:
            found = _REFUSED.search(str(error))
            letter = _ESCAPED.sub(lambda code: chr(int(code[1], 16)), found[1]) if found else ""
            named = {one for one in left if one in letter}
            if not named:  # refused for another reason, by any of them
                return refused | set(left)
            refused |= named
            left = [one for one in left if one not in refused]
        else:
            break
    return refused
