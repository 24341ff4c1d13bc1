"""A change typed as words: "part bucket, side left, state write up, condition worn, 12 mm ± 1, not"."""

import re

from saycheck.errors import ReviewError
from saycheck.models.wishes import Number, Patch
from saycheck.review.patching import find_part
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.files import did_you_mean

STATES = {
    "good": "good", "watch": "watch", "write up": "writeup", "writeup": "writeup", "hidden": "hidden", "later": "later"
}  # fmt: skip
SIDES = ("left", "right", "both", "none")
NUMBER = re.compile(r"(-?\d+(?:[.,]\d+)?)\s*([^\d\s±]\S*(?: \S+)?)?\s*(?:±\s*(\d+(?:[.,]\d+)?))?")


def patch_typed(typed: str, vocabulary: Vocabulary) -> Patch:
    """What is to be otherwise, from words between commas; the names of the fields may be left out.

    A state, a side, a part of the machine and a number are known as such; anything else is the condition.

    Raises:
        ReviewError: nothing was typed, or a part or state that is not known was named.
    """
    told: dict[str, object] = {}
    numbers: list[Number] = []
    for piece in (one.strip() for one in re.split(r",(?!\d)", typed)):
        if piece:
            _take(piece, told, numbers, vocabulary)
    if numbers:
        told["measurements"] = numbers
    if not told:
        raise ReviewError("nothing was typed; say it like: part bucket, state watch, condition worn, 12 mm")
    return Patch.model_validate(told)


def _take(piece: str, told: dict[str, object], numbers: list[Number], vocabulary: Vocabulary) -> None:
    word, _, rest = piece.partition(" ")
    lower = piece.lower()
    if word == "part" and rest:
        told["part"] = _part(rest, vocabulary)
    elif word == "side" or lower in SIDES:
        told["side"] = _one_of(rest if word == "side" else lower, {side: side for side in SIDES}, "side")
    elif word == "state" or lower in STATES:
        told["state"] = _one_of(rest if word == "state" else lower, STATES, "state")
    elif word == "condition" and rest:
        told["condition"] = rest
    elif lower == "not":
        told["denied"] = True
    elif match := NUMBER.fullmatch(piece):
        value, unit, plus = match.groups()
        numbers.append(Number(value=_number(value), unit=unit or "", plus_minus=_number(plus) if plus else 0))
    elif part := find_part(vocabulary, piece):
        told["part"] = part.name
    else:
        told["condition"] = piece


def _part(name: str, vocabulary: Vocabulary) -> str:
    part = find_part(vocabulary, name)
    if part is None:
        hint = did_you_mean(name, [one.name for one in vocabulary.parts]) or ";"
        raise ReviewError(f"there is no part '{name}'{hint} `saycheck vocab show` lists them")
    return part.name


def _one_of(given: str, known: dict[str, str], what: str) -> str:
    found = known.get(given.strip().lower())
    if found is None:
        raise ReviewError(f"there is no {what} '{given}'; it is one of {', '.join(known)}")
    return found


def _number(text: str) -> float:
    return float(text.replace(",", "."))
