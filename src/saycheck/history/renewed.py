"""Whether the words of a finding say that the part was renewed or turned, so that its wear begins anew."""

import re

_NEW = re.compile(
    r"\b(?:brand new|new|replaced|renewed|(?:been|was|were|has|have|just|freshly) (?:changed|swapped|fitted))\b"
)
_TURNED = re.compile(
    r"\b(?:been|was|were|has|have|just|freshly|we|i)(?: \w+)? (?:flipped|turned|reversed|rotated)\b"
)
_WANTED = re.compile(r"\b(?:needs?|wants?|due|order|buy|get|should|must|to be|good as|like|as|nearly|near)\b")


def renewed(words: str) -> str:
    """``part replaced``, ``edge reversed`` or nothing, from the words said with a measurement.

    What is only wanted ("needs a new one") renews nothing.
    """
    spoken = " ".join(words.casefold().split())
    if _WANTED.search(spoken):
        return ""
    if _TURNED.search(spoken):
        return "edge reversed"
    return "part replaced" if _NEW.search(spoken) else ""
