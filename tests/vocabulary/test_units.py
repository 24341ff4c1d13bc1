"""The layer of a unit: its options, its own parts, and the run that is about it."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from saycheck.errors import VocabularyError
from saycheck.vocabulary import chosen
from saycheck.vocabulary.load import kinds, load

Write = Callable[..., Path]

UNIT = """\
name = "Number Four"
machine = "toy-loader"
sayings = ["the old girl"]
options = ["boom"]

[[zone]]
name = "front"

[[zone.part]]
name = "bucket"
sayings = ["big spoon"]

[[zone.part]]
name = "load scale"
checks = ["worn"]
"""


@pytest.fixture
def yard(toy: Path, shop: Write) -> Path:
    """A shop's folder with one unit in it."""
    own = shop("own")
    (own / "units").mkdir()
    (own / "units" / "four.toml").write_text(UNIT, encoding="utf-8")
    return own


@pytest.mark.parametrize("name", ["Number Four", "number-four", "four", "The old girl"])
def test_unit_goes_by_any_of_its_names(yard: Path, name: str) -> None:
    """The unit's file is found by its name, its file name and its sayings."""
    assert "Number Four" == load("toy-loader", [yard], name).unit


def test_unit_lies_over_its_kind(yard: Path) -> None:
    """What the unit has is asked for, its own parts and sayings are added, and other units do not change."""
    vocabulary = load("toy-loader", [yard], "Number Four")

    assert ("bucket", "big spoon") == vocabulary.part("bucket").sayings
    assert "load scale" in {line.part for line in vocabulary.lines}
    assert {None} == {line.option for line in vocabulary.lines if line.part == "boom cylinder"}
    assert {"boom"} == {
        line.option for line in load("toy-loader", [yard]).lines if line.part == "boom cylinder"
    }


def test_unit_is_without(yard: Path) -> None:
    """What the unit has not is taken off its list."""
    file = yard / "units" / "four.toml"
    file.write_text('name = "four"\nmachine = "toy-loader"\nwithout = ["boom"]\n', encoding="utf-8")

    assert "boom cylinder" not in {line.part for line in load("toy-loader", [yard], "four").lines}


@pytest.mark.parametrize(
    ("options", "has_door"),
    [("[]", True), ('["canopy"]', False), ('["cab"]', True)],
)
def test_cab_or_canopy(yard: Path, options: str, has_door: bool) -> None:
    """Of two options that exclude each other the unit has what it names, else the usual one."""
    (yard / "machines").mkdir(exist_ok=True)
    (yard / "machines" / "toy-loader.toml").write_text(
        'usual = ["cab"]\neither = [["cab", "canopy"]]\n'
        '[[zone]]\nname = "front"\n[[zone.part]]\nname = "door"\nchecks = ["worn"]\noption = "cab"\n',
        encoding="utf-8",
    )
    file = yard / "units" / "four.toml"
    file.write_text(f'name = "four"\nmachine = "toy-loader"\noptions = {options}\n', encoding="utf-8")

    lines = [line for line in load("toy-loader", [yard], "four").lines if line.part == "door"]

    assert ([None] if has_door else []) == [line.option for line in lines]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        (
            'name = "four"\nmachine = "toy-loader"\noptions = ["bom"]\n',
            "own/units/four.toml, line 3: a toy loader has no option 'bom'; did you mean 'boom'?",
        ),
        (
            'name = "four"\nmachine = "toy-loader"\noptions = ["boom"]\nwithout = ["boom"]\n',
            "own/units/four.toml, line 4: 'boom' cannot stand in 'options' and in 'without'",
        ),
        (
            'name = "four"\nmachine = "toy-loader"\noption = ["boom"]\n',
            "own/units/four.toml, line 3: unknown key 'option' in the file; did you mean 'options'?",
        ),
    ],
)
def test_slip_in_a_unit_file_is_told(yard: Path, text: str, sentence: str) -> None:
    """A slip in a unit's file is told with file and line."""
    (yard / "units" / "four.toml").write_text(text, encoding="utf-8")

    with pytest.raises(VocabularyError) as told:
        load("toy-loader", [yard], "four")

    assert sentence == str(told.value)


def test_unit_of_another_kind_is_refused(yard: Path, shop: Write) -> None:
    """A unit is not heard as a machine that it is not."""
    shop("own", kind="other", machine='name = "other"\nstandard = "trade name"\n[[zone]]\nname = "front"\n')

    with pytest.raises(VocabularyError) as told:
        load("other", [yard], "four")

    assert (
        "own/units/four.toml, line 2: 'four' is a toy-loader, not a other; give --machine toy-loader"
        == str(told.value)
    )


def test_chosen_folder_and_unit_count_everywhere(yard: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is chosen for the run counts wherever no folder is named."""
    monkeypatch.setenv(chosen.SHOP, str(yard))
    with chosen.about("the old girl"):
        inside = load("toy-loader")

    assert ("Number Four", None) == (inside.unit, load("toy-loader").unit)
    assert chosen.UNIT not in os.environ


def test_folder_from_the_configuration(yard: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without option and variable the configuration names the folder, and without it the data folder does."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    assert () == chosen.shop_folders({})

    (tmp_path / "data" / "saycheck" / "shop").mkdir(parents=True)
    assert (tmp_path / "data" / "saycheck" / "shop",) == chosen.shop_folders({})

    (tmp_path / "config" / "saycheck").mkdir(parents=True)
    (tmp_path / "config" / "saycheck" / "config.toml").write_text(f"shop = '{yard}'\n", encoding="utf-8")
    assert (yard,) == chosen.shop_folders({})
    assert (tmp_path,) == chosen.shop_folders({chosen.SHOP: str(tmp_path)})


def test_missing_folder_is_told(tmp_path: Path) -> None:
    """A folder that somebody named and that is not there is told, with who named it."""
    with pytest.raises(VocabularyError) as told:
        chosen.shop_folders({chosen.SHOP: str(tmp_path / "gone")})

    assert (
        f"there is no shop folder '{tmp_path / 'gone'}', which SAYCHECK_SHOP names; make it, or name another one"
        == str(told.value)
    )


def test_shipped_kinds_have_cab_or_canopy() -> None:
    """On the earth movers a canopy takes the place of the cab, its door, glass and wipers."""
    own = [kind for kind in kinds() if any(line.part == "cab door" for line in load(kind).lines)]

    assert {"wheel-loader", "crawler-excavator", "skid-steer-loader", "crawler-dozer"} <= set(own)
