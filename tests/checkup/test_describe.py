"""The JSON Schemas of the vocabulary files, against the reference implementation ``jsonschema``."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from saycheck.checkup.describe import NAMES, schema_of
from saycheck.checkup.shapes import shape_of
from saycheck.errors import VocabularyError
from saycheck.vocabulary.load import shipped_folder

SHIPPED = sorted(shipped_folder().rglob("*.toml"))


def name_for(path: str) -> str:
    """The schema for a file, by its path in a vocabulary folder."""
    shape = shape_of(path)
    exact = [name for name, pattern in NAMES.items() if pattern == path]
    return exact[0] if exact else next(n for n, pattern in NAMES.items() if shape_of(pattern) is shape)


def wrong(name: str, text: str) -> list[str]:
    """What the reference implementation says of a text."""
    schema: dict[str, Any] = schema_of(name)
    return [error.message for error in Draft202012Validator(schema).iter_errors(tomllib.loads(text))]


@pytest.mark.parametrize("name", NAMES)
def test_schema_is_one(name: str) -> None:
    """Each schema is right by the rules for schemas (JSON Schema draft 2020-12)."""
    Draft202012Validator.check_schema(schema_of(name))


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.name)
def test_shipped_file_fits(path: Path) -> None:
    """Every shipped file is as its schema wants it."""
    inside = path.relative_to(shipped_folder()).as_posix()

    assert [] == wrong(name_for(inside), path.read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    ("name", "text", "complaint"),
    [
        ("machine", '[[zone]]\nnam = "x"\n', "Additional properties are not allowed ('nam' was unexpected)"),
        (
            "machine",
            '[[zone]]\nname = "x"\nside = "middle"\n',
            "'middle' is not one of ['left', 'right', 'none']",
        ),
        ("unit", 'name = "four"\nmachine = "hovercraft"\n', "'hovercraft' is not one of"),
        ("conditions", '[[condition]]\nname = "x"\nform = "fault"\n', "'state' is a required property"),
        ("cues", '[[cue]]\ncategory = "latter"\nphrases = []\n', "'latter' is not one of"),
        (
            "machine",
            '[[zone]]\nname = "x"\n[[zone.part]]\nname = "y"\nlike = "tyer"\n',
            "'tyer' is not valid under any of the given schemas",
        ),
        (
            "machine",
            '[[zone]]\nname = "x"\n[[zone.part]]\nname = "y"\nchecks = ["lose"]\n',
            "'lose' is not one of",
        ),
    ],
)
def test_slip_is_refused(name: str, text: str, complaint: str) -> None:
    """A slip that the program would refuse is refused by the schema too."""
    told = wrong(name, text)

    assert any(one.startswith(complaint) for one in told), told


def test_unknown_schema_is_told() -> None:
    """A name that is none is told with the nearest."""
    with pytest.raises(VocabularyError) as told:
        schema_of("machin")

    assert str(told.value).startswith("there is no schema 'machin'; did you mean 'machine'?")


def test_own_words_are_offered(tmp_path: Path) -> None:
    """A shop's own shared part is offered beside the shipped ones."""
    (tmp_path / "shared").mkdir()
    (tmp_path / "shared" / "parts.toml").write_text('[[part]]\nname = "nail magnet"\nchecks = ["loose"]\n')

    schema = schema_of("machine", [tmp_path])

    assert "nail magnet" in schema["$defs"]["MachinePart"]["properties"]["components"]["items"]["enum"]
