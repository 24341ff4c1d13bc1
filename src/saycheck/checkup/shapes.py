"""Every file of a vocabulary folder against its shape: unknown files, unknown keys, values of a wrong kind."""

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path, PurePosixPath
from typing import Any

from saycheck.checkup.fault import Fault, at
from saycheck.coverage.places import Places
from saycheck.errors import SaycheckError
from saycheck.hearing.language.talk import MANNERS, ListsFile, MannerFile
from saycheck.vocabulary import schema
from saycheck.vocabulary.files import TextFile, did_you_mean, keys_of, read_text, slips
from saycheck.vocabulary.load import kinds
from saycheck.vocabulary.schema import Table
from saycheck.vocabulary.waiting import Waitings

SHAPES: dict[str, type[Table]] = {
    "shared/parts.toml": schema.SharedParts,
    "shared/checks.toml": schema.Checks,
    "shared/conditions.toml": schema.Conditions,
    "shared/cues.toml": schema.Cues,
    "shared/clues.toml": schema.Clues,
    "shared/nouns.toml": schema.Nouns,
    "shared/units.toml": schema.Units,
    "shared/places.toml": Places,
    "shared/sounds.toml": schema.Pronunciations,
    "shared/commands.toml": schema.Commands,
    "shared/replies.toml": schema.Replies,
    "shared/waiting.toml": Waitings,
    "shared/sources.toml": schema.Sources,
    "shared/talk/words.toml": ListsFile,
    **{f"shared/talk/{name}.toml": MannerFile for name in MANNERS},
    "machines/*.toml": schema.MachineKind,
    "units/*.toml": schema.UnitFile,
}
"""The shape of each file, by its path in a vocabulary folder; ``*`` is a name of the user's."""


def shape_of(path: str) -> type[Table] | None:
    """The shape of the file at a path in a vocabulary folder, None where no such file is read."""
    known = SHAPES.get(path)
    folder = PurePosixPath(path).parent
    return known or (SHAPES.get(f"{folder}/*.toml") if path.endswith(".toml") else None)


def wrong_shapes(roots: Sequence[Path]) -> Iterator[Fault]:
    """All that is wrong with the shape of the files in these folders, the shipped one first."""
    for root in roots:
        for path in sorted(root.rglob("*.toml")):
            yield from _wrong(path, root, is_shop=root != roots[0])


def _wrong(path: Path, root: Path, is_shop: bool) -> Iterator[Fault]:
    try:
        file = read_text(path, root)
        keys_of(file)
    except SaycheckError as error:
        place, _, sentence = str(error).partition(": ")
        label, _, line = place.partition(", line ")
        yield Fault(label, int(line) if line.isdigit() else 1, sentence or str(error))
        return
    inside = path.relative_to(root).as_posix()
    model = shape_of(inside)
    if model is None:
        hint = did_you_mean(inside, SHAPES) or f"; the files are {', '.join(SHAPES)}"
        yield Fault(file.label, 1, f"no file of this name is read{hint}")
        return
    given = _given(path, is_shop) if model is schema.MachineKind else {}
    yield from (at(file, where, complaint) for where, complaint in slips(file, model, given))


def repeated_words(roots: Sequence[Path]) -> Iterator[Fault]:
    """Words that stand twice in one list of a file that can be read."""
    for root in roots:
        for path in sorted(root.rglob("*.toml")):
            file = read_text(path, root)
            yield from _twice_in_a_list(file, keys_of(file))


def _given(path: Path, is_shop: bool) -> Mapping[str, Any]:
    """A shop's file that adds to a shipped kind may leave out its name and where that comes from."""
    return {"name": path.stem, "standard": ""} if is_shop and path.stem in kinds() else {}


def _twice_in_a_list(file: TextFile, keys: Any, where: tuple[str | int, ...] = ()) -> Iterator[Fault]:
    """Words that stand twice in one list."""
    if isinstance(keys, dict):
        for key, value in keys.items():
            yield from _twice_in_a_list(file, value, (*where, key))
    elif isinstance(keys, list):
        words = [" ".join(word.lower().split()) for word in keys if isinstance(word, str)]
        for word in dict.fromkeys(word for word in words if words.count(word) > 1):
            yield at(file, where, f"'{word}' stands twice in '{where[-1]}'; take one away")
        for place, value in enumerate(keys):
            if isinstance(value, dict | list):
                yield from _twice_in_a_list(file, value, (*where, place))
