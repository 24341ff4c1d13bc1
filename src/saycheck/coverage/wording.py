"""How parts are named in a question: plain, short, readable with cold hands."""

from collections.abc import Iterable, Sequence

from saycheck.coverage.names import is_plural, words_of
from saycheck.models.walk import Finding, Side

NAMED_MOST = 6


def said(finding: Finding, text: str) -> str:
    """The words of a finding in the transcript, what its part was called where there is no transcript."""
    parts = [text[evidence.char_start : evidence.char_end] for evidence in finding.evidence]
    return " … ".join(part for part in parts if part) or finding.heard_as


def called(part: str, side: Side = "none") -> str:
    """A part with its side in front: "left lift cylinder", "left and right mirrors"."""
    before = {"left": "left ", "right": "right ", "both": "left and right ", "none": ""}
    return before[side] + part


def sentence(text: str) -> str:
    """The text with a capital letter in front."""
    return text[:1].upper() + text[1:]


def listed(names: Sequence[str], most: int = NAMED_MOST) -> str:
    """Names in a row, the rest counted: "horn, seat belt and 7 more"."""
    if len(names) > most + 1:
        return f"{', '.join(names[:most])} and {len(names) - most} more"
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else "".join(names)


def either(choices: Sequence[str]) -> str:
    """Choices in a row: "millimetres or thousandths of an inch"."""
    return f"{', '.join(choices[:-1])} or {choices[-1]}"


def is_or_are(part: str) -> str:
    """The verb that goes with a part's name."""
    words = words_of(part)
    return "are" if words and is_plural(words[-1]) else "is"


def slug(*words: object) -> str:
    """An id made of words: lower case, hyphens between."""
    return "-".join(words_of(" ".join(str(word) for word in words if word)))


def quoted(text: str, most: int = 12) -> str:
    """Words as heard in quotation marks, cut after ``most`` of them."""
    words = text.split()
    return f"“{' '.join(words[:most])}{' …' if len(words) > most else ''}”"


def clock(seconds: float) -> str:
    """A place in the recording: "2:05"."""
    return f"{int(seconds) // 60}:{int(seconds) % 60:02}"


def one_each(names: Iterable[tuple[str, Side]]) -> list[str]:
    """Parts by name, left and right of the same part together, in order of first appearance."""
    sides: dict[str, set[Side]] = {}
    for part, side in names:
        sides.setdefault(part, set()).add(side)
    return [
        called(part, "both" if {"left", "right"} <= found or "both" in found else next(iter(found)))
        for part, found in sides.items()
    ]
