"""The documents as tests read them: sections, code blocks, and a checkout to run the blocks in."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]

Run = Callable[[str], subprocess.CompletedProcess[str]]


@dataclass(frozen=True)
class Block:
    """A fenced block of code: the language it is marked with, and its text."""

    language: str
    text: str

    @property
    def file(self) -> str:
        """The path that the first line of the block names in a comment."""
        first = self.text.partition("\n")[0]
        assert first.startswith("# vocab/"), f"the first line must name the file: {first}"
        return first.removeprefix("# ").strip()


@dataclass(frozen=True)
class Document:
    """A Markdown file."""

    text: str

    def section(self, title: str) -> str:
        """What stands under a heading of the second level."""
        found = re.findall(rf"^## {re.escape(title)}\n(.*?)(?=^## |\Z)", self.text, re.MULTILINE | re.DOTALL)
        assert 1 == len(found), f"one section '{title}' is wanted"
        return str(found[0])

    def blocks(self, title: str, language: str = "") -> list[Block]:
        """The blocks of a section in order, all or those of one language; never none."""
        found = [
            Block(*match)
            for match in re.findall(r"^```(\w+)\n(.*?)^```$", self.section(title), re.MULTILINE | re.DOTALL)
        ]
        kept = [block for block in found if language in ("", block.language)]
        assert kept, f"the section '{title}' has no block of code"
        return kept


@pytest.fixture(scope="session")
def developers() -> Document:
    """DEVELOPERS.md."""
    return Document((ROOT / "DEVELOPERS.md").read_text(encoding="utf-8"))


@pytest.fixture(scope="session")
def readme() -> Document:
    """README.md."""
    return Document((ROOT / "README.md").read_text(encoding="utf-8"))


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A copy of the sources and the vocabulary that a test may edit."""
    nothing_made = shutil.ignore_patterns("__pycache__", ".*_cache")
    for name in ("src", "vocab"):
        shutil.copytree(ROOT / name, tmp_path / "checkout" / name, ignore=nothing_made)
    return tmp_path / "checkout"


@pytest.fixture
def run(checkout: Path, tmp_path: Path) -> Run:
    """Runs lines of shell in that copy, where ``saycheck`` and ``python`` are those of the copy."""
    programs = tmp_path / "programs"
    programs.mkdir()
    for name, words in (("saycheck", "-m saycheck "), ("python", "")):
        program = programs / name
        program.write_text(f'#!/bin/sh\nexec "{sys.executable}" {words}"$@"\n', encoding="utf-8")
        program.chmod(0o755)
    environment = os.environ | {
        "PATH": f"{programs}{os.pathsep}{os.environ['PATH']}",
        "PYTHONPATH": str(checkout / "src"),
        "XDG_CACHE_HOME": str(tmp_path / "cache"),
        "COLUMNS": "80",
    }

    def lines(script: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            ["sh", "-eu", "-c", script],
            cwd=checkout,
            env=environment,
            capture_output=True,
            encoding="utf-8",
            timeout=120,
        )

    return lines
