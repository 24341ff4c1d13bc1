"""Load the vocabulary of a machine kind from its files, the shop's own folders over the shipped one.

A vocabulary folder holds ``shared/`` (parts, checks and more) and ``machines/`` (one file per kind, named
as the trade calls it, in lower case with hyphens). Files are read each time and kept by their contents,
so that an edited file is seen at once and an unchanged one costs nothing.
"""

import hashlib
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path
from typing import TypeVar

from saycheck.errors import MachineError, VocabularyError
from saycheck.vocabulary.build import build
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.files import TextFile, did_you_mean, keys_of, parse, read_text
from saycheck.vocabulary.layers import by_name, over
from saycheck.vocabulary.references import check_machine, check_shared
from saycheck.vocabulary.schema import Checks, MachineKind, SharedParts, Table

T = TypeVar("T", bound=Table)


def shipped_folder() -> Path:
    """The vocabulary that comes with saycheck: inside the package, or at the root of a checkout."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "vocab"
    return inside if inside.is_dir() else package.parents[1] / "vocab"


def kinds(folders: Sequence[Path] = ()) -> list[str]:
    """The machine kinds there are, as ``load`` and the command line take them, in alphabetical order."""
    return sorted({path.stem for root in _roots(folders) for path in (root / "machines").glob("*.toml")})


def load(kind: str, folders: Sequence[Path] = ()) -> Vocabulary:
    """The vocabulary of one machine kind.

    ``kind`` may be written "wheel-loader", "Wheel Loader" or any saying of the kind. ``folders`` lie over
    the shipped vocabulary, the last on top. Raises MachineError for an unknown kind, VocabularyError for
    a file or folder that is not as it should be.
    """
    roots = _roots(folders)
    name = _resolve(kind, folders)
    shared = tuple(file for root in roots for file in _texts(root, "shared"))
    machine = tuple(
        read_text(path, root) for root in roots if (path := root / "machines" / f"{name}.toml").is_file()
    )
    return _load(name, shared, machine)


def shared_tables(file_name: str, model: type[T], folders: Sequence[Path] = ()) -> list[T]:
    """A shared file as it stands in each folder that has it, shipped one first.

    ``file_name`` is its path below ``shared/``, such as ``conditions.toml``.
    """
    paths = [(root, root / "shared" / file_name) for root in _roots(folders)]
    return [parse(read_text(path, root), model) for root, path in paths if path.is_file()]


@lru_cache(maxsize=64)
def _load(kind: str, shared: tuple[TextFile, ...], machine: tuple[TextFile, ...]) -> Vocabulary:
    """Compile from texts: the same texts give the same vocabulary, so it can be kept."""
    part_files = [
        (file, parse(file, SharedParts)) for file in shared if file.label.endswith("/shared/parts.toml")
    ]
    check_files = [parse(file, Checks) for file in shared if file.label.endswith("/shared/checks.toml")]
    parts = by_name(tables.part for _, tables in part_files)
    checks = by_name(tables.check for tables in check_files)
    for file, tables in part_files:
        check_shared(file, tables, parts, checks)
    whole: MachineKind | None = None
    layers: list[tuple[TextFile, MachineKind]] = []
    for file in machine:
        given = {"name": whole.name, "standard": whole.standard} if whole else None
        layer = parse(file, MachineKind, given)
        layers.append((file, layer))
        whole = over(whole, layer) if whole else layer
    assert whole is not None, "a kind is only loaded where a file names it"
    for file, layer in layers:
        check_machine(file, layer, whole, parts, checks)
    return build(kind, whole, parts, checks, _version([*shared, *machine]))


def _resolve(kind: str, folders: Sequence[Path]) -> str:
    """The file name of a kind given by any of its names."""
    known = kinds(folders)
    wanted = "-".join(kind.lower().replace("_", " ").replace("-", " ").split())
    if wanted in known:
        return wanted
    names: dict[str, str] = {name: name for name in known}
    for root in _roots(folders):
        for path in sorted((root / "machines").glob("*.toml")):
            keys = keys_of(read_text(path, root))
            sayings = keys.get("sayings")
            for saying in [keys.get("name", ""), *(sayings if isinstance(sayings, list) else [])]:
                names.setdefault("-".join(str(saying).lower().replace("-", " ").split()), path.stem)
    if wanted in names:
        return names[wanted]
    hint = did_you_mean(wanted, known) or ";"
    raise MachineError(f"there is no machine kind '{kind}'{hint} `saycheck vocab kinds` lists them all")


def _roots(folders: Sequence[Path]) -> list[Path]:
    for folder in folders:
        if not folder.is_dir():
            raise VocabularyError(
                f"there is no vocabulary folder '{folder}'; give one that holds shared/ or machines/"
            )
    return [shipped_folder(), *(folder.resolve() for folder in folders)]


def _texts(root: Path, folder: str) -> list[TextFile]:
    return [read_text(path, root) for path in sorted((root / folder).rglob("*.toml"))]


def _version(files: Sequence[TextFile]) -> str:
    digest = hashlib.sha256()
    for file in files:
        digest.update(file.text.encode() + b"\0")
    return digest.hexdigest()[:12]
