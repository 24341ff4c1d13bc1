"""A shop's own narrations, for the ears to learn from: transcripts, labelled narrations, reviewed walks.

Of a folder counts what lies directly in it: ``.txt`` files, ``.json`` files with a "text", and the folders of walks
that a person has reviewed through. A folder that is itself a walk counts as that walk.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from saycheck import walkfolder
from saycheck.errors import SaycheckError
from saycheck.source import TextError, is_text, read_text
from saycheck.standing import standing
from saycheck.trusted import trusted

OTHERWISE = "mend it, or take it out of the folder"


class LearnError(SaycheckError):
    """A folder to learn from that is missing, holds nothing, or holds a file that cannot be read."""


@dataclass(frozen=True)
class Own:
    """What a shop has spoken: its ``texts``, how many of them are ``narrations`` and reviewed ``walks``.

    ``unreviewed`` counts the walks that were left out since nobody has reviewed them through.
    """

    texts: list[str]
    narrations: int
    walks: int
    unreviewed: int


def own_narrations(folder: Path) -> Own:
    """Read what there is to learn from in a folder; the same words twice count once.

    Raises:
        SaycheckError: the folder is missing or holds nothing to learn from, or something in it cannot be read.
    """
    if folder.is_file():
        raise LearnError(f"'{folder}' is a file; name the folder that your narrations lie in")
    if not folder.is_dir():
        raise LearnError(
            f"there is no folder '{folder}' to learn from; name one that holds your narrations or reviewed walks"
        )
    inside = _inside(folder)
    narrations = list(_narrations(inside))
    walks = [trusted(standing(path)) for path in inside if (path / walkfolder.WALK).is_file()]
    spoken = [text for text in walks if text]
    texts = {" ".join(text.lower().split()): text for text in [*narrations, *spoken]}
    unreviewed = sum(text is None for text in walks)
    if not texts:
        why = (
            f"none of its {unreviewed} walks is reviewed through" if unreviewed else "no narration lies there"
        )
        raise LearnError(
            f"there is nothing to learn from in '{folder}': {why}; put in .txt files of what was said, "
            "labelled .json files, or walks that you have reviewed"
        )
    return Own(list(texts.values()), len(narrations), len(spoken), unreviewed)


def _inside(folder: Path) -> list[Path]:
    """What counts in a folder: itself where it is a walk, else what lies in it, by name."""
    try:
        if (folder / walkfolder.WALK).is_file():
            return [folder]
        return sorted(path for path in folder.iterdir() if not path.name.startswith("."))
    except OSError as error:
        raise LearnError(
            f"the folder '{folder}' cannot be read ({error.strerror}); look at who may read it"
        ) from error


def _narrations(paths: list[Path]) -> Iterator[str]:
    for path in paths:
        ending = path.suffix.lower()
        if ending not in (".txt", ".json") or path.is_dir():
            continue
        text = _text(path)
        if ending == ".json":
            text = _labelled(path, text)
        if not any(letter.isalpha() for letter in text):
            raise LearnError(f"'{path}' holds no words; {OTHERWISE}")
        yield text


def _text(path: Path) -> str:
    try:
        size = path.stat().st_size
        with path.open("rb"):
            pass
    except OSError as error:
        raise LearnError(f"'{path}' cannot be read ({error.strerror}); {OTHERWISE}") from error
    if not size:
        raise LearnError(f"'{path}' is empty; {OTHERWISE}")
    if not is_text(path):
        raise LearnError(f"'{path}' is no text; {OTHERWISE}")
    try:
        return read_text(path, str(path)).text
    except TextError as error:
        raise LearnError(f"'{path}' holds no words; {OTHERWISE}") from error


def _labelled(path: Path, text: str) -> str:
    try:
        given = json.loads(text)
    except json.JSONDecodeError as error:
        raise LearnError(f"line {error.lineno} of '{path}' is not JSON; {OTHERWISE}") from error
    said = given.get("text") if isinstance(given, dict) else None
    if not isinstance(said, str):
        raise LearnError(f"'{path}' has no \"text\" in which the words of a narration stand; {OTHERWISE}")
    return said
