"""The shop's own folder and the unit that this run of the program is about.

What is chosen here reaches every stage and every process that the program starts, because it travels in the
environment: ``SAYCHECK_SHOP`` names the folder (several, with the path separator of the system between
them; the last lies on top), ``SAYCHECK_UNIT`` the unit. Without ``SAYCHECK_SHOP`` the key ``shop`` of
``config.toml`` in the user's configuration folder counts, and without that the folder ``shop`` in the
user's data folder, where it is there.
"""

import os
import tomllib
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from saycheck.errors import VocabularyError

SHOP = "SAYCHECK_SHOP"
UNIT = "SAYCHECK_UNIT"


def choose(shop: Path | None = None, unit: str | None = None) -> None:
    """Choose for the rest of this run; None leaves what is chosen already.

    Raises VocabularyError where there is no such folder.
    """
    if shop is not None:
        os.environ[SHOP] = str(_there(shop.expanduser(), "--shop").resolve())
    if unit is not None:
        os.environ[UNIT] = unit


@contextmanager
def about(unit: str | None) -> Iterator[None]:
    """While this lasts the program is about that unit; None changes nothing."""
    before = os.environ.get(UNIT)
    choose(unit=unit)
    try:
        yield
    finally:
        if unit is not None:
            os.environ.pop(UNIT)
            if before is not None:
                os.environ[UNIT] = before


def unit_name(environment: Mapping[str, str] = os.environ) -> str | None:
    """The unit that was chosen, as it was written."""
    return environment.get(UNIT, "").strip() or None


def shop_folders(environment: Mapping[str, str] = os.environ) -> tuple[Path, ...]:
    """The shop's folders, the last on top; none where nothing was chosen.

    Raises VocabularyError where a folder that somebody named is not there.
    """
    if named := environment.get(SHOP, "").strip():
        return tuple(_there(Path(one).expanduser(), SHOP) for one in named.split(os.pathsep) if one.strip())
    if (set_once := configured("shop")) is not None:
        return (_there(set_once, f"'shop' in {config_file()}"),)
    home = home_folder()
    return (home,) if home.is_dir() else ()


def home_folder() -> Path:
    """Where the shop's folder is looked for without being named."""
    from platformdirs import user_data_path

    return user_data_path("saycheck") / "shop"


def config_file() -> Path:
    """The user's configuration file, whether or not it is there."""
    from platformdirs import user_config_path

    return user_config_path("saycheck") / "config.toml"


def configured(key: str) -> Path | None:
    """The folder that a key of ``config.toml`` names, from where that file lies; None where it names none.

    Raises VocabularyError where the file cannot be read or the key is no folder's name.
    """
    path = config_file()
    if not path.is_file():
        return None
    try:
        folder = tomllib.loads(path.read_text(encoding="utf-8")).get(key)
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, OSError) as error:
        raise VocabularyError(f"'{path}' cannot be read ({error}); mend it or take it away") from None
    if folder is None:
        return None
    if not isinstance(folder, str):
        raise VocabularyError(f"'{key}' in '{path}' must be a folder in quotes, not {folder!r}")
    return (path.parent / Path(folder).expanduser()).resolve()


def _there(folder: Path, who: str) -> Path:
    if not folder.is_dir():
        raise VocabularyError(
            f"there is no shop folder '{folder}', which {who} names; make it, or name another one"
        )
    return folder
