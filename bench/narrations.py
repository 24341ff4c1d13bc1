"""Labelled narrations for the benches: read from a folder, as written or as a recogniser would give them.

A recogniser knows no capitals and no marks and writes numbers as words; ``raw`` turns a narration into
that style together with its labels, whose quotes stay exact quotes of the new text.
"""

import re
import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from saycheck.errors import MachineError
from saycheck.scoring.labels import Labels, Place, places_of, read_labels
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load

ROOT = Path(__file__).resolve().parents[1] / "tests" / "narrations"
TUNE = ROOT / "tune"
ASIDE = ROOT / "aside"

SEEN = "saycheck's trained parts and rules have seen these narrations: its figures flatter it; see --aside"
"""What must stand under any figure on the narrations to tune on."""

_TOKEN = re.compile(
    r"(?P<number>\d+(?:,\d{3})+(?:\.\d+)?|\d+\.\d+|\d+/\d+|\d+)|[A-Za-z]+(?:['\u2019][A-Za-z]+)*|\S"
)
_UNITS = {"mm": "millimetres", "cm": "centimetres", "psi": "p s i", "kpa": "k p a", "%": "percent"}
_UNITS |= {
    "\u00b0": "degrees",
    "v": "volts",
    "nm": "newton metres",
    "l": "litres",
    "in": "inches",
    "ft": "feet",
}


@dataclass(frozen=True)
class Narration:
    """A labelled narration and where it comes from: file name without ending, writer ("w1" of "w1-04")."""

    name: str
    labels: Labels

    @property
    def writer(self) -> str:
        """Who wrote it, by the part of the name before the hyphen."""
        return self.name.partition("-")[0]

    @property
    def words(self) -> int:
        """How many words it has, cut at white space."""
        return len(self.labels.text.split())


def narrations(folder: Path, only: str | None = None) -> list[Narration]:
    """All labelled narrations of a folder, by name; ``only`` keeps those whose name begins so."""
    paths = [path for path in sorted(folder.glob("*.json")) if path.stem.startswith(only or "")]
    return [Narration(path.stem, read_labels(path)) for path in paths]


@cache
def vocabulary_of(machine: str) -> Vocabulary:
    """The vocabulary of a machine kind, read once; MachineError where there is none."""
    return load(machine)


def known(given: Iterable[Narration]) -> list[Narration]:
    """Those whose machine kind has a vocabulary; the others are named on standard error."""
    kept = []
    for narration in given:
        try:
            vocabulary_of(narration.labels.machine)
        except MachineError as error:
            print(f"{narration.name} is left out: {error}", file=sys.stderr)
        else:
            kept.append(narration)
    return kept


def raw(labels: Labels) -> Labels:
    """The narration as a recogniser writes it, with its labels."""
    pieces = list(_pieces(labels.text))
    text = " ".join(said for _, said in pieces)
    places: list[tuple[Place, Place]] = []
    at = 0
    for source, said in pieces:
        places.append((source, (at, at + len(said))))
        at += len(said) + 1

    def moved(quote: str) -> str:
        start, end = places_of(labels.text, quote)[0]
        hits = [place for source, place in places if source[0] < end and source[1] > start]
        return text[hits[0][0] : hits[-1][1]] if hits else ""

    gold = [item.model_copy(update={"quote": moved(item.quote)}) for item in labels.gold]
    distractors = [quote for quote in map(moved, labels.distractors) if quote]
    return labels.model_copy(update={"text": text, "gold": gold, "distractors": distractors})


def _pieces(text: str) -> Iterator[tuple[Place, str]]:
    """Each word, number and unit sign of a text with its place, as it would be heard; marks are silent."""
    after_number = False
    for match in _TOKEN.finditer(text):
        word = match.group().lower().replace("\u2019", "'")
        if match["number"]:
            yield match.span(), spoken(word)
        elif after_number and word in _UNITS:
            yield match.span(), _UNITS[word]
        elif word[0].isalpha():
            yield match.span(), word
        after_number = bool(match["number"])


def spoken(number: str) -> str:
    """A number in figures as it is read out: "11,482", "12.6", "3/16"."""
    from num2words import num2words

    above, slash, below = number.replace(",", "").partition("/")
    if not slash:
        return _plain(num2words(float(above) if "." in above else int(above)))
    part = {2: "half", 4: "quarter"}.get(int(below)) or num2words(int(below), to="ordinal")
    many = "s" if int(above) > 1 else ""
    return _plain(f"{num2words(int(above))} {'halve' if part == 'half' and many else part}{many}")


def _plain(words: str) -> str:
    return " ".join(re.findall(r"[a-z]+", words.lower()))
