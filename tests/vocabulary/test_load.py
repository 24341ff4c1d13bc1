"""Finding and loading a machine kind."""

from collections.abc import Callable
from pathlib import Path

import pytest

from saycheck.errors import MachineError, VocabularyError
from saycheck.vocabulary.load import kinds, load, shared_tables
from saycheck.vocabulary.schema import Checks

Write = Callable[..., Path]


@pytest.mark.parametrize(
    "name",
    [
        "toy-loader",
        "Toy Loader",
        "toy_loader",
        " toy  loader ",
        "little digger",  # a saying of the kind
        "LITTLE-DIGGER",
    ],
)
def test_any_name(toy: Path, name: str) -> None:
    """A kind is found by its file name and by all its sayings, however they are written."""
    assert "toy-loader" == load(name).kind


@pytest.mark.parametrize(
    ("name", "message"),
    [
        (
            "weel-loader",
            (
                "there is no machine kind 'weel-loader'; did you mean 'wheel-loader'? "
                "`saycheck vocab kinds` lists them all"
            ),
        ),
        (
            "Telehandlr",
            (
                "there is no machine kind 'Telehandlr'; did you mean 'telehandler'? "
                "`saycheck vocab kinds` lists them all"
            ),
        ),
        ("zzz", "there is no machine kind 'zzz'; `saycheck vocab kinds` lists them all"),
    ],
)
def test_unknown_kind(name: str, message: str) -> None:
    """An unknown kind is answered with the nearest one and where to find the others."""
    with pytest.raises(MachineError) as caught:
        load(name)

    assert message == str(caught.value)


def test_kinds(toy: Path, shop: Write) -> None:
    """Kinds are file names in order; a shop's folder adds its own."""
    machine = 'name = "saw"\nstandard = "trade name"\n[[zone]]\nname = "round it"\n'
    own = shop("own", kind="log-saw", machine=machine)

    assert ["toy-loader"] == kinds()
    assert ["log-saw", "toy-loader"] == kinds([own])
    assert "saw" == load("log saw", [own]).name


def test_missing_folder(tmp_path: Path) -> None:
    """A folder that is not there is told, with what such a folder holds."""
    with pytest.raises(VocabularyError) as caught:
        load("wheel-loader", [tmp_path / "nowhere"])

    assert (
        f"there is no vocabulary folder '{tmp_path / 'nowhere'}'; give one that holds shared/ or machines/"
        == str(caught.value)
    )


def test_version_follows_contents(toy: Path) -> None:
    """The version is 12 hex digits that change when a file used changes, and only then."""
    before = load("toy-loader").version
    again = load("toy-loader").version
    checks = toy / "shared" / "checks.toml"
    checks.write_text(checks.read_text().replace("within limit", "inside the limit"))

    after = load("toy-loader")

    assert before == again
    assert 12 == len(before) == len(bytes.fromhex(before)) * 2
    assert before != after.version
    assert "inside the limit" == after.checks["worn"].good


def test_shared_tables(toy: Path, shop: Write) -> None:
    """A shared file is read from every folder that has it, the shipped one first."""
    own = shop("own", checks='[[check]]\nname = "smell"\nconditions = ["leak"]\ngood = "none"\n')
    none = shop("none")

    tables = shared_tables("checks.toml", Checks, [none, own])

    assert [["leaking", "worn", "thin"], ["smell"]] == [[c.name for c in t.check] for t in tables]
