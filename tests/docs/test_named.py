"""Every command, bench script and module is told of in the documents, and nothing is told of that is not there."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import typer

from saycheck.cli import app

from .conftest import ROOT, Document


def commands(node: Any, words: str = "saycheck") -> Iterator[tuple[str, Any]]:
    """Every command below a group, as it is typed."""
    for name, command in getattr(node, "commands", {}).items():
        yield f"{words} {name}", command
        yield from commands(command, f"{words} {name}")


COMMANDS = dict(commands(typer.main.get_command(app)))
BENCHES = sorted(path.name for path in (ROOT / "bench").glob("*.py"))
SOURCES = ROOT / "src" / "saycheck"


def test_there_are_commands() -> None:
    """The walk over the commands finds those of groups as well."""
    assert {"saycheck hear", "saycheck vocab", "saycheck vocab check"} <= set(COMMANDS)


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_is_named(command: str, readme: Document, developers: Document) -> None:
    """Each command stands in README.md or DEVELOPERS.md."""
    assert re.search(rf"\b{command}\b", readme.text + developers.text)


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_has_help(command: str) -> None:
    """Each command, and each option of it, says what it does."""
    assert (COMMANDS[command].help or "").strip()
    silent = [
        parameter.name
        for parameter in COMMANDS[command].params
        if parameter.param_type_name == "option" and not (parameter.help or "").strip()
    ]
    assert [] == silent


def test_no_command_is_made_up(readme: Document, developers: Document) -> None:
    """What stands in backticks as a command is one."""
    groups = {name for name, command in COMMANDS.items() if hasattr(command, "commands")}
    told = re.findall(r"`(saycheck [a-z]+)( [a-z]+)?\b", readme.text + developers.text)
    assert told
    assert set() == {first + second if first in groups else first for first, second in told} - set(COMMANDS)


@pytest.mark.parametrize("script", BENCHES)
def test_a_bench_is_named(script: str, developers: Document) -> None:
    """Each script of bench/ stands in DEVELOPERS.md under its path."""
    assert f"bench/{script}" in developers.section("Measure")


def test_no_bench_is_made_up(readme: Document, developers: Document) -> None:
    """Each bench script that a document names is there."""
    told = set(re.findall(r"\bbench/(\w+\.py)", readme.text + developers.text))
    assert told
    assert set() == told - set(BENCHES)


def modules() -> set[str]:
    """All modules that do something, as paths below src/saycheck."""
    found = (path.relative_to(SOURCES).as_posix() for path in SOURCES.rglob("*.py"))
    return {path for path in found if not Path(path).name.startswith("__")}


def test_the_tree_is_told_module_by_module(developers: Document) -> None:
    """The section on the tree names each module once, and no other."""
    told = re.findall(r"`([a-z_/]+\.py)`", developers.section("The tree is the data flow"))
    tree = [path for path in told if not path.startswith("bench/")]
    assert sorted(modules()) == sorted(tree)
