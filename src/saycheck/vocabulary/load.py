"""Load the vocabulary of a machine kind from its files, layer over layer.

The layers, each over the one before: what every machine shares, the machine kind, the shop's own folders,
the unit. A vocabulary folder holds ``shared/`` (parts, checks and more), ``machines/`` (one file per kind,
named as the trade calls it, in lower case with hyphens) and, a shop's, ``units/``. Where no folders are
given, those of ``chosen`` count. Files are read each time and kept by their contents, so that an edited
file is seen at once and an unchanged one costs nothing.
"""

import hashlib
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path
from typing import TypeVar

from saycheck.errors import MachineError, VocabularyError
from saycheck.vocabulary.build import build
from saycheck.vocabulary.chosen import shop_folders, unit_name
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.files import TextFile, did_you_mean, keys_of, parse, read_text
from saycheck.vocabulary.schema import Table, UnitFile
from saycheck.vocabulary.stack import Files, stacked
from saycheck.vocabulary.unit import find_unit, fitted

T = TypeVar("T", bound=Table)


def shipped_folder() -> Path:
    """The vocabulary that comes with saycheck: inside the package, or at the root of a checkout."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "vocab"
    return inside if inside.is_dir() else package.parents[1] / "vocab"


def kinds(folders: Sequence[Path] = ()) -> list[str]:
    """The machine kinds there are, as ``load`` and the command line take them, in alphabetical order."""
    return sorted({path.stem for root in roots_of(folders) for path in (root / "machines").glob("*.toml")})


def load(kind: str, folders: Sequence[Path] = (), unit: str | None = None) -> Vocabulary:
    """The vocabulary of one machine kind, of one unit where one is named or chosen and has a file.

    ``kind`` may be written "wheel-loader", "Wheel Loader" or any saying of the kind. ``folders`` lie over
    the shipped vocabulary, the last on top; without them the chosen ones. Raises MachineError for an
    unknown kind, VocabularyError for a file or folder that is not as it should be. An empty ``unit`` is none,
    whatever was chosen.
    """
    return _built(files_of(kind, folders, unit))


def files_of(kind: str, folders: Sequence[Path] = (), unit: str | None = None) -> Files:
    """The files of a machine kind, or of a unit, as they stand now; errors as ``load``."""
    roots = roots_of(folders)
    name = resolve(kind, folders)
    return Files(
        name,
        tuple(file for root in roots for file in _texts(root, "shared")),
        tuple(
            read_text(path, root) for root in roots if (path := root / "machines" / f"{name}.toml").is_file()
        ),
        _unit_file(name, unit, roots, folders),
    )


def _unit_file(
    kind: str, unit: str | None, roots: Sequence[Path], folders: Sequence[Path]
) -> TextFile | None:
    """The file of a unit; one that was only chosen for the run is left aside for other machine kinds."""
    wanted = unit_name() if unit is None else unit
    file = find_unit(wanted, roots) if wanted else None
    if file is None:
        return None
    of = parse(file, UnitFile).machine
    same = resolve(of, folders) == kind
    if not same and unit is not None:
        file.refuse(("machine",), f"'{wanted}' is a {of}, not a {kind}; give --machine {of}")
    return file if same else None


def shared_tables(file_name: str, model: type[T], folders: Sequence[Path] = ()) -> list[T]:
    """A shared file as it stands in each folder that has it, shipped one first.

    ``file_name`` is its path below ``shared/``, such as ``conditions.toml``.
    """
    paths = [(root, root / "shared" / file_name) for root in roots_of(folders)]
    return [parse(read_text(path, root), model) for root, path in paths if path.is_file()]


@lru_cache(maxsize=64)
def _built(files: Files) -> Vocabulary:
    """The same texts give the same vocabulary, so it can be kept."""
    stack = stacked(files)
    return build(
        files.kind,
        fitted(stack.whole, stack.unit),
        stack.shared,
        stack.checks,
        _version(files.all),
        stack.unit.name if stack.unit else None,
    )


def resolve(kind: str, folders: Sequence[Path] = ()) -> str:
    """The file name of a kind given by any of its names; MachineError where there is none."""
    known = kinds(folders)
    wanted = "-".join(kind.lower().replace("_", " ").replace("-", " ").split())
    if wanted in known:
        return wanted
    names: dict[str, str] = {name: name for name in known}
    for root in roots_of(folders):
        for path in sorted((root / "machines").glob("*.toml")):
            keys = keys_of(read_text(path, root))
            sayings = keys.get("sayings")
            for saying in [keys.get("name", ""), *(sayings if isinstance(sayings, list) else [])]:
                names.setdefault("-".join(str(saying).lower().replace("-", " ").split()), path.stem)
    if wanted in names:
        return names[wanted]
    hint = did_you_mean(wanted, known) or ";"
    raise MachineError(f"there is no machine kind '{kind}'{hint} `saycheck vocab kinds` lists them all")


def roots_of(folders: Sequence[Path] = ()) -> list[Path]:
    """The vocabulary folders in use, the shipped one first; VocabularyError where one is not there."""
    for folder in folders:
        if not folder.is_dir():
            raise VocabularyError(
                f"there is no vocabulary folder '{folder}'; give one that holds shared/ or machines/"
            )
    return [shipped_folder(), *(folder.resolve() for folder in folders or shop_folders())]


def _texts(root: Path, folder: str) -> list[TextFile]:
    return [read_text(path, root) for path in sorted((root / folder).rglob("*.toml"))]


def _version(files: Sequence[TextFile]) -> str:
    digest = hashlib.sha256()
    for file in files:
        digest.update(file.text.encode() + b"\0")
    return digest.hexdigest()[:12]
