"""What is wrong with a vocabulary file, and where."""

from dataclasses import dataclass

from saycheck.vocabulary.files import TextFile
from saycheck.vocabulary.places import Where, line_of


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """A sentence about one line of a file."""

    label: str
    line: int
    sentence: str

    def __str__(self) -> str:
        return f"{self.label}, line {self.line}: {self.sentence}"


def at(file: TextFile, where: Where, sentence: str) -> Fault:
    """A fault at the key or table ``where`` of a file."""
    return Fault(file.label, line_of(file.text, where), sentence)
