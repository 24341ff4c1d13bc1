"""What was said of the weather: whole sentences of the walk, and nothing else."""

import re

from saycheck.models.walk import Walk
from saycheck.reporting.wording import plain

MOST = 2
"""How many sentences are quoted."""

_WEATHER = re.compile(
    r"\b(rain(ing|y|s)?|drizzl(e|ing)|pouring|snow(ing|y|s|ed)?|sleet|hail(ing)?|frost(y|ed)?|frozen|freezing|"
    r"fog(gy)?|mist(y)?|overcast|cloudy|sunny|sunshine|wind(y)?|blowing a gale|"
    r"(cold|cool|hot|warm|wet|dry|bright|grey|gray|dark) (morning|day|night|evening|afternoon)|"
    r"(minus|below) \w+|\w+ (degrees|below)( outside| out)?|bitter(ly)? cold|first light)\b",
    re.IGNORECASE,
)

_NOT_NOW = re.compile(
    r"\b(if|when|whenever|unless|you|till|until|last|used to|once|never|always|every|would|will|'ll|winter|"
    r"tomorrow|yesterday|old|because|screen|washer|hose|antifreeze|coolant|reads?)\b",
    re.IGNORECASE,
)

_SENTENCE = re.compile(r"[^.!?\n]+[.!?]?")
_LONGEST = 120


def weather(walk: Walk) -> list[str]:
    """Sentences about the weather now, as said; empty where nothing was.

    Only talk is looked at, since "frozen" in a finding is said of a part. A sentence that tells of another
    day, or of what one does in such weather, is left out.
    """
    text = walk.transcript.text
    said: list[str] = []
    for sentence in _SENTENCE.finditer(text):
        words = plain(sentence.group())
        if not _WEATHER.search(words) or _NOT_NOW.search(words) or len(words) > _LONGEST:
            continue
        if not _in_finding(walk, sentence.start(), sentence.end()):
            said.append(words)
    return said[:MOST]


def _in_finding(walk: Walk, start: int, end: int) -> bool:
    return any(
        span.disposition in ("finding", "taken-back") and span.char_start < end and start < span.char_end
        for span in walk.transcript.spans
    )
