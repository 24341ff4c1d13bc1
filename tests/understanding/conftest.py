"""What the tests of understanding share: a sentence read with one machine kind's vocabulary."""

from collections.abc import Callable
from pathlib import Path
from textwrap import dedent

import pytest

from saycheck.understanding.judge import judge
from saycheck.understanding.pipeline import Understood, prepared, understand
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading, tokens_of
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load

KIND = "wheel-loader"

TOY = """\
name = "toy loader"
standard = "trade name"

[[zone]]
name = "front"
sayings = ["the nose", "bucket end"]
part = [
  { name = "bucket" },
  { name = "cutting edge" },
  { name = "bucket pins", like = "pin", kinds = ["bucket"] },
  { name = "tilt cylinder", like = "cylinder", kinds = ["tilt"] },
]

[[zone]]
name = "left side"
side = "left"
part = [
  { name = "front tyre", like = "tyre", kinds = ["front"], sided = true },
  { name = "lift cylinder", like = "cylinder", kinds = ["lift"], sided = true },
  { name = "rear tyre", like = "tyre", kinds = ["rear"], sided = true },
]

[[zone]]
name = "rear"
sayings = ["the back end"]
part = [{ name = "radiator grille" }]

[[zone]]
name = "right side"
side = "right"
mirror = "left side"
part = [{ name = "fuel tank" }]

[[zone]]
name = "engine bay"
sayings = ["under the hood", "the engine"]
part = [
  { name = "fan belt", like = "belt", kinds = ["fan"] },
  { name = "grapple cylinder", like = "cylinder", kinds = ["grapple"], option = "grapple" },
]

[[zone]]
name = "cab"
part = [{ name = "seat belt" }, { name = "mirrors", like = "mirror", sided = true }]
"""

Cut = Callable[[str], list[str]]
Read = Callable[..., Reading]
Statements = Callable[..., list[Statement]]
Rows = Callable[..., list[tuple[str, ...]]]
Understand = Callable[..., Understood]


@pytest.fixture(scope="session")
def cut() -> Cut:
    """Cuts a text into the words that the finders see."""
    return lambda text: [token.text for token in tokens_of(text)]


@pytest.fixture(scope="session")
def toy(tmp_path_factory: pytest.TempPathFactory) -> Vocabulary:
    """A small loader of its own over the shipped parts, so that the shipped machines may change."""
    folder: Path = tmp_path_factory.mktemp("shop")
    (folder / "machines").mkdir()
    (folder / "machines" / "toy-loader.toml").write_text(dedent(TOY), encoding="utf-8")
    return load("toy-loader", [folder])


@pytest.fixture(scope="session")
def read() -> Read:
    """Reads a text: tokens, sentences and all that is named in it."""

    def reading(text: str, kind: str = KIND) -> Reading:
        return prepared(text, kind)[0]

    return reading


@pytest.fixture(scope="session")
def statements() -> Statements:
    """Reads a text and returns its statements, as the rules make them, before they are weighed."""

    def made(text: str, kind: str = KIND) -> list[Statement]:
        return prepared(text, kind)[1]

    return made


@pytest.fixture(scope="session")
def ruled(statements: Statements) -> Rows:
    """Reads a text and returns (part, side, state, condition) of each statement by the rules alone."""

    def rows(text: str, kind: str = KIND) -> list[tuple[str, ...]]:
        out: list[tuple[str, ...]] = []
        for statement in statements(text, kind):
            verdict = judge(statement)
            name = f"no {verdict.condition}" if verdict.denied else verdict.condition
            subject = statement.subject
            out.append((subject.part.name, subject.side or "none", verdict.state, name))
        return out

    return rows


@pytest.fixture(scope="session")
def understood() -> Understand:
    """Understands a text from beginning to end, with the shipped weights."""

    def result(text: str, kind: str = KIND) -> Understood:
        return understand(text, kind)

    return result


@pytest.fixture(scope="session")
def found(understood: Understand) -> Rows:
    """Understands a text and returns (part, side, state) of each finding."""

    def rows(text: str, kind: str = KIND) -> list[tuple[str, ...]]:
        return [(f.part, f.side, f.state) for f in understood(text, kind).findings]

    return rows
